#include "sunstrain/io/schedule_read.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "condition_load.hpp"
#include "decimal.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

using Holds = ScheduleColumn::Holds;

constexpr const char* quantity_column = "quantity";
constexpr double most_panes = 1'000'000;

// ---- the first row ------------------------------------------------------------------------------------

// "pane.width [mm]" or "pane.width (mm)" -> the unit; the name is left in `header`.
std::string cut_unit(std::string_view& header) {
  if (header.empty() || (header.back() != ']' && header.back() != ')')) return "";
  const std::size_t open = header.rfind(header.back() == ']' ? '[' : '(');
  if (open == std::string_view::npos) return "";
  const std::string unit(trimmed(header.substr(open + 1, header.size() - open - 2)));
  header = trimmed(header.substr(0, open));
  return unit;
}

std::string instance(const JobKey& row) {
  std::string name = row.name;
  if (const std::size_t star = name.find('*'); star != std::string::npos) name.replace(star, 1, "1");
  return name;
}

// "lite2.tint" and "pane_width" are meant as keys, "remark" and "floor" are not. Empty when it is none of ours.
std::string nearly_a_key(const std::string& name, const std::vector<JobKey>& keys) {
  if (!name.empty() && edit_distance(name, quantity_column) <= 2) return quantity_column;
  std::string table = name.substr(0, name.find('.'));
  std::replace(table.begin(), table.end(), ' ', '_');
  const bool dotted = name.find('.') != std::string::npos;
  for (const JobKey& row : keys) {
    const std::string key = instance(row);
    const bool same_table =
        dotted && key.find('.') != std::string::npos && edit_distance(table, key.substr(0, key.find('.'))) <= 1;
    const bool bare_end = row.about_glass && name == key.substr(key.rfind('.') + 1);
    if (same_table || bare_end || (key.find('.') != std::string::npos && edit_distance(name, key) <= 2)) return key;
  }
  return "";
}

void require_unit(const ScheduleColumn& column, const std::string& where) {
  if (column.unit.empty()) return;
  if (column.row == nullptr || !holds_number(column.row->kind))
    throw BadInput(say("{}: [{}]: this column takes no unit", where, shown(column.unit)));
  try {
    parse_quantity(column.row->kind, "1 " + column.unit);
  } catch (const BadInput&) {
    throw BadInput(say("{}: [{}]: no unit of this key: write {}", where, shown(column.unit),
                       Saying(allowed_forms(column.row->kind))));
  }
}

ScheduleColumn column_of(const std::string& header, const std::string& source, const Reference& reference) {
  std::string_view rest = trimmed(header);
  const std::string unit = cut_unit(rest), name = lower_case(rest);
  const std::string where = said(say("{}: column {}", source, quoted(rest)), reference.language);
  ScheduleColumn column;
  column.row = find_job_key(reference.job_keys, name);
  if (name == quantity_column || column.row != nullptr) {
    column.holds = column.row == nullptr ? Holds::quantity : Holds::key;
    column.name = name;
    column.unit = unit;
    require_unit(column, where);
    return column;
  }
  const std::string near = nearly_a_key(name, reference.job_keys);
  if (near == quantity_column) throw BadInput(say("{}: no such key; the nearest is {}", where, near));
  if (!near.empty()) throw BadInput(say("{}: {}", where, no_such_key(name, reference.job_keys)));
  column.name = header;
  return column;
}

// ---- the others ---------------------------------------------------------------------------------------

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "0,45 m" -> "0.45 m" where the table is written with decimal commas. A number with both marks, or several commas,
// stays as it is: nobody can tell what it means.
std::string with_point(std::string text, bool decimal_comma) {
  for (std::size_t from = 0; decimal_comma && from < text.size();) {
    const std::size_t end = std::min(text.find(' ', from), text.size());
    const std::string_view number = std::string_view(text).substr(from, end - from);
    const std::size_t comma = number.find(',');
    const bool between = comma != std::string::npos && comma > 0 && comma + 1 < number.size() &&
                         is_digit(number[comma - 1]) && is_digit(number[comma + 1]);
    if (between && number.find(',', comma + 1) == std::string::npos && number.find('.') == std::string::npos)
      text[from + comma] = '.';
    from = end + 1;
  }
  return text;
}

