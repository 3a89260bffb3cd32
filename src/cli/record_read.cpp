// sunstrain record list, find and show: what is in the record.
#include <fmt/format.h>

#include <algorithm>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "record_options.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using namespace report;

constexpr std::size_t longest = 2000;  // bytes of one text on a terminal

Json text_or_null(const std::optional<std::string>& text) { return text ? Json(*text) : Json(); }

std::string pane_of(const record::Entry& entry, const std::vector<record::Store::Kept>& apart) {
  return entry.pane.value_or(field_of(apart, "job.name"));
}

std::string address_of(const std::vector<record::Store::Kept>& apart) {
  const std::string given = field_of(apart, "address");
  return given.empty() ? field_of(apart, "job.address") : given;
}

std::string numbers_text(const std::vector<std::int64_t>& numbers) {
  std::string text;
  for (const std::int64_t number : numbers) text += (text.empty() ? "" : ", ") + std::to_string(number);
  return text;
}

std::string erasure_text(const record::Entry& entry, const Language& language) {
  std::string text;
  for (const record::Erased& one : entry.erased)
    text += (text.empty() ? "" : ", ") + tell(language, "{} of entry {}", one.field, one.entry);
  return text;
}

std::string verdict_told(const Json& result, const Language& language) {
  return told(language, result.at("verdict").get<std::string>());
}

// What an answer came to, off its JSON: whatever program made it, and in the language in which it was kept.
std::string answer_lines(const Json& result, const Paper& paper) {
  const Language& language = paper.language();
  std::string text = paper.line(tell(language, "Verdict"), verdict_told(result, language));
  text += paper.line(tell(language, "To do"), result.at("to_do").get<std::string>());
  text +=
      paper.line(tell(language, "Ratio"),
                 tell(language, "{:.2f} of what the edge bears at the bad end; most likely {:.2f} of the refer line",
                      result.at("stress_ratio").get<double>(), result.at("stress_ratio_middle").get<double>()));
  std::string label = tell(language, "Why");
  for (const Json& reason : result.at("reasons")) {
    text += paper.line(label, reason.at("text").get<std::string>());
    label.clear();
  }
  std::string unknowns;
  for (const Json& unknown : result.at("unknowns"))
    unknowns += (unknowns.empty() ? "" : ", ") + tell(language, "{} (taken {})",
                                                      key_words(language, unknown.at("key").get<std::string>()),
                                                      unknown.at("taken_as").get<std::string>());
  return unknowns.empty() ? text : text + paper.line(tell(language, "Not known"), unknowns);
}

std::string files_lines(const record::Entry& entry, const std::vector<record::Store::Kept>& apart, const Paper& paper) {
  const Language& language = paper.language();
  std::string text;
  for (const record::Attachment& file : entry.attachments) {
    const std::string name = field_of(apart, fmt::format("attachment.{}.name", file.place));
    text += paper.line(text.empty() ? tell(language, "Files") : "",
                       tell(language, "{} {}, {} bytes, SHA-256 {}", file.place,
                            name.empty() ? tell(language, "(name erased)") : shown(name), file.bytes, file.sha256));
  }
  return text;
}

// Who, where and which: a line for each that is there.
std::string whereabouts(const record::Entry& entry, const std::vector<record::Store::Kept>& apart, const Paper& paper) {
  const Language& language = paper.language();
  const auto line = [&](const std::string& label, const std::string& said) {
    return said.empty() ? "" : paper.line(label, shown(said, longest));
  };
  return line(tell(language, "By"), field_of(apart, "by")) +
         line(tell(language, "Customer"), field_of(apart, "customer")) +
         line(tell(language, "Address"), address_of(apart)) + line(tell(language, "Job"), field_of(apart, "job.name")) +
         line(tell(language, "Job's note"), field_of(apart, "job.note")) +
         line(tell(language, "Pane"), entry.pane.value_or("")) + line(tell(language, "Lot"), entry.lot.value_or("")) +
         line(tell(language, "Looked at"), entry.looked_on.value_or("")) + files_lines(entry, apart, paper) +
         line(tell(language, "Erased"), erasure_text(entry, language));
}

