// sunstrain record export: all of it in an open form, from which any program can reckon the chain.
#include <fmt/format.h>

#include <filesystem>
#include <limits>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "record_options.hpp"
#include "row_files.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string hex(const std::string& bytes) {
  std::string text;
  for (const char c : bytes) text += fmt::format("{:02x}", static_cast<unsigned char>(c));
  return text;
}

// Every field as it is hashed, so texts of JSON as texts.
Json line_of(const record::Entry& entry, const std::vector<record::Store::Kept>& apart) {
  Json json{{"number", entry.number}, {"kind", entry.kind}, {"made_utc", entry.made_utc}};
  json["corrects"] = entry.corrects ? Json(*entry.corrects) : Json();
  for (const record::EntryText& one : record::entry_texts()) {
    const std::optional<std::string>& text = entry.*one.text;
    json[one.name] = text ? Json(*text) : Json();
  }
  json["attachments"] = json["sealed"] = json["erased"] = json["apart"] = Json::array();
  for (const record::Attachment& file : entry.attachments)
    json["attachments"].push_back({{"place", file.place}, {"sha256", file.sha256}, {"bytes", file.bytes}});
  for (const record::Sealed& one : entry.sealed) json["sealed"].push_back({{"field", one.field}, {"seal", one.seal}});
  for (const record::Erased& one : entry.erased) json["erased"].push_back({{"entry", one.entry}, {"field", one.field}});
  for (const record::Store::Kept& one : apart)
    json["apart"].push_back({{"field", one.field}, {"salt_hex", hex(one.salt)}, {"text", one.text}});
  json["previous"] = entry.previous;
  json["hash"] = entry.hash;
  return json;
}

// "12-1-corner.jpg": of the name only what no file system takes for anything else.
std::string file_name(const record::Entry& entry, std::int64_t place, const std::string& name) {
  std::string plain = name.substr(name.find_last_of('/') + 1);
  for (char& c : plain) {
    const bool harmless =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '_';
    if (!harmless) c = '_';
  }
  return fmt::format("{}-{}-{}", entry.number, place, plain);
}

void write_files(const std::string& directory, const record::Store& store, const record::Entry& entry) {
  if (entry.attachments.empty()) return;
  const auto apart = store.apart(entry.number);
  for (const record::Attachment& file : entry.attachments) {
    const std::string bytes = field_of(apart, fmt::format("attachment.{}.bytes", file.place));
    if (bytes.empty()) continue;
    const std::string name = field_of(apart, fmt::format("attachment.{}.name", file.place));
    RowsOut out((std::filesystem::path(directory) / file_name(entry, file.place, name)).string());
    out.write(bytes);
    out.finish();
  }
}

}  // namespace

po::options_description record_export_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                    "the lines go there; standard output when left out")(
      "files", po::value<std::string>()->value_name("DIRECTORY"), "kept files go there, each under its entry's number");
  return all;
}

Outcome record_export(const Words& words) {
  const po::variables_map given = read_options(words, record_export_options(), nullptr, "record");
  const std::string output = text_of(given, "output", ""), directory = text_of(given, "files", "");
  if (given.count("output") > 0 && output.empty()) throw BadInput("--output: names no file");
  if (given.count("files") > 0 && !std::filesystem::is_directory(directory))
    throw BadInput(say("--files {}: is no directory", shown(directory, longest_path)));
  const record::Store store(record_path(given), record::Store::Access::look);
  RowsOut out(output);
  store.within_one_moment([&] {
    const record::Head head = store.head();
    out.write(Json{{"schema", "sunstrain-record-export-1"},
                   {"mark", store.mark()},
                   {"head", {{"entries", head.entries}, {"hash", head.hash}}}}
                  .dump() +
              "\n");
    store.each(1, std::numeric_limits<std::int64_t>::max(), [&](const record::Entry& entry) {
      out.write(line_of(entry, store.apart_in_words(entry.number)).dump() + "\n");
      if (!directory.empty()) write_files(directory, store, entry);
    });
  });
  out.write(Json{{"safety_note", safety_note(builtin_reference())}}.dump() + "\n");
  out.finish();
  return {};
}

}  // namespace sunstrain::cli
