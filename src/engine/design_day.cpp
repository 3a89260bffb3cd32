// One clear day on the 21st of a month: outdoor air, sky and sun, as the heat stage wants them.
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "sun_internal.hpp"
#include "sunstrain/given_day.hpp"
#include "sunstrain/sun.hpp"

namespace sunstrain {
namespace {

using std::numbers::pi;

void require_month(int month) {
  if (month < 1 || month > 12) throw std::invalid_argument("month must be 1 to 12, not " + std::to_string(month));
}

// 0 in midwinter (January, or July south of the equator), 1 in midsummer, a cosine between.
double summer_share(double latitude_rad, int month) {
  require_month(month);
  const int midwinter = latitude_rad >= 0.0 ? 1 : 7;
  return 0.5 * (1.0 - std::cos(2.0 * pi * (month - midwinter) / 12.0));
}

double range_k(const Place& place, int month) {
  require_month(month);
  return place.daily_range_k[static_cast<std::size_t>(month - 1)];
}

struct AirOfDay {
  double maximum_k, range_k;
};

constexpr double delta_t_s = 69.0;

struct Date {
  int month, day = sun_internal::design_day_of_month;
};

UtcMoment moment_of(const Place& place, Date date, double local_hour) {
  return {sun_internal::design_year, date.month, date.day, local_hour - place.utc_offset_h};
}

// The middles of a day's steps. The sun without refraction, hence without air: the air's temperature follows from its
// hour angle.
struct Instant {
  double local_hour;
  sun_internal::SunInSky sun;
};
std::vector<Instant> instants_of_day(const Place& place, Date date, int steps_per_day) {
  require_month(date.month);
  if (steps_per_day < 24) {
    throw std::invalid_argument("steps per day must be 24 or more, not " + std::to_string(steps_per_day));
  }
  std::vector<Instant> instants;
  instants.reserve(static_cast<std::size_t>(steps_per_day));
  for (int i = 0; i < steps_per_day; ++i) {
    const double hour = (i + 0.5) * 24.0 / steps_per_day;
    instants.push_back({hour, sun_internal::true_sun(moment_of(place, date, hour), place.latitude_rad,
                                                     place.longitude_rad, delta_t_s)});
  }
  return instants;
}

AirOfDay air_of_day(const Place& place, int month, DayKind kind, const Reference& reference) {
  const double range = range_k(place, month);
  return kind == DayKind::cold_clear ? AirOfDay{cold_day_minimum_k(place, month, reference) + range, range}
                                     : AirOfDay{hot_day_maximum_k(place, month, reference), range};
}

}  // namespace

// ICAO / U.S. standard atmosphere, as in the ASHRAE handbook's chapter on psychrometrics.
double standard_pressure_pa(double altitude_m) {
  if (!(altitude_m >= -1000.0 && altitude_m <= 11000.0)) {
    throw std::invalid_argument("altitude must be -1000 to 11000 m, not " + std::to_string(altitude_m));
  }
  return 101325.0 * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.2559);
}

double design_day_air_k(double solar_hour, double maximum_k, double range_k) {
  static constexpr std::array<double, 24> fraction_at_hour_1_to_24{0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74,
                                                                   0.55, 0.38, 0.23, 0.13, 0.05, 0.00, 0.00, 0.06,
                                                                   0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75, 0.82};
  if (!std::isfinite(solar_hour)) throw std::invalid_argument("solar hour must be a finite number");
  const double since_hour_1 = solar_hour - 1.0 - 24.0 * std::floor((solar_hour - 1.0) / 24.0);
  const double whole = std::floor(since_hour_1);
  const std::size_t before = static_cast<std::size_t>(whole) % 24;  // rounding may have made it 24
  const std::size_t after = (before + 1) % 24;
  const double share = since_hour_1 - whole;
  const double fraction = (1.0 - share) * fraction_at_hour_1_to_24[before] + share * fraction_at_hour_1_to_24[after];
  return maximum_k - fraction * range_k;
}

double cold_day_minimum_k(const Place& place, int month, const Reference& reference) {
  const double summer_minimum =
      place.hottest_k - place.hottest_month_range_k - constant(reference, "cold_summer_offset_k");
  const double rise = std::fmax(0.0, summer_minimum - place.coldest_k);
  return place.coldest_k + summer_share(place.latitude_rad, month) * rise;
}

double hot_day_maximum_k(const Place& place, int month, const Reference& reference) {
  const double winter_drop = (place.hottest_k - place.coldest_k) * constant(reference, "hot_day_annual_share");
  return place.hottest_k - (1.0 - summer_share(place.latitude_rad, month)) * winter_drop;
}

