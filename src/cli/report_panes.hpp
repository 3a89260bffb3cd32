// The panes of a report: jobs, or the rows of a schedule, each worked as check works it.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"
#include "sunstrain/paper/sheet.hpp"

namespace sunstrain::cli {

struct ReportAsked {
  Texts files, settings;
  Job defaults;  // of a schedule's rows
  std::size_t threads = 1;
  const Papers& papers;
  const Reference& reference;
  const SheetStyle& style;
};

// What the panes came to. Sheets and lines are in the order of the jobs or rows.
struct ReportPanes {
  std::string title;
  bool several = false;
  std::vector<std::string> sheets;
  std::vector<SheetLine> lines;
  std::vector<std::string> names;  // job.name of each
  std::vector<UnansweredRow> unanswered;
  std::vector<std::string> totals;  // of a schedule
  bool fault = false, stopped = false;
};

// Throws BadInput for a job that cannot be, a schedule beside other files, one without a row that has an answer.
ReportPanes report_panes(const ReportAsked& asked);

}  // namespace sunstrain::cli
