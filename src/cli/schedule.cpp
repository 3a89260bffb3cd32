// sunstrain schedule: a table of pane types in, the same with an answer in each row out.
#include <fmt/format.h>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/schedule_summary.hpp"
#include "../report/words.hpp"
#include "command.hpp"
#include "in_order.hpp"
#include "own_rules.hpp"
#include "progress.hpp"
#include "schedule_answer.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "table_in.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                    "the rows with their answers; standard output when left out. The file takes its name once it is "
                    "whole")("defaults", po::value<std::string>()->value_name("JOB.toml"),
                             "keys that hold for every row which leaves them blank: site, film")(
      "json", "a line of JSON for each row in place of the table")(
      "units", po::value<std::string>()->value_name("metric|inch"), "of the reasons; metric when left out");
  add_threads_option(all,
                     worded("rows worked at once; all cores when left out. The output is the same for any number"));
  add_rules_option(all);
  all.add_options()("help", "this page");
  return all;
}

std::string one_table(const po::variables_map& given) {
  const Texts files = texts_of(given, "table");
  if (files.size() != 1)
    throw BadInput("schedule: name one table of pane types, \"-\" for standard input; sunstrain schedule --help");
  return files.front();
}

// Everything that the rows have in common.
struct Schedule {
  TableIn in;
  ScheduleLayout layout;

  const Language& language;

  Schedule(const std::string& path, const Reference& reference)
      : in(path),
        layout(schedule_layout(in.header, in.reader.separator(), in.file.name(), reference)),
        language(reference.language) {
    refuse_answer_columns(layout, answer_columns(), in.file.name());
  }

  std::vector<std::string> with(std::vector<std::string> cells, const std::vector<std::string>& more) const {
    cells.resize(layout.columns.size());
    cells.insert(cells.end(), more.begin(), more.end());
    return cells;
  }
  std::string first_line() const { return in.first_line(with(in.header.cells, answer_columns())); }
  std::string line(const RowResult& result) const {
    return in.line(with(result.record.cells, answer_cells(result, in, language)));
  }
};

// Columns that hold words of the job's keys.
std::vector<std::string> choice_keys(const ScheduleLayout& layout) {
  std::vector<std::string> keys;
  for (const ScheduleColumn& column : layout.columns)
    if (column.row != nullptr && column.row->kind == JobKey::Kind::choice) keys.push_back(column.name);
  return keys;
}

void add(const RowResult& result, report::ScheduleSummary& summary, const Language& language) {
  if (result.blank) return;
  if (result.answer)
    summary.add(row_label(result.record, result.row.job, language), result.row.job, result.row.quantity,
                *result.answer);
  else
    summary.add_unanswered();
}

}  // namespace

std::string schedule_help(const Language& language) {
  return tell(language,
              "sunstrain schedule TABLE.csv [options]: every pane type of a job, row by row\n\n"
              "  sunstrain schedule panes.csv --defaults site-and-film.toml -o answers.csv\n"
              "  sunstrain schedule - < panes.csv > answers.csv\n\n"
              "The first row names the columns by the keys of a job (sunstrain check --template\n"
              "lists them), and \"quantity\" for how many panes there are of the type. A unit in\n"
              "the name, \"pane.width [mm]\", is that of cells without one. Other columns pass\n"
              "through. A blank cell takes the default; \"unknown\" takes that out.\n"
              "Comma, semicolon or tab, decimal comma beside the latter two, UTF-8 or Latin-1:\n"
              "as spreadsheets save it. The rows come back in their order with the columns\n") +
         joined(answer_columns()) +
         tell(language,
              ".\nA row that cannot be read says so in answer.reason and stops no other.\n\n"
              "Then a summary, on standard error where the rows go to standard output: the odd\n"
              "ones (one wood frame among vinyl), by verdict, by facing, the worst types, and\n"
              "how many panes may break on their worst design day.\n\n") +
         option_list(options(), language) +
         tell(
             language,
             "\nExit codes: 0 every row was examined, whatever the verdicts; 2 a row was not, or\nbad input; 3 a fault "
             "of the program; 130 stopped by Ctrl-C, with\nthe rows that were done.\n");
}

Outcome schedule(const Words& words) {
  const po::variables_map given = read_options(words, options(), "table", "schedule");
  const Reference reference = reference_of(given);
  const std::string path = one_table(given);
  const Units units = units_of(given);
  const std::size_t threads = threads_of(given);
  const bool json = given.count("json") > 0;
  const Job defaults = defaults_of(given, reference);
  Schedule table(path, reference);
  const std::string output = text_of(given, "output", "");
  if (given.count("output") > 0 && output.empty()) throw BadInput("--output: names no file");
  RowsOut out(output);
  if (!json) out.write(table.first_line());
  report::ScheduleSummary summary(choice_keys(table.layout), reference);
  bool fault_met = false;
  const auto next = [&] { return table.in.next(); };
  const auto work = [&](CsvRecord record) {
    return answer_row(std::move(record), table.layout, defaults, reference, units);
  };
  {
    // Rows that go to the terminal show how far it is.
    Progress progress(tell(reference.language, "rows"), 0, !output.empty() || !output_is_terminal());
    const std::optional<double> bytes = table.in.file.size();
    std::size_t rows = 0;
    const auto take = [&](const RowResult& result) {
      out.write(json ? answer_json(result, table.layout) : table.line(result));
      fault_met = fault_met || result.fault;
      add(result, summary, reference.language);
      progress.done(++rows, bytes ? std::optional(static_cast<double>(result.record.end) / *bytes) : std::nullopt);
    };
    InOrder<CsvRecord, RowResult>(next, work, take).run(threads);
  }
  out.finish();
  const bool cut = table.in.file.stopped();
  const Exit exit = fault_met ? fault : cut ? stopped : summary.errors() > 0 ? bad_input : ran;
  const std::string text =
      (cut ? tell(reference.language, "Stopped before the end of the table.") + "\n" : "") +
      summary.text(table.layout.has_quantity) +
      report::labeled(tell(reference.language, "Note"), safety_note(reference), report::label_columns, usual_width);
  // Where the rows have a file of their own, the summary is the output.
  return !output.empty() ? Outcome{text, exit, ""} : Outcome{"", exit, text};
}

}  // namespace sunstrain::cli
