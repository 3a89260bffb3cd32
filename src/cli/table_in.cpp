#include "table_in.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain::cli {

TableIn::TableIn(const std::string& path)
    : file(path),
      reader([this](char* to, std::size_t size) { return file.read(to, size); }, file.name()),
      header(header_row(reader, file.name())) {}

std::optional<CsvRecord> TableIn::next() {
  CsvRecord record;
  if (!reader.next(record) || file.stopped()) return std::nullopt;
  return record;
}

std::string TableIn::line(const std::vector<std::string>& cells) const {
  return csv_line(cells, reader.separator(), reader.line_end());
}

std::string TableIn::first_line(const std::vector<std::string>& cells) const {
  return (reader.has_mark() ? "\xEF\xBB\xBF" : "") + line(cells);
}

std::string TableIn::number_cell(double number) const {
  std::string cell = fmt::format("{:.3f}", number);
  if (reader.separator() == ';') std::replace(cell.begin(), cell.end(), '.', ',');
  return cell;
}

void refuse_answer_columns(const ScheduleLayout& layout, const std::vector<std::string>& answers,
                           const std::string& source) {
  for (const ScheduleColumn& column : layout.columns) {
    for (const std::string& name : answers) {
      if (lower_case(trimmed(column.name)) == name)
        throw BadInput(say("{}: column {}: is one that the answer adds; take it out", source, quoted(name)));
    }
  }
}

Job defaults_of(const po::variables_map& given, const Reference& reference) {
  const std::string path = text_of(given, "defaults", "");
  if (given.count("defaults") == 0) return {};
  Job job = read_job_toml(read_text_file(path), path, reference);
  if (job.values.count("weather") > 0)
    throw BadInput(
        say("{}: weather: a schedule is worked on the design days alone; a real year is for "
            "sunstrain check",
            shown(path, longest_path)));
  return job;
}

}  // namespace sunstrain::cli
