// rules.toml, and rules of a user's own beside them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "condition_load.hpp"
#include "fingerprint.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "users_toml.hpp"

namespace sunstrain {
namespace {

constexpr std::array<std::pair<const char*, Severity>, 3> severities{
    {{"note", Severity::note}, {"ask", Severity::ask}, {"refer", Severity::refer}}};

constexpr std::array<const char*, 6> mechanisms{"weaker edge",  "colder edge",         "hotter middle",
                                                "not modelled", "history and consent", "on the day"};

std::string mechanism_of(DataRow& row) {
  const std::string mechanism = row.text("mechanism");
  if (std::find(mechanisms.begin(), mechanisms.end(), mechanism) == mechanisms.end())
    row.refuse_word("mechanism", mechanism, {mechanisms.begin(), mechanisms.end()});
  return mechanism;
}

// What every rule has.
Rule rule_of(DataRow& row, const std::vector<JobKey>& keys) {
  Rule rule;
  rule.id = row.text("id");
  rule.severity = word_named(row, "severity", severities);
  rule.when = load_condition(row.node("when"), keys, row.where() + ", when");
  rule.text = row.text("text");
  rule.training = row.text_or("training", "");
  return rule;
}

// A number that fits a cell beside others and a printed line.
void require_plain_id(const DataRow& row, const std::string& id) {
  constexpr std::size_t longest = 20;
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           c == '.';
  };
  if (id.size() > longest || !std::all_of(id.begin(), id.end(), allowed))
    row.refuse("id", say("allowed: up to {} letters a to z, digits, - _ and .", longest));
}

// As a job's names: one line without control characters, of bounded length.
void require_plain_text(const DataRow& row, const char* key, const std::string& text) {
  try {
    parse_value(JobKey{}, text);
  } catch (const BadInput& error) {
    row.refuse(key, error.in_words());
  }
}

Rule own_rule_of(DataRow& row, const std::string& file, const Reference& reference) {
  Rule rule = rule_of(row, reference.job_keys);
  require_plain_id(row, rule.id);
  for (const Rule& other : reference.rules) {
    if (lower_case(other.id) != lower_case(rule.id)) continue;
    row.refuse("id", other.users_own ? say("another rule is called {}; take another", other.id)
                                     : say("a built-in rule is called {}; take another", other.id));
  }
  if (row.has("mechanism")) rule.mechanism = mechanism_of(row);
  rule.source = {row.text_or("source", "your own rule, " + file), Certainty::judgement};
  if (row.has("certainty")) rule.source.certainty = certainty_named(row.text("certainty"), row.where());
  require_plain_text(row, "text", rule.text);
  require_plain_text(row, "training", rule.training);
  require_plain_text(row, "source", rule.source.text);
  rule.users_own = true;
  row.finish();
  return rule;
}

}  // namespace

std::vector<Rule> load_rules(const std::string& file, std::string_view text, const std::vector<JobKey>& job_keys) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"rule"});
  std::vector<Rule> rules;
  for (DataRow& row : rows_of(document, file, "rule")) {
    Rule& rule = rules.emplace_back(rule_of(row, job_keys));
    rule.mechanism = mechanism_of(row);
    rule.source = row.source();
    row.finish();
  }
  return rules;
}

Reference with_own_rules(Reference reference, const std::string& file, std::string_view text) {
  const std::string source = shown(file, longest_path);
  const DataNode document = parse_users_toml(text, source, "examples/crew-rules.toml shows the form of a rule");
  require_tables(document, source, {"rule"});
  std::vector<DataRow> rows = rows_of(document, source, "rule");
  for (DataRow& row : rows) reference.rules.push_back(own_rule_of(row, source, reference));
  reference.own_rules = OwnRules{source, fingerprint_of({text}), rows.size()};
  return reference;
}

}  // namespace sunstrain
