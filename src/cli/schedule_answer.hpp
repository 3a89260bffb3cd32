// What the tool says of one row of a schedule: as cells, and as a line of JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "../report/type_answer.hpp"
#include "sunstrain/io/schedule_read.hpp"
#include "table_in.hpp"

namespace sunstrain::cli {

struct RowResult {
  CsvRecord record;
  bool blank = false;  // a blank row: no type
  ScheduleRow row;     // of a row that could be read
  std::optional<report::TypeAnswer> answer;
  std::string error;   // why there is no answer
  bool fault = false;  // the program's, not the row's
};

// "line 7, stair window": a row as messages and lists call it.
std::string row_label(const CsvRecord& record, const Job& job, const Language& language);

// A row's cells as they stand, each with its column's name: [{"column": "storey", "text": "2"}].
nlohmann::ordered_json cells_json(const CsvRecord& record, const ScheduleLayout& layout);

RowResult answer_row(CsvRecord record, const ScheduleLayout& layout, const Job& defaults, const Reference& reference,
                     Units units);

// Names of the columns that join the schedule's own.
const std::vector<std::string>& answer_columns();

// The cells of those columns, blank for a blank row, with numbers as the table writes them.
std::vector<std::string> answer_cells(const RowResult& result, const TableIn& written_as, const Language& language);

std::string rules_cell(const report::RuleIds& rules);  // "C3 H1 own:Q1"

// {"line": 7, "cells": {...}, "verdict": ...} and a line break; nothing for a blank row.
std::string answer_json(const RowResult& result, const ScheduleLayout& layout);

}  // namespace sunstrain::cli
