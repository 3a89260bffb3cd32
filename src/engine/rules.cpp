#include "sunstrain/rules.hpp"

#include <algorithm>
#include <tuple>

namespace sunstrain {

std::vector<FiredRule> fired_rules(const std::vector<Rule>& rules, const Facts& facts, const Facts& said) {
  std::vector<FiredRule> fired;
  for (const Rule& rule : rules) {
    if (holds(rule.when, facts, said) == Truth::yes) fired.push_back({&rule});
  }
  // Severity is declared mildest first, so the order of the answer is its reverse.
  std::stable_sort(fired.begin(), fired.end(), [](const FiredRule& a, const FiredRule& b) {
    return std::tie(b.rule->severity, a.rule->id) < std::tie(a.rule->severity, b.rule->id);
  });
  return fired;
}

std::vector<FiredRule> fired_rules(const std::vector<Rule>& rules, const Facts& facts) {
  return fired_rules(rules, facts, facts);
}

Severity worst_severity(const std::vector<FiredRule>& fired) {
  Severity worst = Severity::note;
  for (const FiredRule& each : fired) worst = std::max(worst, each.rule->severity);
  return worst;
}

}  // namespace sunstrain
