// The rules as data: each fires where it should and holds its tongue beside it (rule_cases.toml), and what
// it says is fit to be read by the person at the window.
#include "sunstrain/rules.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <stdexcept>

#include "sunstrain/io/quantity.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

const toml::table& cases() {
  static const toml::table table = toml::parse_file(SUNSTRAIN_SOURCE_DIR "/tests/unit/rule_cases.toml");
  return table;
}

// A value as a job file types it, by the kind of its key; figures of the assessment stand as they are.
Value typed_value(const std::string& name, const toml::node& node) {
  if (const auto figure = node.value_exact<double>()) return *figure;
  const std::string text = node.value<std::string>().value();
  if (name.starts_with("figure.")) return text;
  const std::vector<JobKey>& keys = builtin_reference().job_keys;
  const auto key = std::find_if(keys.begin(), keys.end(), [&](const JobKey& k) { return k.name == key_pattern(name); });
  if (key == keys.end()) throw std::runtime_error("rule_cases.toml: no job key " + name);
  if (key->kind != JobKey::Kind::choice) return parse_quantity(key->kind, text);
  if (std::find(key->choices.begin(), key->choices.end(), text) == key->choices.end()) {
    throw std::runtime_error("rule_cases.toml: " + name + " cannot be " + text);
  }
  return text;
}

Facts facts_of(const toml::table& table) {
  Facts facts;
  for (const auto& [name, node] : table) {
    facts[std::string(name.str())] = typed_value(std::string(name.str()), node);
  }
  return facts;
}

const Rule& rule_with(const std::string& id) {
  const std::vector<Rule>& rules = builtin_reference().rules;
  const auto rule = std::find_if(rules.begin(), rules.end(), [&](const Rule& r) { return r.id == id; });
  if (rule == rules.end()) throw std::runtime_error("rule_cases.toml: no rule " + id);
  return *rule;
}

bool fires(const std::string& id, const Facts& facts) {
  const std::vector<FiredRule> fired = fired_rules(builtin_reference().rules, facts);
  return std::any_of(fired.begin(), fired.end(), [&](const FiredRule& f) { return f.rule->id == id; });
}

Rule hand_rule(const char* id, Severity severity, Condition when) {
  return {.id = id,
          .mechanism = "on the day",
          .severity = severity,
          .when = std::move(when),
          .text = "",
          .training = "",
          .source = {},
          .users_own = false};
}

}  // namespace

TEST_CASE("fired rules come worst first, then by id, without those that cannot be told", "[rules]") {
  const Condition wood{.kind = Condition::Kind::is, .fact = "frame.kind", .words = {"wood"}, .limit = 0, .parts = {}};
  const Condition white{
      .kind = Condition::Kind::is, .fact = "frame.color", .words = {"white"}, .limit = 0, .parts = {}};
  const std::vector<Rule> rules{hand_rule("B2", Severity::note, wood),  hand_rule("B1", Severity::ask, {}),
                                hand_rule("A9", Severity::refer, wood), hand_rule("A1", Severity::refer, white),
                                hand_rule("A2", Severity::refer, {}),   hand_rule("A0", Severity::note, {})};
  const std::vector<FiredRule> fired = fired_rules(rules, {{"frame.kind", "wood"}});
  std::string order;
  for (const FiredRule& f : fired) order += f.rule->id + " ";
  CHECK(order == "A2 A9 B1 A0 B2 ");
  CHECK(worst_severity(fired) == Severity::refer);
  CHECK(worst_severity({}) == Severity::note);
  CHECK(worst_severity({fired[3], fired[2]}) == Severity::ask);
}

TEST_CASE("each rule fires in its case and is silent beside it", "[rules]") {
  std::set<std::string> covered;
  for (const toml::node& node : *cases()["case"].as_array()) {
    const toml::table& one = *node.as_table();
    const std::string id = one["rule"].value<std::string>().value();
    CAPTURE(id);
    covered.insert(id);
    const Facts firing = facts_of(*one["fires"].as_table()), silent = facts_of(*one["silent"].as_table());
    CHECK(fires(id, firing));
    CHECK_FALSE(fires(id, silent));
    // A near miss must be a plain no, not a rule that lacks a fact to speak.
    CHECK(holds(rule_with(id).when, silent) == Truth::no);
  }
  for (const Rule& rule : builtin_reference().rules) {
    CAPTURE(rule.id);
    CHECK(covered.count(rule.id) == 1);
  }
}

TEST_CASE("a mild film on a sound single pane meets no rule but notes", "[rules]") {
  const Facts quiet = facts_of(*cases()["quiet"].as_table());
  for (const FiredRule& fired : fired_rules(builtin_reference().rules, quiet)) {
    CAPTURE(fired.rule->id);
    CHECK(fired.rule->severity == Severity::note);
  }
}

TEST_CASE("of an empty job only what is annealed until shown otherwise is said", "[rules]") {
  CHECK(worst_severity(fired_rules(builtin_reference().rules, {})) == Severity::note);
}

TEST_CASE("a rule's number tells its mechanism, and no two are alike", "[rules]") {
  const std::map<std::string, char> letters{{"weaker edge", 'W'},  {"colder edge", 'C'},         {"hotter middle", 'H'},
                                            {"not modelled", 'X'}, {"history and consent", 'P'}, {"on the day", 'D'}};
  std::set<std::string> ids;
  for (const Rule& rule : builtin_reference().rules) {
    CAPTURE(rule.id, rule.mechanism);
    REQUIRE(letters.count(rule.mechanism) == 1);
    CHECK(rule.id.front() == letters.at(rule.mechanism));
    CHECK(ids.insert(rule.id).second);
    CHECK_FALSE(rule.users_own);
    if (rule.mechanism == "on the day") CHECK(rule.severity == Severity::note);
  }
  CHECK(ids.size() >= 20);
}

TEST_CASE("what a rule says is short, sourced and promises nothing", "[rules]") {
  const std::regex promise("\\b(safe|approved|certified|guaranteed?|complies)\\b", std::regex::icase);
  const std::regex sentence("[^.;]+[.;]?");
  for (const Rule& rule : builtin_reference().rules) {
    CAPTURE(rule.id);
    CHECK(rule.training.size() > rule.text.size());
    CHECK_FALSE(rule.source.text.empty());
    CHECK_FALSE(std::regex_search(rule.text + " " + rule.training, promise));
    CHECK(rule.text.size() <= 180);
    for (std::sregex_iterator it(rule.text.begin(), rule.text.end(), sentence), end; it != end; ++it) {
      const std::string words = it->str();
      CAPTURE(words);
      CHECK(std::count(words.begin(), words.end(), ' ') <= 24);
    }
  }
}