std::string shown_entry(const record::Store& store, const record::Entry& entry, const Paper& paper) {
  const Language& language = paper.language();
  std::string text =
      paper.line(tell(language, "Entry"), tell(language, "{}, recorded {}", entry.number, entry.made_utc));
  if (entry.corrects) text += paper.line(tell(language, "Corrects"), tell(language, "entry {}", *entry.corrects));
  if (const auto later = store.corrected_by(entry.number); !later.empty())
    text += paper.line(tell(language, "Corrected"),
                       tell(language, "by entry {}: this one no longer stands", numbers_text(later)));
  text += whereabouts(entry, store.apart_in_words(entry.number), paper);
  if (entry.program)
    text +=
        paper.line(tell(language, "Versions"), tell(language, "sunstrain {}, tables {}", *entry.program,
                                                    Json::parse(entry.tables.value_or("{}")).value("version", "-")));
  if (entry.result) text += answer_lines(Json::parse(*entry.result), paper);
  return text + paper.head({entry.number, entry.hash});
}

// A line of a list.
std::string entry_line(const record::Store& store, const record::Entry& entry, const Paper& paper) {
  const Language& language = paper.language();
  const auto apart = store.apart_in_words(entry.number);
  std::string text = entry.made_utc.substr(0, 10) + " ";
  if (entry.result) {
    const Json result = Json::parse(*entry.result);
    text += tell(language, "{:<7} {:.2f}", verdict_told(result, language), result.at("stress_ratio").get<double>());
  } else {
    text += tell(language, "erased {}", erasure_text(entry, language));
  }
  for (const std::string& part : {pane_of(entry, apart), address_of(apart)})
    if (!part.empty()) text += "; " + part;
  if (entry.lot) text += tell(language, "; lot {}", *entry.lot);
  if (entry.corrects) text += tell(language, "; corrects entry {}", *entry.corrects);
  if (const auto later = store.corrected_by(entry.number); !later.empty())
    text += tell(language, "; corrected by entry {}", numbers_text(later));
  constexpr int indent = 7;
  return labeled(fmt::format("{:>5}", entry.number), shown(text, longest), indent, paper.width);
}

Json entry_json(const record::Store& store, const record::Entry& entry) {
  Json apart = Json::object(), files = Json::array(), erased = Json::array();
  for (const record::Store::Kept& one : store.apart_in_words(entry.number)) apart[one.field] = one.text;
  for (const record::Attachment& file : entry.attachments)
    files.push_back({{"place", file.place}, {"sha256", file.sha256}, {"bytes", file.bytes}});
  for (const record::Erased& one : entry.erased) erased.push_back({{"entry", one.entry}, {"field", one.field}});
  return {{"entry", entry.number},
          {"kind", entry.kind},
          {"made_utc", entry.made_utc},
          {"corrects", entry.corrects ? Json(*entry.corrects) : Json()},
          {"corrected_by", store.corrected_by(entry.number)},
          {"pane", text_or_null(entry.pane)},
          {"lot", text_or_null(entry.lot)},
          {"looked_on", text_or_null(entry.looked_on)},
          {"program", text_or_null(entry.program)},
          {"tables", entry.tables ? Json::parse(*entry.tables) : Json()},
          {"apart", std::move(apart)},
          {"attachments", std::move(files)},
          {"erased", std::move(erased)},
          {"job", entry.job ? Json::parse(*entry.job) : Json()},
          {"result", entry.result ? Json::parse(*entry.result) : Json()},
          {"hash", entry.hash}};
}

Json with_note(Json document, const Paper& paper) {
  document["safety_note"] = safety_note(paper.reference);
  return document;
}

