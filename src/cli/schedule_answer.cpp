#include "schedule_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "../io/job_words.hpp"
#include "../report/words.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/report/reasons.hpp"

namespace sunstrain::cli {
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

TypeAnswer answer_of(const Assessment& assessment, const Reference& reference, Units units) {
  TypeAnswer answer;
  answer.verdict = assessment.verdict;
  answer.ratio = assessment.stress_ratio;
  answer.odds = of_any_lite(assessment);
  answer.reason = reasons_of(assessment, reference, units).front().text;
  answer.rules = report::rule_ids(assessment.rules, assessment.open_rules);
  return answer;
}

}  // namespace

std::string rules_cell(const report::RuleIds& rules) {
  std::vector<std::string> names = rules.built_in;
  for (const std::string& id : rules.own) names.push_back("own:" + id);
  return joined(names, " ");
}

std::string row_label(const CsvRecord& record, const Job& job, const Language& language) {
  const std::optional<std::string> name = word_of(job, "job.name");
  const std::string line = tell(language, "line {}", record.line);
  return name ? line + ", " + shown(*name) : line;
}

std::string panes_text(double quantity, const Language& language) {
  return quantity == 1.0 ? tell(language, "{:.0f} pane", quantity) : tell(language, "{:.0f} panes", quantity);
}

nlohmann::ordered_json cells_json(const CsvRecord& record, const ScheduleLayout& layout) {
  auto cells = nlohmann::ordered_json::array();
  for (std::size_t i = 0; i < record.cells.size(); ++i) {
    const bool named = i < layout.columns.size() && record.problem.empty();
    cells.push_back({{"column", named ? layout.columns[i].name : ""}, {"text", record.cells[i]}});
  }
  return cells;
}

RowResult answer_row(CsvRecord record, const ScheduleLayout& layout, const Job& defaults, const Reference& reference,
                     Units units) {
  RowResult result;
  result.record = std::move(record);
  result.blank = result.record.blank();
  if (result.blank) return result;
  try {
    result.row = schedule_row(layout, result.record, defaults, reference);
    check_job(result.row.job, reference);
    result.answer = answer_of(assess(result.row.job, reference), reference, units);
  } catch (const BadInput& error) {
    result.error = told(reference.language, error);
  } catch (const std::exception& error) {
    result.error = tell(reference.language, "line {}: fault of the program: {}", result.record.line, error.what());
    result.fault = true;
  }
  return result;
}

const std::vector<std::string>& answer_columns() {
  static const std::vector<std::string> names{"answer.verdict", "answer.ratio", "answer.odds", "answer.reason",
                                              "answer.rules"};
  return names;
}

std::vector<std::string> answer_cells(const RowResult& result, const TableIn& written_as, const Language& language) {
  if (result.blank) return std::vector<std::string>(answer_columns().size());
  if (!result.answer) return {"error", "", "", result.error, ""};
  const TypeAnswer& answer = *result.answer;
  return {report::verdict_word(answer.verdict), written_as.number_cell(answer.ratio),
          report::odds_text(language, answer.odds), answer.reason, rules_cell(answer.rules)};
}

std::string answer_json(const RowResult& result, const ScheduleLayout& layout) {
  if (result.blank) return "";
  nlohmann::ordered_json line{{"line", result.record.line}, {"cells", cells_json(result.record, layout)}};
  if (!result.answer) {
    line["verdict"] = "error";
    line["error"] = result.error;
    return line.dump() + "\n";
  }
  const TypeAnswer& answer = *result.answer;
  line["quantity"] = std::llround(result.row.quantity);
  line["verdict"] = report::verdict_word(answer.verdict);
  line["stress_ratio"] = answer.ratio;
  line["breakage_probability"] = {{"low", answer.odds.low}, {"best", answer.odds.best}, {"high", answer.odds.high}};
  line["reason"] = answer.reason;
  line["rules"] = answer.rules.built_in;
  line["own_rules"] = answer.rules.own;
  return line.dump() + "\n";
}

}  // namespace sunstrain::cli
