// Where the sun is. R. Grena, "Five new algorithms for the computation of sun position from 2010 to 2110",
// Solar Energy 86 (2012) 1323-1337, algorithm 3: as accurate as a window needs (0.01 deg) in a dozen lines.
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <stdexcept>
#include <string>

#include "sun_internal.hpp"
#include "sunstrain/sun.hpp"

namespace sunstrain {
namespace {

using std::numbers::pi;

constexpr int first_valid_year = 2010;
constexpr int last_valid_year = 2110;

void require(bool holds, const char* what, double value) {
  if (!holds) throw std::invalid_argument("sun position: " + std::string(what) + ", not " + std::to_string(value));
}

std::chrono::year_month_day valid_date(int year, int month, int day) {
  const auto no_such_date = [&] {
    return std::invalid_argument("no such date: " + std::to_string(year) + "-" + std::to_string(month) + "-" +
                                 std::to_string(day));
  };
  // chrono keeps these in a byte or two and wraps what does not fit
  if (std::abs(year) > 9999 || month < 1 || month > 12 || day < 1 || day > 31) throw no_such_date();
  const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok()) throw no_such_date();
  return date;
}

// Days of universal time since 2060-01-01 00:00, the paper's epoch.
double days_ut(const UtcMoment& moment) {
  int year = moment.year;
  int month = moment.month;
  if (month <= 2) {
    month += 12;
    year -= 1;
  }
  return std::floor(365.25 * (year - 2000)) + std::floor(30.6001 * (month + 1)) - std::floor(0.01 * year) + moment.day +
         moment.hour / 24.0 - 21958.0;
}

// The paper has the pressure in atmospheres: 0.08422 / (273 + 10) is then Bennett's 1.02 arc minutes at
// 1010 hPa and 10 C, the refraction of the NREL algorithm too, brought to 1 atm.
double refraction_rad(double elevation_rad, double pressure_pa, double air_temperature_k) {
  const double pressure_atm = pressure_pa / 101325.0;
  const double air_c = air_temperature_k - 273.15;
  return 0.08422 * pressure_atm / ((273.0 + air_c) * std::tan(elevation_rad + 0.003138 / (elevation_rad + 0.08919)));
}

}  // namespace

namespace sun_internal {

SunInSky true_sun(const UtcMoment& moment, double latitude_rad, double longitude_rad, double delta_t_s) {
  const double t = days_ut(moment);
  const double te = t + 1.1574e-5 * delta_t_s;  // the same in terrestrial time
  const double w = 0.0172019715 * te;

  const double lambda =
      -1.388803 + 1.720279216e-2 * te + 3.3366e-2 * std::sin(w - 0.06172) + 3.53e-4 * std::sin(2.0 * w - 0.1163);
  const double epsilon = 4.089567e-1 - 6.19e-9 * te;
  const double sin_lambda = std::sin(lambda);
  const double right_ascension = std::atan2(sin_lambda * std::cos(epsilon), std::cos(lambda));
  const double sin_declination = sin_lambda * std::sin(epsilon);
  const double cos_declination = std::sqrt(1.0 - sin_declination * sin_declination);
  const double hour_angle = std::remainder(1.7528311 + 6.300388099 * t + longitude_rad - right_ascension, 2.0 * pi);

  const double sin_latitude = std::sin(latitude_rad);
  const double cos_latitude = std::cos(latitude_rad);
  const double cos_hour_angle = std::cos(hour_angle);
  const double sin_geocentric = sin_latitude * sin_declination + cos_latitude * cos_declination * cos_hour_angle;
  const double cos_geocentric = std::sqrt(std::fmax(0.0, 1.0 - sin_geocentric * sin_geocentric));
  const double elevation = std::atan2(sin_geocentric, cos_geocentric) - 4.26e-5 * cos_geocentric;  // parallax

  double azimuth = pi + std::atan2(std::sin(hour_angle),
                                   cos_hour_angle * sin_latitude - sin_declination / cos_declination * cos_latitude);
  if (azimuth >= 2.0 * pi) azimuth -= 2.0 * pi;
  return {{elevation, elevation, azimuth}, hour_angle};
}

SunInSky through_air(const SunInSky& sun, double pressure_pa, double air_temperature_k) {
  SunInSky seen = sun;
  const double elevation = sun.position.elevation_rad;
  if (elevation > 0.0)
    seen.position.apparent_elevation_rad = elevation + refraction_rad(elevation, pressure_pa, air_temperature_k);
  return seen;
}

SunInSky sun_in_sky(const UtcMoment& moment, double latitude_rad, double longitude_rad, double pressure_pa,
                    double air_temperature_k, double delta_t_s) {
  return through_air(true_sun(moment, latitude_rad, longitude_rad, delta_t_s), pressure_pa, air_temperature_k);
}

void check_sun_arguments(const UtcMoment& moment, double latitude_rad, double longitude_rad, double pressure_pa,
                         double air_temperature_k, double delta_t_s) {
  require(moment.year >= first_valid_year && moment.year <= last_valid_year, "year must be 2010 to 2110", moment.year);
  valid_date(moment.year, moment.month, moment.day);
  require(std::isfinite(moment.hour), "hour must be a finite number", moment.hour);
  require(std::abs(latitude_rad) <= pi / 2.0, "latitude must be -pi/2 to pi/2", latitude_rad);
  require(std::abs(longitude_rad) <= pi, "longitude must be -pi to pi", longitude_rad);
  require(std::isfinite(pressure_pa) && pressure_pa >= 0.0, "pressure must be 0 or more", pressure_pa);
  require(std::isfinite(air_temperature_k) && air_temperature_k > 100.0, "air temperature must be above 100 K",
          air_temperature_k);
  require(std::isfinite(delta_t_s), "TT - UT must be a finite number", delta_t_s);
}

double solar_hour(double hour_angle_rad) { return 12.0 + hour_angle_rad * 12.0 / pi; }

}  // namespace sun_internal

SunPosition sun_position(const UtcMoment& moment, double latitude_rad, double longitude_rad, double pressure_pa,
                         double air_temperature_k, double delta_t_s) {
  sun_internal::check_sun_arguments(moment, latitude_rad, longitude_rad, pressure_pa, air_temperature_k, delta_t_s);
  return sun_internal::sun_in_sky(moment, latitude_rad, longitude_rad, pressure_pa, air_temperature_k, delta_t_s)
      .position;
}

int day_of_year(int year, int month, int day) {
  using namespace std::chrono;
  const year_month_day date = valid_date(year, month, day);
  return static_cast<int>((sys_days{date} - sys_days{date.year() / January / 1}).count()) + 1;
}

}  // namespace sunstrain
