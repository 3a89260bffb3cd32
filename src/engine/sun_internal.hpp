// What the files of the sun stage share with each other and with its tests; not part of the library's face.
#pragma once

#include "sunstrain/sun.hpp"

namespace sunstrain::sun_internal {

inline constexpr int design_year = 2025;        // any common year serves: the sun moves by 0.1 deg between years
inline constexpr int design_day_of_month = 21;  // the day the monthly taus are given for

struct SunInSky {
  SunPosition position;
  double hour_angle_rad;  // 0 at true solar noon, positive after it, -pi to pi
};

// The sun without refraction, and the same seen through air.
SunInSky true_sun(const UtcMoment& moment, double latitude_rad, double longitude_rad, double delta_t_s);
SunInSky through_air(const SunInSky& sun, double pressure_pa, double air_temperature_k);

// Throws as sun_position() does.
void check_sun_arguments(const UtcMoment& moment, double latitude_rad, double longitude_rad, double pressure_pa,
                         double air_temperature_k, double delta_t_s);

// sun_position() without its check of the arguments: the published worked examples of the years before
// 2010 lie outside the range for which the algorithm's accuracy is stated, yet it is smooth there.
SunInSky sun_in_sky(const UtcMoment& moment, double latitude_rad, double longitude_rad, double pressure_pa,
                    double air_temperature_k, double delta_t_s);

// Apparent solar time, 0 to 24 h, 12 when the sun crosses the meridian.
double solar_hour(double hour_angle_rad);

using sunstrain::standard_pressure_pa;

}  // namespace sunstrain::sun_internal
