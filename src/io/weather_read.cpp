#include "sunstrain/io/weather_read.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "decimal.hpp"
#include "say.hpp"
#include "sunstrain/job.hpp"
#include "weather_fill.hpp"

namespace sunstrain {
namespace {

using Row = std::vector<std::string_view>;

constexpr double zero_c_k = 273.15;

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\r' || c == '\t' || c == '"'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

Row cells_of(std::string_view line) {
  Row row;
  for (;;) {
    const std::size_t cut = std::min(line.find(','), line.size());
    row.push_back(trimmed(line.substr(0, cut)));
    if (cut == line.size()) return row;
    line.remove_prefix(cut + 1);
  }
}

// A file's lines, with their numbers for messages.
struct Line {
  std::size_t number;
  Row cells;
};

std::vector<Line> lines_of(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::vector<Line> lines;
  for (std::size_t number = 1; !text.empty(); ++number) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = trimmed(text.substr(0, end));
    if (!line.empty()) lines.push_back({number, cells_of(line)});
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

[[noreturn]] void refuse(const std::string& source, std::size_t line, const Saying& what) {
  throw BadInput(say("{}, line {}: {}", source, line, what));
}

// One quantity of a record: its name in messages, what the file may say, and from where on it says "missing".
struct Quantity {
  const char* name;
  double least, most, missing_from;
};

std::optional<double> number_in(std::string_view cell) {
  double value = 0.0;
  if (cell.starts_with('+')) cell.remove_prefix(1);
  const auto [end, error] = decimal_from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc() || end != cell.data() + cell.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

double number_at(const std::string& source, const Line& line, std::size_t column, const Quantity& q) {
  if (column >= line.cells.size()) refuse(source, line.number, say("ends before {}", Saying(q.name)));
  const auto value = number_in(line.cells[column]);
  if (!value) refuse(source, line.number, say("{} = \"{}\": must be a number", Saying(q.name), line.cells[column]));
  if (*value < q.least || *value > q.most) {
    refuse(source, line.number, say("{} = {}: must be {} to {}", Saying(q.name), line.cells[column], q.least, q.most));
  }
  return *value;
}

// A quantity that may be missing: an empty cell, or the format's own mark.
std::optional<double> measured_at(const std::string& source, const Line& line, std::size_t column, const Quantity& q) {
  if (column >= line.cells.size() || line.cells[column].empty()) return std::nullopt;
  const auto value = number_in(line.cells[column]);
  if (value && *value >= q.missing_from) return std::nullopt;
  return number_at(source, line, column, q);
}

constexpr Quantity month_q{"month", 1, 12, 1e9}, day_q{"day", 1, 31, 1e9}, hour_q{"hour", 0, 24, 1e9},
    minute_q{"minute", 0, 60, 1e9}, air_q{"air temperature, C", -75, 65, 99.9}, dew_q{"dew point, C", -95, 60, 99.9},
    beam_q{"direct normal sun, W/m2", 0, 1500, 9999}, diffuse_q{"diffuse horizontal sun, W/m2", 0, 1200, 9999},
    sky_q{"sky long-wave, W/m2", 50, 700, 9999}, snow_q{"snow depth, cm", 0, 900, 999};

// Where each quantity stands in a row; -1: not at all.
struct Columns {
  int month, day, hour, minute, air, dew, beam, diffuse, sky, snow;
};
constexpr Columns epw_columns{1, 2, 3, 4, 6, 7, 14, 15, 12, 30};

WeatherRecord record_of(const std::string& source, const Line& line, const Columns& c, double interval_h) {
  const auto at = [&](int column, const Quantity& q) -> std::optional<double> {
    return column < 0 ? std::nullopt : measured_at(source, line, static_cast<std::size_t>(column), q);
  };
  const auto kelvin = [](std::optional<double> c_deg) {
    return c_deg ? std::optional(*c_deg + zero_c_k) : std::nullopt;
  };
  const auto need = [&](int column, const Quantity& q) {
    return number_at(source, line, static_cast<std::size_t>(column), q);
  };
  WeatherRecord record;
  record.month = static_cast<int>(need(c.month, month_q));
  record.day = static_cast<int>(need(c.day, day_q));
  record.hour = need(c.hour, hour_q);
  if (c.minute >= 0 && interval_h < 1.0) {  // hour 1, minute 15 is a quarter past midnight
    const double minute = need(c.minute, minute_q);
    record.hour += (minute > 0.0 ? minute : 60.0) / 60.0 - 1.0;
  }
  record.air_k = kelvin(at(c.air, air_q));
  record.dew_point_k = kelvin(at(c.dew, dew_q));
  record.beam_normal_w_m2 = at(c.beam, beam_q);
  record.diffuse_horizontal_w_m2 = at(c.diffuse, diffuse_q);
  record.sky_w_m2 = at(c.sky, sky_q);
  record.snow = at(c.snow, snow_q).value_or(0.0) >= 1.0;
  return record;
}

std::size_t header_of(const std::vector<Line>& lines, std::string_view word, const std::string& source) {
  for (std::size_t i = 0; i < std::min<std::size_t>(lines.size(), 20); ++i)
    if (lines[i].cells.front() == word) return i;
  throw BadInput(say("{}: no header line {}", source, word));
}

void read_location(const std::string& source, const Line& line, WeatherYear& year) {
  constexpr double degree = 3.14159265358979323846 / 180.0;
  year.latitude_rad = degree * number_at(source, line, 6, {"latitude", -90, 90, 1e9});
  year.longitude_rad = degree * number_at(source, line, 7, {"longitude", -180, 180, 1e9});
  year.utc_offset_h = number_at(source, line, 8, {"time zone, h", -12, 14, 1e9});
  year.altitude_m = number_at(source, line, 9, {"altitude, m", -450, 6000, 1e9});
}

// The header's design conditions: after the word Heating the coldest month and the 99.6 % dry bulb, after the word
// Cooling the hottest month, its daily range and the 0.4 % dry bulb.
void read_design(const Line& line, WeatherYear& year) {
  const auto after = [&](std::string_view word, std::size_t places) -> std::optional<double> {
    const auto found = std::find(line.cells.begin(), line.cells.end(), word);
    if (line.cells.end() - found <= static_cast<std::ptrdiff_t>(places)) return std::nullopt;
    return number_in(*(found + static_cast<std::ptrdiff_t>(places)));
  };
  const auto coldest = after("Heating", 2), range = after("Cooling", 2), hottest = after("Cooling", 3);
  if (!coldest || !range || !hottest || *coldest < -75 || *hottest > 65 || *range < 0 || *range > 40) {
    year.remarks.push_back(worded("the header has no design temperatures that can be used"));
    return;
  }
  year.design = WeatherDesign{*coldest + zero_c_k, *hottest + zero_c_k, *range};
}

WeatherYear read_epw(const std::vector<Line>& lines, const std::string& source) {
  WeatherYear year;
  year.source = source;
  read_location(source, lines[header_of(lines, "LOCATION", source)], year);
  read_design(lines[header_of(lines, "DESIGN CONDITIONS", source)], year);
  const std::size_t periods = header_of(lines, "DATA PERIODS", source);
  const double an_hour = number_at(source, lines[periods], 2, {"records an hour", 1, 60, 1e9});
  if (std::fmod(60.0, an_hour) != 0.0) refuse(source, lines[periods].number, "records an hour must divide 60");
  year.interval_s = 3600.0 / an_hour;
  for (std::size_t i = periods + 1; i < lines.size(); ++i)
    year.records.push_back(record_of(source, lines[i], epw_columns, 1.0 / an_hour));
  return year;
}

Columns named_columns(const std::string& source, const Line& header) {
  constexpr std::array<const char*, 9> names{
      "month",       "day",      "hour",   "air_c", "beam_normal_w_m2", "diffuse_horizontal_w_m2",
      "dew_point_c", "sky_w_m2", "snow_cm"};
  std::array<int, 9> at;
  at.fill(-1);
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    const auto found = std::find(names.begin(), names.end(), header.cells[i]);
    if (found == names.end()) continue;  // further columns are the user's own
    at[static_cast<std::size_t>(found - names.begin())] = static_cast<int>(i);
  }
  for (std::size_t i = 0; i < 6; ++i) {
    if (at[i] < 0) {
      refuse(source, header.number,
             say("no column {}: a weather table needs month, day, hour, air_c, beam_normal_w_m2 and "
                 "diffuse_horizontal_w_m2, or must be an EPW file, which begins with LOCATION",
                 names[i]));
    }
  }
  return {at[0], at[1], at[2], -1, at[3], at[6], at[4], at[5], at[7], at[8]};
}

WeatherYear read_table(const std::vector<Line>& lines, const std::string& source) {
  WeatherYear year;
  year.source = source;
  const Columns columns = named_columns(source, lines.front());
  for (std::size_t i = 1; i < lines.size(); ++i) year.records.push_back(record_of(source, lines[i], columns, 0.0));
  if (year.records.size() < 3) refuse(source, lines.front().number, "no records below the names of the columns");
  double interval_h = 24.0;  // the shortest step forward within a day is the interval
  for (std::size_t i = 1; i < year.records.size(); ++i) {
    const double step_h = year.records[i].hour - year.records[i - 1].hour;
    if (step_h > 1e-6) interval_h = std::min(interval_h, step_h);
  }
  year.interval_s = std::round(interval_h * 3600.0);
  if (year.interval_s > 3600.0) refuse(source, lines.front().number, "records must be hourly or finer");
  return year;
}

}  // namespace

WeatherYear read_weather(std::string_view text, std::string source_name, const Reference& reference) {
  const std::vector<Line> lines = lines_of(text);
  if (lines.empty()) throw BadInput(say("{}: an empty file is no weather", source_name));
  const bool epw = lines.front().cells.front() == "LOCATION";
  WeatherYear year = epw ? read_epw(lines, source_name) : read_table(lines, source_name);
  for (std::string& remark : year.remarks) remark = told(reference.language, remark);
  internal::make_whole(year, reference);
  return year;
}

}  // namespace sunstrain