Outcome entries_printed(const po::variables_map& given, const record::Store& store,
                        const std::vector<std::int64_t>& numbers, const Saying& none) {
  const Paper paper = paper_of(given);
  Json list = Json::array();
  std::string text;
  for (const std::int64_t number : numbers) {
    const record::Entry entry = store.entry(number);
    if (given.count("json") > 0)
      list.push_back(entry_json(store, entry));
    else
      text += entry_line(store, entry, paper);
  }
  if (given.count("json") > 0)
    return {with_note({{"schema", "sunstrain-record-list-1"}, {"entries", std::move(list)}}, paper).dump(2) + "\n"};
  return {text.empty() ? said(none, paper.language()) + "\n" : text + paper.note()};
}

std::optional<std::string> text_given(const po::variables_map& given, const char* option) {
  if (given.count(option) == 0) return std::nullopt;
  return text_of(given, option, "");
}

}  // namespace

po::options_description record_list_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("last", po::value<std::string>()->value_name("N"), "so many, newest last; 20 when left out");
  add_print_options(all);
  return all;
}

Outcome record_list(const Words& words) {
  const po::variables_map given = read_options(words, record_list_options(), nullptr, "record");
  const int last = whole_number(given, "last", 1, 1'000'000, 20);
  const record::Store store(record_path(given), record::Store::Access::look);
  Outcome outcome;
  store.within_one_moment([&] {
    std::vector<std::int64_t> numbers;
    const std::int64_t entries = store.head().entries;
    for (std::int64_t n = std::max<std::int64_t>(1, entries - last + 1); n <= entries; ++n) numbers.push_back(n);
    outcome = entries_printed(given, store, numbers, saying("The record has no entries yet."));
  });
  return outcome;
}

po::options_description record_find_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("customer", po::value<std::string>()->value_name("TEXT"), "a part of the customer's name")(
      "address", po::value<std::string>()->value_name("TEXT"), "a part of the address, the job's own too")(
      "pane", po::value<std::string>()->value_name("TEXT"), "a part of what the pane, or the job, is called")(
      "lot", po::value<std::string>()->value_name("TEXT"), "a part of the film's lot number")(
      "from", po::value<std::string>()->value_name("DAY"), "recorded (UTC) or looked at on that day or later")(
      "to", po::value<std::string>()->value_name("DAY"), "on that day or earlier: 2026-02-28");
  add_print_options(all);
  return all;
}

Outcome record_find(const Words& words) {
  const po::variables_map given = read_options(words, record_find_options(), nullptr, "record");
  const record::Store::Sought sought{text_given(given, "customer"), text_given(given, "address"),
                                     text_given(given, "pane"),     text_given(given, "lot"),
                                     day_given(given, "from"),      day_given(given, "to")};
  if (!sought.customer && !sought.address && !sought.pane && !sought.lot && !sought.from && !sought.to)
    throw BadInput(
        "record find: give --customer, --address, --pane, --lot, --from or --to; all that are given must hold");
  const record::Store store(record_path(given), record::Store::Access::look);
  Outcome outcome;
  store.within_one_moment(
      [&] { outcome = entries_printed(given, store, store.find(sought), saying("No entry has all of that.")); });
  return outcome;
}

po::options_description record_show_options() {
  po::options_description all("Options");
  add_record_option(all);
  add_print_options(all);
  return all;
}

Outcome record_show(const Words& words) {
  const po::variables_map given = read_options(words, record_show_options(), "number", "record");
  const std::int64_t number = entry_number(given, "record show");
  const Paper paper = paper_of(given);
  const record::Store store(record_path(given), record::Store::Access::look);
  Outcome outcome;
  store.within_one_moment([&] {
    const record::Entry entry = store.entry(number);
    if (given.count("json") > 0) {
      const Json document{{"schema", "sunstrain-record-entry-1"}, {"entry", entry_json(store, entry)}};
      outcome.text = with_note(document, paper).dump(2) + "\n";
    } else {
      outcome.text = shown_entry(store, entry, paper) + paper.note();
    }
  });
  return outcome;
}

}  // namespace sunstrain::cli
