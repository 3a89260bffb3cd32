// What trade practice says, whatever the figures say. Rules are data (reference/rules.toml).
#pragma once

#include <vector>

#include "sunstrain/condition.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

struct FiredRule {
  const Rule* rule;
};

// The rules whose condition holds (not those that cannot be told), worst severity first, then by id.
// `said`: as `holds` has it; the facts themselves when left out.
std::vector<FiredRule> fired_rules(const std::vector<Rule>& rules, const Facts& facts, const Facts& said);
std::vector<FiredRule> fired_rules(const std::vector<Rule>& rules, const Facts& facts);

// Worst severity among fired rules; note when none fired.
Severity worst_severity(const std::vector<FiredRule>& fired);

}  // namespace sunstrain
