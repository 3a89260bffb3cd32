// A pane through a real year: every ten minutes of it, every lite.
#pragma once

#include <array>
#include <vector>

#include "sunstrain/case.hpp"
#include "sunstrain/weather.hpp"

namespace sunstrain {

class ChainCache;

// Shares of the go line for which the year's hours are counted.
inline constexpr std::array<double, 5> year_ratios{0.5, 0.75, 1.0, 1.25, 1.5};

struct YearDay {
  int month, day;
  double stress_ratio;  // highest of the day
};

struct YearLite {
  double stress_pa = 0.0, stress_ratio = 0.0;  // the year's highest, over the go line
  int month = 1, day = 1;
  double local_hour = 0.0;
  Side side = Side::bottom;
  double position_m = 0.0;
  std::vector<YearDay> worst_days;                 // ten at most, the worst first
  std::array<double, year_ratios.size()> hours{};  // in which some point of the edge is at or above each of year_ratios
  // The year's fatigue at the worst point as hours at the go line: sum of (sigma / go)^16 dt, n = 16 of the strength.
  double hours_at_line = 0.0;
  Odds odds_1{}, odds_10{}, odds_25{};  // of a break in so many such years
};

struct WeatherRun {
  std::vector<YearLite> lites;
  double worst_energy_residual = 0.0;
};

// One run of the chain over a weather year, with or without film. The room is at its winter temperature on days whose
// mean outdoors is under `heating_limit_k` (constants.toml), else at its summer one; outdoor convection is the case's
// (calm at the bad end), not the file's wind. Steps under 0.4 of the peak are left out of fatigue and odds: all of
// them together at that height would add 2 %. Throws std::invalid_argument where weather_steps does.
WeatherRun run_weather_year(const Case& pane, const GlazingState& state, const WeatherYear& year,
                            const Reference& reference, ChainCache& cache);

}  // namespace sunstrain
