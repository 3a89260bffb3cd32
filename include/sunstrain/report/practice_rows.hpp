// What a crew's table of practice results holds.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/practice.hpp"

namespace sunstrain {

struct PracticeRow {
  std::string date;     // as the learner's clock has it
  std::string learner;  // empty: nobody said
  PracticeResult result;
  std::string answered, right;  // what decides, in words; of a drill the answers
  std::string tables;           // Reference::version
};

// date, learner, item, topic ("own" of a trainer's), verdict.answered, verdict.right, driver.answered, driver.right,
// right, tables.
const std::vector<std::string>& practice_columns();

// The cells in that order; none that a spreadsheet would take for a formula (inert_cell).
std::vector<std::string> practice_cells(const PracticeRow& row);

}  // namespace sunstrain