// Of "900 to 950" the last number stands for all of them.
bool ends_bare(std::string_view text) {
  const std::string low = lower_case(text);
  std::size_t last = 0;
  for (const std::string_view word : {" to ", " or "}) {
    if (const std::size_t at = low.rfind(word); at != std::string::npos) last = std::max(last, at + word.size());
  }
  return bare_number(text.substr(last));
}

double panes(const std::string& text, const std::string& where) {
  double number = 0.0;
  const auto [end, error] = decimal_from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc() && end == text.data() + text.size() && number >= 1.0 && number <= most_panes &&
      number == static_cast<double>(static_cast<long>(number)))
    return number;
  throw BadInput(say("{}: quantity = {}: allowed: whole numbers from 1 to {}", where, quoted(text), most_panes));
}

void require_cells(const ScheduleLayout& layout, const CsvRecord& record, const std::string& where) {
  if (!record.problem.empty()) throw BadInput(say("{}: {}", where, Saying(record.problem)));
  if (record.cells.size() < layout.columns.size())
    throw BadInput(say("{}: has {} cells; the first row has {}", where, record.cells.size(), layout.columns.size()));
  for (std::size_t i = layout.columns.size(); i < record.cells.size(); ++i) {
    if (!trimmed(record.cells[i]).empty())
      throw BadInput(say("{}: has {} cells; the first row has {}", where, i + 1, layout.columns.size()));
  }
}

}  // namespace

ScheduleLayout schedule_layout(const CsvRecord& header, char separator, const std::string& source,
                               const Reference& reference) {
  if (!header.problem.empty()) throw BadInput(say("{}, line {}: {}", source, header.line, Saying(header.problem)));
  ScheduleLayout layout;
  layout.decimal_comma = separator != ',';
  std::set<std::string> seen;
  for (const std::string& cell : header.cells) {
    layout.columns.push_back(column_of(cell, source, reference));
    const ScheduleColumn& column = layout.columns.back();
    if (column.holds == Holds::other) continue;
    if (!seen.insert(column.name).second)
      throw BadInput(say("{}: column {}: this key is given twice", source, quoted(column.name)));
    if (column.name == "weather")
      throw BadInput(
          say("{}: column \"weather\": a schedule is worked on the design days alone; a real year is for "
              "sunstrain check",
              source));
    layout.has_quantity = layout.has_quantity || column.holds == Holds::quantity;
  }
  if (seen.empty())
    throw BadInput(
        say("{}: no column of the first row is a key of a job, such as pane.width; sunstrain check "
            "--template lists them all",
            source));
  return layout;
}

static std::string line_words(const CsvRecord& record, const Language& language) {
  return said(say("line {}", record.line), language);
}

RowTexts row_texts(const ScheduleLayout& layout, const CsvRecord& record, const Language& language) {
  const std::string where = line_words(record, language);
  require_cells(layout, record, where);
  RowTexts row;
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    const ScheduleColumn& column = layout.columns[i];
    std::string text(trimmed(record.cells[i]));
    if (column.holds == Holds::quantity) row.quantity = panes(text, where);
    if (column.holds != Holds::key || text.empty()) continue;
    if (holds_number(column.row->kind)) text = with_point(std::move(text), layout.decimal_comma);
    if (!column.unit.empty() && ends_bare(text)) text += " " + column.unit;
    row.set.emplace_back(column.name, std::move(text));
  }
  return row;
}

ScheduleRow schedule_row(const ScheduleLayout& layout, const CsvRecord& record, const Job& defaults,
                         const Reference& reference) {
  const std::string where = line_words(record, reference.language);
  const RowTexts texts = row_texts(layout, record, reference.language);
  ScheduleRow row{defaults, texts.quantity};
  row.job.source = where;
  for (const auto& [key, text] : texts.set) set_value(row.job, key, text, where, reference);
  return row;
}

}  // namespace sunstrain
