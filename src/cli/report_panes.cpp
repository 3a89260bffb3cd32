#include "report_panes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "../report/schedule_summary.hpp"
#include "in_order.hpp"
#include "jobs.hpp"
#include "progress.hpp"
#include "schedule_answer.hpp"
#include "sunstrain/io/job_read.hpp"
#include "table_in.hpp"

namespace sunstrain::cli {
namespace {

bool is_table(const std::string& file) {
  const std::string name = lower_case(file);
  return name.ends_with(".csv") || name.ends_with(".tsv");
}

// The same answer as check's, and the picture of its worst hour.
SheetPane worked(const Job& job, const WeatherYear* weather, const Reference& reference) {
  ChainCache cache;
  SheetPane pane;
  pane.answer = assess(job, reference, cache, weather);
  pane.hour = worst_hour(pane.answer, reference, map_fields, map_fields);
  return pane;
}

std::string name_of(const Job& job) { return word_of(job, "job.name").value_or(""); }

ReportPanes of_jobs(const ReportAsked& asked) {
  std::vector<Job> jobs = jobs_of(asked.files, asked.settings, asked.reference);
  ReportPanes panes;
  panes.several = jobs.size() > 1;
  Progress progress(tell(asked.reference.language, "jobs"), jobs.size(), panes.several);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const auto weather = take_weather(jobs[i], asked.files.empty() ? "" : asked.files[i], asked.reference);
    const SheetPane pane = worked(jobs[i], weather ? &*weather : nullptr, asked.reference);
    panes.names.push_back(name_of(jobs[i]));
    panes.lines.push_back(sheet_line(pane, asked.reference, asked.style));
    panes.sheets.push_back(pane_sheet(pane, asked.papers, asked.reference, asked.style));
    progress.done(i + 1);
  }
  panes.title = panes.several ? tell(asked.reference.language, "{} panes", jobs.size()) : panes.lines.front().label;
  return panes;
}

// A row of a schedule, worked.
struct RowSheet {
  bool blank = false, fault = false;
  std::string label, error;
  ScheduleRow row;
  report::TypeAnswer answer;
  SheetLine line;
  std::string sheet;
};

RowSheet row_sheet(CsvRecord record, const ScheduleLayout& layout, const ReportAsked& asked) {
  const Reference& reference = asked.reference;
  RowSheet made;
  made.blank = record.blank();
  if (made.blank) return made;
  made.label = row_label(record, {}, reference.language);
  try {
    made.row = schedule_row(layout, record, asked.defaults, reference);
    made.label = row_label(record, made.row.job, reference.language);
    made.row.job = with_settings(made.row.job, asked.settings, reference, Film::given);
    SheetPane pane = worked(made.row.job, nullptr, reference);
    pane.quantity = made.row.quantity;
    pane.label = name_of(made.row.job).empty() ? made.label : name_of(made.row.job);
    made.answer = report::type_answer(pane.answer, reference, asked.style.units);
    made.line = sheet_line(pane, reference, asked.style);
    made.sheet = pane_sheet(pane, asked.papers, reference, asked.style);
  } catch (const BadInput& error) {
    made.error = told(reference.language, error);
  } catch (const std::exception& error) {
    made.error = tell(reference.language, "line {}: fault of the program: {}", record.line, error.what());
    made.fault = true;
  }
  return made;
}

void take_row(RowSheet made, ReportPanes& panes, report::ScheduleSummary& summary) {
  if (made.blank) return;
  panes.fault = panes.fault || made.fault;
  if (!made.error.empty()) {
    summary.add_unanswered();
    // What is wrong with a row says which line it is.
    const std::string line = made.label.substr(0, made.label.find(',')) + ": ";
    panes.unanswered.push_back({made.label, made.error.substr(made.error.starts_with(line) ? line.size() : 0)});
    return;
  }
  summary.add(made.label, made.row.job, made.row.quantity, made.answer);
  panes.names.push_back(name_of(made.row.job));
  panes.lines.push_back(std::move(made.line));
  panes.sheets.push_back(std::move(made.sheet));
}

ReportPanes of_table(const ReportAsked& asked) {
  TableIn in(asked.files.front());
  const ScheduleLayout layout = schedule_layout(in.header, in.reader.separator(), in.file.name(), asked.reference);
  std::vector<std::string> choice_keys;
  for (const ScheduleColumn& column : layout.columns)
    if (column.row != nullptr && column.row->kind == JobKey::Kind::choice) choice_keys.push_back(column.name);
  report::ScheduleSummary summary(choice_keys, asked.reference);
  ReportPanes panes;
  panes.title = in.file.name();
  panes.several = true;
  {
    Progress progress(tell(asked.reference.language, "rows"));
    std::size_t rows = 0;
    InOrder<CsvRecord, RowSheet>([&] { return in.next(); },
                                 [&](CsvRecord record) { return row_sheet(std::move(record), layout, asked); },
                                 [&](RowSheet made) {
                                   take_row(std::move(made), panes, summary);
                                   progress.done(++rows);
                                 })
        .run(asked.threads);
  }
  panes.stopped = in.file.stopped();
  if (panes.sheets.empty() && !panes.stopped)
    throw BadInput(panes.unanswered.empty() ? say("{}: has no row", panes.title)
                                            : say("{}: no row has an answer; the first: {}", panes.title,
                                                  Saying(panes.unanswered.front().why)));
  panes.totals = summary.odd_ones();
  if (!panes.sheets.empty()) panes.totals.push_back(summary.breaks());
  return panes;
}

}  // namespace

ReportPanes report_panes(const ReportAsked& asked) {
  const auto table = std::find_if(asked.files.begin(), asked.files.end(), is_table);
  if (table == asked.files.end()) return of_jobs(asked);
  if (asked.files.size() > 1)
    throw BadInput(say("report: {}: a schedule is reported alone, without other files", shown(*table, longest_path)));
  return of_table(asked);
}

}  // namespace sunstrain::cli
