// A schedule: a table with one row for each type of pane of a job, its columns named as the job's keys.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/io/csv_rows.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

struct ScheduleColumn {
  enum class Holds { key, quantity, other };
  Holds holds = Holds::other;
  std::string name;             // the job's key, "quantity", or the header as it stands
  const JobKey* row = nullptr;  // of a key
  std::string unit;             // of "pane.width [mm]": "mm"; it stands for cells without one
};

struct ScheduleLayout {
  std::vector<ScheduleColumn> columns;
  bool decimal_comma = false;  // "0,45" is a number: between semicolons and tabs
  bool has_quantity = false;
};

// What the columns of the first row mean. A column that is no key is passed through, one that is nearly a key or the
// bare end of one ("width") is refused. Throws BadInput naming source and column: that, a key twice, a unit that its
// key does not take, no key at all, a weather file (a schedule is worked on the design days alone).
ScheduleLayout schedule_layout(const CsvRecord& header, char separator, const std::string& source,
                               const Reference& reference);

struct ScheduleRow {
  Job job;
  double quantity = 1.0;  // panes of this type
};

// What a row says as keys and texts, in the columns' order, as a job file would have them: with the column's unit and a
// decimal point. Blank cells say nothing. Throws BadInput with the line for a row that has too few or too many cells,
// or an impossible quantity.
struct RowTexts {
  KeyTexts set;
  double quantity = 1.0;
};
RowTexts row_texts(const ScheduleLayout& layout, const CsvRecord& record, const Language& language);

// One row over the defaults; a blank cell leaves the default as it is, "unknown" takes it out. job.source is
// "line 7". Throws BadInput with line, key, what was wrong and what is allowed; whether the keys go together is for
// check_job.
ScheduleRow schedule_row(const ScheduleLayout& layout, const CsvRecord& record, const Job& defaults,
                         const Reference& reference);

}  // namespace sunstrain
