#include "sunstrain/report/practice_rows.hpp"

#include "sunstrain/io/csv_rows.hpp"
#include "words.hpp"

namespace sunstrain {

const std::vector<std::string>& practice_columns() {
  static const std::vector<std::string> names{
      "date",          "learner",         "item",         "topic", "verdict.answered",
      "verdict.right", "driver.answered", "driver.right", "right", "tables"};
  return names;
}

std::vector<std::string> practice_cells(const PracticeRow& row) {
  const auto word = [](const std::optional<Verdict>& verdict) {
    return verdict ? report::verdict_word(*verdict) : std::string();
  };
  const PracticeResult& result = row.result;
  std::vector<std::string> cells{row.date,
                                 row.learner,
                                 result.item,
                                 result.topic.empty() ? "own" : result.topic,
                                 word(result.answered),
                                 word(result.verdict),
                                 row.answered,
                                 row.right,
                                 result.right() ? "yes" : "no",
                                 row.tables};
  for (std::string& cell : cells) cell = inert_cell(std::move(cell));
  return cells;
}

}  // namespace sunstrain
