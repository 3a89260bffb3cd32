// sunstrain break: a pane that did crack, against what the literature says.
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "jobs.hpp"
#include "sunstrain/io/break_report.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/break_answer.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("set", po::value<Texts>()->value_name("KEY=VALUE")->composing(),
                    "over the report, or over its job; repeat it")(
      "template", "a report to fill in, every key explained")("json", "the answer as JSON");
  add_style_options(all);
  return all;
}

// The settings on keys of a report, and the others, which are a job's: no key is both.
struct Settings {
  Texts of_report, of_job;
};
Settings settings_of(const po::variables_map& given) {
  Settings settings;
  for (const std::string& setting : texts_of(given, "set")) {
    const std::string key = setting.substr(0, setting.find('='));
    const bool of_job = find_job_key(builtin_reference().job_keys, key) != nullptr;
    (of_job ? settings.of_job : settings.of_report).push_back(setting);
  }
  return settings;
}

Observations seen_of(const std::string& file, const Texts& settings, const BreakTables& tables) {
  const bool standard_input = file == "-";
  Observations seen = read_break_report(read_text_file(standard_input ? "/dev/stdin" : file),
                                        standard_input ? "standard input" : file, tables);
  for (const std::string& setting : settings) set_key(seen, setting, tables.form);
  check_break_report(seen, tables);
  return seen;
}

// The job's answer, and what the engine finds on the report's day.
void work_engine(BreakAnswer& answer, const std::string& job_file, const Texts& settings, const Reference& reference) {
  const Job job = one_job_of({job_file}, settings, reference, "break");
  ChainCache cache;
  answer.assessment = assess(job, reference, cache, nullptr);
  try {
    answer.sheets = sheets_meant(word_of(answer.seen, "crack.lite"), answer.assessment->sheets);
  } catch (const BadInput& error) {
    throw BadInput(say("{}: {}", answer.seen.source, error));
  }
  if (const auto day = day_of(answer.seen))
    answer.day = break_day(*answer.assessment, *day, answer.sheets, reference, cache);
}

}  // namespace

std::string break_help(const Language& language) {
  return tell(language,
              "sunstrain break REPORT.toml [options]: what a crack tells\n\n"
              "  sunstrain break --template > cracked.toml     a report to fill in\n"
              "  sunstrain break cracked.toml                  its answer\n"
              "  sunstrain break cracked.toml --set origin.first_fork=\"150 mm\"\n\n"
              "What was seen at a pane that did crack, beside what the literature says of heat\n"
              "cracks: consistent with thermal, not consistent, or cannot tell; how much stress\n"
              "the crack tells of, low, middle or high; and the engine's stress for that day,\n"
              "where the report names the pane's job file and the day. Nothing needs to be\n"
              "known: what is not is said, with what would settle it. It says what to keep,\n"
              "and never who or what is at fault. The file name \"-\" reads standard input.\n\n") +
         option_list(options(), language) +
         tell(language, "\nExit codes: 0 it ran, whatever the result; 2 bad input; 3 a fault of the program.\n");
}

Outcome break_report(const Words& words) {
  const po::variables_map given = read_options(words, options(), "report", "break");
  const BreakTables tables = builtin_break_tables(language_of(given));
  if (given.count("template") > 0) {
    if (given.size() > 1 + given.count("language"))
      throw BadInput("--template: prints an empty report and goes with no other option or file");
    return {break_template(tables)};
  }
  const Texts files = texts_of(given, "report");
  if (files.size() != 1) throw BadInput("break: name one report; sunstrain break --template prints one to fill in");
  const TextStyle style = style_of(given);
  const Reference reference = builtin_reference_in(language_of(given));
  const Settings settings = settings_of(given);
  BreakAnswer answer{seen_of(files.front(), settings.of_report, tables), {}, std::nullopt, {}, std::nullopt};
  answer.reading = read_break(answer.seen, tables);
  const auto job_file = job_path_of(answer.seen, files.front() == "-" ? "" : files.front());
  if (job_file)
    work_engine(answer, *job_file, settings.of_job, reference);
  else if (!settings.of_job.empty())
    throw BadInput(say("--set {}: the report names no job that it could go over", settings.of_job.front()));
  return {given.count("json") > 0 ? break_json(answer, tables, reference)
                                  : break_text(answer, tables, reference, style)};
}

}  // namespace sunstrain::cli
