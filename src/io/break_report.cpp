#include "sunstrain/io/break_report.hpp"

#include <algorithm>

#include "job_check.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sky_word.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"
#include "tell.hpp"
#include "users_toml.hpp"

namespace sunstrain {
namespace {

// Whether the name is the first part of a job's keys: "pane", "site".
bool names_job_table(const std::string& name) {
  const std::string start = name + ".";
  const std::vector<JobKey>& keys = builtin_reference().job_keys;
  return std::any_of(keys.begin(), keys.end(), [&](const JobKey& key) { return key.name.starts_with(start); });
}

// A job's tables in a report: the job stands in a file of its own.
void refuse_job_tables(const DataNode& document, const std::string& source) {
  for (std::size_t i = 0; i < document.keys.size(); ++i) {
    const DataNode& item = document.items[i];
    if (item.kind != DataNode::Kind::table || !names_job_table(document.keys[i])) continue;
    throw BadInput(say("{}, line {}: [{}]: belongs in the job file; a report names that file: job = \"stair.toml\"",
                       source, item.line, document.keys[i]));
  }
}

std::string typed(const Observations& seen, const BreakTables& tables, const std::string& key) {
  const JobKey& row = *find_job_key(tables.form.job_keys, key);
  return format_in_unit(row.kind, *number_of(seen, key), row.unit);
}

void check_counts(const Observations& seen, const BreakTables& tables) {
  constexpr const char* all = "other_panes.looked_at";
  const std::optional<double> looked_at = number_of(seen, all);
  if (!looked_at) return;
  double cracked = 0.0;
  for (const char* key : {"other_panes.cracked_with_film", "other_panes.cracked_without_film"})
    cracked += number_of(seen, key).value_or(0.0);
  if (cracked > *looked_at)
    throw BadInput(say("{}: {} = {}: more panes cracked than were looked at ({:.0f})", seen.source, all,
                       typed(seen, tables, all), cracked));
}

void check_temperatures(const Observations& seen, const BreakTables& tables) {
  const std::optional<double> lowest = number_of(seen, "day.lowest"), highest = number_of(seen, "day.highest");
  if (lowest && highest && *highest < *lowest)
    throw BadInput(say("{}: day.highest = {}: must not be under day.lowest ({})", seen.source,
                       typed(seen, tables, "day.highest"), typed(seen, tables, "day.lowest")));
}

}  // namespace

Observations read_break_report(std::string_view text, std::string source_name, const BreakTables& tables) {
  source_name = shown(source_name, longest_path);
  refuse_job_tables(
      parse_users_toml(text, source_name, saying("sunstrain {} --template prints one to start from", "break")),
      source_name);
  return read_job_toml(text, std::move(source_name), tables.form);
}

void check_break_report(const Observations& seen, const BreakTables& tables) {
  check_keys_apply(seen, tables.form);
  check_counts(seen, tables);
  check_temperatures(seen, tables);
}

std::optional<std::string> job_path_of(const Observations& seen, const std::string& report_file) {
  const std::optional<std::string> named = word_of(seen, "job");
  return named ? std::optional(path_beside(*named, report_file)) : std::nullopt;
}

std::optional<GivenDay> day_of(const Observations& seen) {
  const std::optional<std::string> date = word_of(seen, "day.date"), sky = word_of(seen, "day.sky");
  const std::optional<double> lowest = number_of(seen, "day.lowest"), highest = number_of(seen, "day.highest");
  if (!date || !sky || !lowest || !highest) return std::nullopt;
  return GivenDay{std::stoi(date->substr(5, 2)), std::stoi(date->substr(8)), *lowest, *highest,
                  cloud_named(*sky).value()};
}

std::string break_template(const BreakTables& tables) {
  return key_template(
      tables.form,
      tell(tables.form.language,
           "A pane that cracked. Photograph and keep the pieces first. Take the # off every line that you know and "
           "write what you saw; \"unknown\" is the same as left out, and a guess is worse. Lengths need their unit: "
           "150 mm, 6 in. Known in part: \"100 to 150 mm\", or \"clear or 2/8\" with the likeliest first."));
}

}  // namespace sunstrain
