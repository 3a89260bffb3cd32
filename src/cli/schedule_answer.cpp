#include "schedule_answer.hpp"

#include <fmt/format.h>

#include <cmath>

#include "../io/job_words.hpp"
#include "../report/words.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain::cli {

std::string row_label(const CsvRecord& record, const Job& job, const Language& language) {
  const std::optional<std::string> name = word_of(job, "job.name");
  const std::string line = tell(language, "line {}", record.line);
  return name ? line + ", " + shown(*name) : line;
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
    result.answer = report::type_answer(assess(result.row.job, reference), reference, units);
  } catch (const BadInput& error) {
    result.error = told(reference.language, error);
  } catch (const std::exception& error) {
    result.error = tell(reference.language, "line {}: fault of the program: {}", result.record.line, error.what());
    result.fault = true;
  }
  return result;
}

std::string rules_cell(const report::RuleIds& rules) {
  std::vector<std::string> names = rules.built_in;
  for (const std::string& id : rules.own) names.push_back("own:" + id);
  return joined(names, " ");
}

nlohmann::ordered_json cells_json(const CsvRecord& record, const ScheduleLayout& layout) {
  auto cells = nlohmann::ordered_json::array();
  for (std::size_t i = 0; i < record.cells.size(); ++i) {
    const bool named = i < layout.columns.size() && record.problem.empty();
    cells.push_back({{"column", named ? layout.columns[i].name : ""}, {"text", record.cells[i]}});
  }
  return cells;
}

const std::vector<std::string>& answer_columns() {
  static const std::vector<std::string> names{"answer.verdict", "answer.ratio", "answer.odds", "answer.reason",
                                              "answer.rules"};
  return names;
}

std::vector<std::string> answer_cells(const RowResult& result, const TableIn& written_as, const Language& language) {
  if (result.blank) return std::vector<std::string>(answer_columns().size());
  if (!result.answer) return {"error", "", "", result.error, ""};
  const report::TypeAnswer& answer = *result.answer;
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
  const report::TypeAnswer& answer = *result.answer;
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