namespace {

// What a day is under: its kind for the room, the air's course, clouds.
struct Weather {
  DayKind kind;
  AirOfDay air;
  double cloud = 0.0;
};

DesignDay day_under(const Place& place, Date date, const Weather& weather, std::span<const Instant> instants,
                    double tilt_rad, double facing_rad, double ground_reflectance, const Reference& reference) {
  const AirOfDay& air = weather.air;
  const double dew_point_k = air.maximum_k - air.range_k - constant(reference, "dew_point_below_minimum_k");
  const double pressure_pa = standard_pressure_pa(place.altitude_m);
  const double e0 = extraterrestrial_w_m2(day_of_year(sun_internal::design_year, date.month, date.day));
  const double tau_beam = monthly_interpolated(place.tau_beam, date.month, date.day);
  const double tau_diffuse = monthly_interpolated(place.tau_diffuse, date.month, date.day);

  DesignDay day{date.month, weather.kind, 86400.0 / static_cast<double>(instants.size()), {}};
  day.steps.reserve(instants.size());
  for (const Instant& instant : instants) {
    DayStep step{};
    step.local_hour = instant.local_hour;
    step.outdoor_air_k =
        design_day_air_k(sun_internal::solar_hour(instant.sun.hour_angle_rad), air.maximum_k, air.range_k);
    step.sky_k = clear_sky_temperature_k(step.outdoor_air_k, dew_point_k);
    if (weather.cloud > 0.0) step.sky_k = sky_under_cloud_k(step.sky_k, step.outdoor_air_k, weather.cloud, reference);
    sun_internal::check_sun_arguments(moment_of(place, date, step.local_hour), place.latitude_rad, place.longitude_rad,
                                      pressure_pa, step.outdoor_air_k, delta_t_s);
    step.sun = sun_internal::through_air(instant.sun, pressure_pa, step.outdoor_air_k).position;
    ClearSky sky = clear_sky(step.sun.apparent_elevation_rad, e0, tau_beam, tau_diffuse, place.tau_edition);
    if (weather.cloud > 0.0) sky = under_cloud(sky, step.sun.apparent_elevation_rad, weather.cloud, reference);
    step.beam_normal_w_m2 = sky.beam_normal_w_m2;
    step.diffuse_horizontal_w_m2 = sky.diffuse_horizontal_w_m2;
    step.pane = on_pane(sky, step.sun, tilt_rad, facing_rad, ground_reflectance);
    step.slope = shadow_slope(step.sun, facing_rad);
    step.month = date.month;
    day.steps.push_back(step);
  }
  return day;
}

}  // namespace

DesignDay design_day(const Place& place, int month, DayKind kind, double tilt_rad, double facing_rad,
                     double ground_reflectance, int steps_per_day, const Reference& reference) {
  return day_under(place, {month}, {kind, air_of_day(place, month, kind, reference)},
                   instants_of_day(place, {month}, steps_per_day), tilt_rad, facing_rad, ground_reflectance, reference);
}

std::array<DesignDay, 2> design_days(const Place& place, int month, double tilt_rad, double facing_rad,
                                     double cold_ground_reflectance, double hot_ground_reflectance, int steps_per_day,
                                     const Reference& reference) {
  const std::vector<Instant> instants = instants_of_day(place, {month}, steps_per_day);
  const auto day = [&](DayKind kind, double ground_reflectance) {
    return day_under(place, {month}, {kind, air_of_day(place, month, kind, reference)}, instants, tilt_rad, facing_rad,
                     ground_reflectance, reference);
  };
  return {day(DayKind::cold_clear, cold_ground_reflectance), day(DayKind::hot_clear, hot_ground_reflectance)};
}

DesignDay given_day(const Place& place, const GivenDay& given, double tilt_rad, double facing_rad,
                    double ground_reflectance, int steps_per_day, const Reference& reference) {
  if (!(given.lowest_k > 0.0 && given.highest_k >= given.lowest_k))
    throw std::invalid_argument("the highest temperature must not be under the lowest");
  if (!(given.cloud >= 0.0 && given.cloud <= 1.0)) throw std::invalid_argument("cloud must be 0 to 1");
  const Date date{given.month, given.month == 2 && given.day == 29 ? 28 : given.day};
  const double mean_k = 0.5 * (given.lowest_k + given.highest_k);
  const DayKind kind = mean_k < constant(reference, "heating_limit_k") ? DayKind::cold_clear : DayKind::hot_clear;
  const AirOfDay air{given.highest_k, given.highest_k - given.lowest_k};
  return day_under(place, date, {kind, air, given.cloud}, instants_of_day(place, date, steps_per_day), tilt_rad,
                   facing_rad, ground_reflectance, reference);
}

}  // namespace sunstrain
