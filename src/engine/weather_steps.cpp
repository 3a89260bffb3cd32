// A weather year in the chain's own steps.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sunstrain/heat.hpp"
#include "sunstrain/weather.hpp"

namespace sunstrain {
namespace {

constexpr int sun_year = 2025;  // the sun of a year is that of any other within a quarter of a degree

UtcMoment moment_of(const WeatherRecord& r, double hour, double utc_offset_h) {
  const int day = r.month == 2 && r.day == 29 ? 28 : r.day;
  return {sun_year, r.month, day, hour - utc_offset_h};
}

double between(double a, double b, double share) { return a + share * (b - a); }

double sky_temperature_k(const WeatherRecord& r, double air_k, double dew_point_k) {
  if (r.sky_w_m2) return std::sqrt(std::sqrt(*r.sky_w_m2 / stefan_boltzmann_w_m2k4));
  return clear_sky_temperature_k(air_k, std::min(dew_point_k, air_k));
}

// What of the interval's mean reaches a step: nothing while the sun is down, so more while it is up; never more than
// comes in above the atmosphere.
double share_of_sun(const std::vector<SunPosition>& suns, std::size_t step) {
  constexpr double up_rad = 0.0;
  const auto up =
      std::count_if(suns.begin(), suns.end(), [](const SunPosition& s) { return s.apparent_elevation_rad > up_rad; });
  if (suns[step].apparent_elevation_rad <= up_rad) return up == 0 ? 1.0 : 0.0;
  return static_cast<double>(suns.size()) / static_cast<double>(up);
}

}  // namespace

std::vector<DayStep> weather_steps(const WeatherYear& year, const WeatherPane& pane, double step_s) {
  const double each = year.interval_s / step_s;
  const auto steps = static_cast<std::size_t>(std::lround(each));
  if (steps < 1 || std::abs(each - static_cast<double>(steps)) > 1e-9)
    throw std::invalid_argument("the step must divide the weather's interval");
  if (!year.latitude_rad || !year.longitude_rad || !year.utc_offset_h || !year.altitude_m)
    throw std::invalid_argument("a weather year needs a place");
  const double pressure_pa = standard_pressure_pa(*year.altitude_m), interval_h = year.interval_s / 3600.0;
  std::vector<DayStep> result;
  result.reserve(year.records.size() * steps);
  for (std::size_t i = 0; i < year.records.size(); ++i) {
    const WeatherRecord &r = year.records[i], &before = year.records[i > 0 ? i - 1 : year.records.size() - 1];
    const double most =
        extraterrestrial_w_m2(day_of_year(sun_year, r.month, r.month == 2 ? std::min(r.day, 28) : r.day));
    std::vector<SunPosition> suns;
    for (std::size_t k = 0; k < steps; ++k) {
      const double hour = r.hour - interval_h + (static_cast<double>(k) + 0.5) * step_s / 3600.0;
      suns.push_back(sun_position(moment_of(r, hour, *year.utc_offset_h), *year.latitude_rad, *year.longitude_rad,
                                  pressure_pa, *r.air_k));
    }
    for (std::size_t k = 0; k < steps; ++k) {
      const double share = (static_cast<double>(k) + 0.5) / static_cast<double>(steps), sun = share_of_sun(suns, k);
      DayStep step{};
      step.local_hour = r.hour - interval_h + share * interval_h;
      step.outdoor_air_k = between(*before.air_k, *r.air_k, share);
      step.sky_k = sky_temperature_k(r, step.outdoor_air_k, between(*before.dew_point_k, *r.dew_point_k, share));
      step.sun = suns[k];
      const bool up = step.sun.apparent_elevation_rad > 0.0;
      step.beam_normal_w_m2 = up ? std::min(most, sun * *r.beam_normal_w_m2) : 0.0;
      step.diffuse_horizontal_w_m2 = std::min(most, sun * *r.diffuse_horizontal_w_m2);
      step.pane = on_pane({step.beam_normal_w_m2, step.diffuse_horizontal_w_m2}, step.sun, pane.tilt_rad,
                          pane.facing_rad, r.snow ? pane.snow_reflectance : pane.ground_reflectance);
      step.slope = shadow_slope(step.sun, pane.facing_rad);
      step.month = r.month;
      result.push_back(step);
    }
  }
  return result;
}

}  // namespace sunstrain
