#include "weather_fill.hpp"

#include <fmt/core.h>

#include <array>
#include <cmath>

#include "say.hpp"
#include "sunstrain/job.hpp"
#include "tell.hpp"

namespace sunstrain::internal {
namespace {

constexpr std::array<int, 12> month_days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

bool leap_day(const WeatherRecord& r) { return r.month == 2 && r.day == 29; }

int days_in(int month, bool leap) { return month_days[static_cast<std::size_t>(month - 1)] + (leap && month == 2); }

// Days since 1 January.
int day_index(const WeatherRecord& r, bool leap) {
  int days = r.day - 1;
  for (int month = 1; month < r.month; ++month) days += days_in(month, leap);
  return days;
}

// Which place of the grid a record is.
std::ptrdiff_t place_of(const WeatherYear& year, const WeatherRecord& r, bool leap) {
  if (r.day > days_in(r.month, leap)) {
    throw BadInput(say("{}: there is no day {} in month {}", year.source, r.day, r.month));
  }
  const double place = (day_index(r, leap) * 24.0 + r.hour) * 3600.0 / year.interval_s - 1.0;
  const double whole = std::round(place);
  if (std::abs(place - whole) > 1e-3 || whole < -1.0) {
    throw BadInput(say("{}: month {}, day {}, hour {:g} is not on the file's grid of {:g} min", year.source, r.month,
                       r.day, r.hour, year.interval_s / 60.0));
  }
  return static_cast<std::ptrdiff_t>(whole);
}

std::vector<WeatherRecord> empty_grid(const WeatherYear& year, bool leap) {
  std::vector<WeatherRecord> grid;
  const auto a_day = static_cast<int>(std::lround(86400.0 / year.interval_s));
  for (int month = 1; month <= 12; ++month)
    for (int day = 1; day <= days_in(month, leap); ++day)
      for (int i = 1; i <= a_day; ++i) grid.push_back({month, day, i * year.interval_s / 3600.0, {}, {}, {}, {}, {}});
  return grid;
}

void lay_on_grid(WeatherYear& year, const Language& language) {
  bool leap = false, hour_zero = false;
  for (const WeatherRecord& r : year.records) {
    leap = leap || leap_day(r);
    hour_zero = hour_zero || r.hour == 0.0;
  }
  std::vector<WeatherRecord> grid = empty_grid(year, leap);
  std::vector<bool> taken(grid.size(), false);
  std::ptrdiff_t last = -2;
  std::size_t met = 0;
  for (WeatherRecord r : year.records) {
    if (hour_zero) r.hour += year.interval_s / 3600.0;  // such files give an interval's beginning
    const std::ptrdiff_t place = place_of(year, r, leap);
    if (place <= last) {
      throw BadInput(
          say("{}: month {}, day {}, hour {:g} comes twice or out of order", year.source, r.month, r.day, r.hour));
    }
    if (place < 0 || place >= static_cast<std::ptrdiff_t>(grid.size())) {
      throw BadInput(say("{}: hour {:g} is outside the day", year.source, r.hour));
    }
    last = place;
    WeatherRecord& into = grid[static_cast<std::size_t>(place)];
    const WeatherRecord stamp = into;
    into = r;
    into.month = stamp.month;
    into.day = stamp.day;
    into.hour = stamp.hour;
    taken[static_cast<std::size_t>(place)] = true;
    ++met;
  }
  if (hour_zero) year.remarks.push_back(told(language, "hours count from 0: taken as the beginning of each interval"));
  if (leap) year.remarks.push_back(told(language, "29 February is in the file; it takes the sun of the 28th"));
  if (2 * met < grid.size()) {
    throw BadInput(say("{}: {} records of {}: less than half a year", year.source, met, grid.size()));
  }
  if (met < grid.size())
    year.remarks.push_back(tell(language, "{} records are left out of the file", grid.size() - met));
  year.records = std::move(grid);
}

using Field = std::optional<double> WeatherRecord::*;

// Straight across gaps of up to `longest` records.
void bridge(WeatherYear& year, Field field, std::size_t longest) {
  auto& records = year.records;
  for (std::size_t i = 1; i < records.size(); ++i) {
    if (records[i].*field || !(records[i - 1].*field)) continue;
    std::size_t end = i;
    while (end < records.size() && !(records[end].*field)) ++end;
    if (end < records.size() && end - i <= longest) {
      const double from = *(records[i - 1].*field), to = *(records[end].*field);
      for (std::size_t k = i; k < end; ++k)
        records[k].*field = from + (to - from) * static_cast<double>(k - i + 1) / static_cast<double>(end - i + 1);
    }
    i = end;
  }
}

// The same hour of the nearest day before that has it, else of the nearest after.
void take_other_day(WeatherYear& year, Field field, const std::string& name) {
  auto& records = year.records;
  const auto a_day = static_cast<std::size_t>(std::lround(86400.0 / year.interval_s));
  const std::vector<WeatherRecord> as_read = records;
  for (std::size_t i = 0; i < records.size(); ++i) {
    if (records[i].*field) continue;
    for (std::size_t days = 1; !(records[i].*field); ++days) {
      const std::size_t back = days * a_day;
      if (back > records.size()) {
        throw BadInput(say("{}: no record at all has {} at hour {:g}", year.source, name, records[i].hour));
      }
      if (back <= i) records[i].*field = as_read[i - back].*field;
      if (!(records[i].*field) && i + back < records.size()) records[i].*field = as_read[i + back].*field;
    }
  }
}

std::size_t missing(const WeatherYear& year, Field field) {
  std::size_t count = 0;
  for (const WeatherRecord& r : year.records) count += !(r.*field);
  return count;
}

void fill(WeatherYear& year, Field field, const std::string& name, double bridged_h, const Language& language) {
  const std::size_t count = missing(year, field);
  if (count == 0) return;
  if (bridged_h > 0.0) bridge(year, field, static_cast<std::size_t>(bridged_h * 3600.0 / year.interval_s));
  const std::size_t left = missing(year, field);
  take_other_day(year, field, name);
  std::string how;
  if (left < count) how = tell(language, "{} straight across short gaps", count - left);
  if (left > 0) how += (how.empty() ? "" : ", ") + tell(language, "{} from the same hour of a day near by", left);
  year.remarks.push_back(
      tell(language, "{}: {} of {} values missing, filled: {}", name, count, year.records.size(), how));
}

void fill_dew_point(WeatherYear& year, double below_air_k, const Language& language) {
  bridge(year, &WeatherRecord::dew_point_k, static_cast<std::size_t>(6.0 * 3600.0 / year.interval_s));
  std::size_t count = 0;
  for (WeatherRecord& r : year.records) {
    if (r.dew_point_k) continue;
    r.dew_point_k = *r.air_k - below_air_k;
    ++count;
  }
  if (count > 0) {
    year.remarks.push_back(tell(language, "dew point: {} of {} values missing, taken {:g} K below the air", count,
                                year.records.size(), below_air_k));
  }
}

}  // namespace

void make_whole(WeatherYear& year, const Reference& reference) {
  constexpr double bridged_h = 6.0;
  const Language& language = reference.language;
  lay_on_grid(year, language);
  fill(year, &WeatherRecord::air_k, told(language, "air temperature"), bridged_h, language);
  fill_dew_point(year, constant(reference, "weather_dew_point_below_air_k"), language);
  fill(year, &WeatherRecord::beam_normal_w_m2, told(language, "direct sun"), 0.0, language);
  fill(year, &WeatherRecord::diffuse_horizontal_w_m2, told(language, "diffuse sun"), 0.0, language);
  const std::size_t no_sky = missing(year, &WeatherRecord::sky_w_m2);
  if (no_sky > 0) {
    year.remarks.push_back(
        tell(language, "sky long-wave: {} of {} values missing, a clear sky taken", no_sky, year.records.size()));
  }
}

}  // namespace sunstrain::internal
