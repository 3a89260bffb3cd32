// sunstrain record add: a job worked as check works it, and kept.
#include <fmt/format.h>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "attached.hpp"
#include "jobs.hpp"
#include "own_rules.hpp"
#include "record_job.hpp"
#include "record_options.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/weather_read.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::cli {
namespace {

// The user's own rules, read once: what is kept is what the answer was worked with.
std::optional<std::string> rules_text(const po::variables_map& given) {
  if (given.count("rules") == 0) return std::nullopt;
  return read_text_file(text_of(given, "rules", ""));
}

// In English, as a record keeps it, with the user's own rules under a name that says nothing of where they lay.
Reference kept_rules(const po::variables_map& given, const std::optional<std::string>& rules) {
  if (!rules) return builtin_reference();
  with_own_rules(builtin_reference(), text_of(given, "rules", ""), *rules);  // refuses a bad file by its own name
  return with_own_rules(builtin_reference(), own_rules_kept_as, *rules);
}

struct Worked {
  Assessment answer;
  std::string file_text, settings;     // as typed
  std::optional<std::string> weather;  // SHA-256
};

Worked work(const po::variables_map& given, const Reference& reference) {
  const Texts files = texts_of(given, "job"), settings = texts_of(given, "set");
  if (files.size() > 1 || (files.empty() && settings.empty()))
    throw BadInput("record add: name one job file or give its keys with --set");
  const std::string file = files.empty() || files.front() == "-" ? "" : files.front();
  Worked worked;
  Job job{"options", {}};
  if (!files.empty()) {
    worked.file_text = read_text_file(file.empty() ? "/dev/stdin" : file);
    job = read_job_toml(worked.file_text, file.empty() ? "standard input" : file, reference);
  }
  job = with_settings(std::move(job), settings, reference, Film::given);
  for (const std::string& setting : settings) worked.settings += setting + "\n";
  if (const auto path = weather_path(job, file))
    worked.weather = record::sha256_hex(read_text_file(*path, most_weather_bytes));
  const auto year = take_weather(job, file, reference);
  ChainCache cache;
  worked.answer = assess(job, reference, cache, year ? &*year : nullptr);
  worked.answer.drivers = drivers_of(worked.answer, reference, cache);
  return worked;
}

// What the user says of the entry, in the chain. A text that says nothing is none.
std::optional<std::string> said(const po::variables_map& given, const char* option) {
  const std::string text = text_of(given, option, "");
  if (given.count(option) > 0 && trimmed(text).empty()) throw BadInput(say("--{}: says nothing", option));
  require_text(text, fmt::format("--{}", option));
  return text.empty() ? std::nullopt : std::optional(text);
}

record::NewEntry entry_of(const po::variables_map& given, const Worked& worked, const Reference& reference) {
  record::NewEntry fresh;
  record::Entry& entry = fresh.entry;
  const Assessment& answer = worked.answer;
  entry.kind = "answer";
  entry.pane = said(given, "pane");
  entry.lot = said(given, "lot");
  if (given.count("corrects") > 0) entry.corrects = number_among_entries(text_of(given, "corrects", ""), "--corrects");
  entry.looked_on = word_of(answer.job, "job.date");
  entry.program = SUNSTRAIN_VERSION;
  entry.tables = tables_json(reference);
  entry.job = job_json(without_personal(answer.job, reference));
  entry.weather = worked.weather;
  entry.result = result_json(answer, reference);
  fresh.apart = personal_texts(answer.job, reference);
  for (const char* option : {"customer", "address", "by"})
    if (const auto text = said(given, option)) fresh.apart.push_back({option, *text});
  if (!worked.file_text.empty()) fresh.apart.push_back({"job_file", worked.file_text});
  if (!worked.settings.empty()) fresh.apart.push_back({"settings", worked.settings});
  return fresh;
}

void attach(const po::variables_map& given, record::NewEntry& fresh) {
  const Texts paths = texts_of(given, "attach");
  const bool keep = given.count("keep-files") > 0;
  if (keep && paths.empty()) throw BadInput("--keep-files: goes with --attach");
  for (const std::string& path : paths) {
    Attached file = read_attached(path, say("--attach {}", shown(path, longest_path)));
    const auto place = static_cast<std::int64_t>(fresh.entry.attachments.size()) + 1;
    fresh.entry.attachments.push_back(
        {place, record::sha256_hex(file.bytes), static_cast<std::int64_t>(file.bytes.size())});
    fresh.apart.push_back({fmt::format("attachment.{}.name", place), std::move(file.name)});
    if (keep) fresh.apart.push_back({fmt::format("attachment.{}.bytes", place), std::move(file.bytes)});
  }
}

std::string acknowledged(const record::Head& head, const std::string& made_utc, const Assessment& answer,
                         const Paper& paper) {
  const Language& language = paper.language();
  return paper.line(tell(language, "Entry"), tell(language, "{}, recorded {}", head.entries, made_utc)) +
         paper.line(tell(language, "Verdict"),
                    tell(language, "{}; {:.2f} of what the edge bears", report::verdict_words(language, answer.verdict),
                         answer.stress_ratio)) +
         paper.head(head) + paper.note();
}

}  // namespace

po::options_description record_add_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("begin", "start the record where there is none")("by", po::value<std::string>()->value_name("WHO"),
                                                                     "who recorded it; can be erased")(
      "customer", po::value<std::string>()->value_name("NAME"), "can be erased")(
      "address", po::value<std::string>()->value_name("TEXT"), "can be erased; the job's own is kept too")(
      "pane", po::value<std::string>()->value_name("TEXT"), "which pane; stays for good, so no names")(
      "lot", po::value<std::string>()->value_name("TEXT"), "lot number of the film; stays for good")(
      "attach", po::value<Texts>()->value_name("FILE")->composing(),
      "a photo or paper: its SHA-256 stays, its name can be erased; repeat it")(
      "keep-files", "the attached files themselves too; can be erased")(
      "corrects", po::value<std::string>()->value_name("N"), "the entry that this one stands in place of")(
      "set", po::value<Texts>()->value_name("KEY=VALUE")->composing(), "over the file; repeat it");
  add_rules_option(all);
  add_print_options(all);
  return all;
}

Outcome record_add(const Words& words) {
  const po::variables_map given = read_options(words, record_add_options(), "job", "record");
  const std::string path = record_path(given);
  const Paper paper = paper_of(given);
  const std::optional<std::string> rules = rules_text(given);
  const Reference reference = kept_rules(given, rules);
  const Worked worked = work(given, reference);
  record::NewEntry fresh = entry_of(given, worked, reference);
  fresh.entry.own_rules = rules;
  attach(given, fresh);
  record::Store store(path, given.count("begin") > 0 ? record::Store::Access::begin : record::Store::Access::add);
  fresh.entry.made_utc = utc_now();
  const std::string made_utc = fresh.entry.made_utc;
  const record::Head head = store.add(std::move(fresh));
  if (given.count("json") == 0) return {acknowledged(head, made_utc, worked.answer, paper)};
  const nlohmann::ordered_json document{{"schema", "sunstrain-record-added-1"},
                                        {"entry", head.entries},
                                        {"made_utc", made_utc},
                                        {"verdict", report::verdict_word(worked.answer.verdict)},
                                        {"stress_ratio", worked.answer.stress_ratio},
                                        {"head", {{"entries", head.entries}, {"hash", head.hash}}},
                                        {"safety_note", safety_note(paper.reference)}};
  return {document.dump(2) + "\n"};
}

}  // namespace sunstrain::cli
