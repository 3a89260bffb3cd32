// A real year of weather: what a file said, hour by hour, and the steps that the chain is run over.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/sun.hpp"

namespace sunstrain {

// One record: means over the interval that ends at `hour` (temperatures: at that moment), standard time. What the file
// did not give is nothing.
struct WeatherRecord {
  int month, day;
  double hour;  // over 0, to 24
  std::optional<double> air_k, dew_point_k, beam_normal_w_m2, diffuse_horizontal_w_m2, sky_w_m2;
  bool snow = false;  // lies on the ground
};

// The design temperatures that some files carry in their header.
struct WeatherDesign {
  double coldest_k, hottest_k, daily_range_k;  // 99.6 % heating, 0.4 % cooling, range of the hottest month
};

struct WeatherYear {
  std::string source;  // file name, for messages
  std::optional<double> latitude_rad, longitude_rad, utc_offset_h, altitude_m;
  double interval_s;
  std::vector<WeatherRecord> records;  // a whole year without a break, from 1 January on
  std::optional<WeatherDesign> design;
  std::vector<std::string> remarks;  // what was missing or odd, and what was done about it
};

// What a pane sees of the year.
struct WeatherPane {
  double tilt_rad, facing_rad, ground_reflectance, snow_reflectance;
};

// The year in equal steps, values at mid-step, from 1 January 0 h standard time on. Temperatures run straight from
// record to record; sun is spread over the part of a record's interval in which the sun is up, so that the interval's
// mean is kept. Where the file gives no sky long-wave, the sky is a clear one (clear_sky_temperature_k): the colder, so
// the side of more stress. Every record must have air, dew point and sun (read_weather sees to that), the year a place.
// step_s must divide the interval. Throws std::invalid_argument otherwise.
std::vector<DayStep> weather_steps(const WeatherYear& year, const WeatherPane& pane, double step_s);

}  // namespace sunstrain
