#include "type_answer.hpp"

#include "sunstrain/report/reasons.hpp"

namespace sunstrain::report {
namespace {

// A pane is broken when one of its lites is. P = 1 - (1 - p1)(1 - p2)...
Odds of_any_lite(const Assessment& assessment) {
  Odds whole{1.0, 1.0, 1.0};
  for (const LiteResult& lite : assessment.lites) {
    whole.low *= 1.0 - lite.after.odds.low;
    whole.best *= 1.0 - lite.after.odds.best;
    whole.high *= 1.0 - lite.after.odds.high;
  }
  return {1.0 - whole.low, 1.0 - whole.best, 1.0 - whole.high};
}

}  // namespace

TypeAnswer type_answer(const Assessment& assessment, const Reference& reference, Units units) {
  TypeAnswer answer;
  answer.verdict = assessment.verdict;
  answer.ratio = assessment.stress_ratio;
  answer.odds = of_any_lite(assessment);
  answer.reason = reasons_of(assessment, reference, units).front().text;
  answer.rules = rule_ids(assessment.rules, assessment.open_rules);
  return answer;
}

std::string panes_text(double quantity, const Language& language) {
  return quantity == 1.0 ? tell(language, "{:.0f} pane", quantity) : tell(language, "{:.0f} panes", quantity);
}

}  // namespace sunstrain::report
