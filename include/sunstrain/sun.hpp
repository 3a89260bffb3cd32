// Where the sun is, and how much falls on the pane: position, clear-sky irradiance, transposition.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// A moment in universal time. hour: decimal hours 0 to 24 (values outside roll over the day).
struct UtcMoment {
  int year, month, day;
  double hour;
};

struct SunPosition {
  double elevation_rad;           // true (unrefracted), topocentric
  double apparent_elevation_rad;  // with refraction, equal to elevation_rad below the horizon
  double azimuth_rad;             // from north, clockwise, 0 to 2 pi
};

// Sun position, worst error 0.01 deg, valid 2010 to 2110.
// latitude_rad -pi/2 to pi/2 (north +), longitude_rad -pi to pi (east +), delta_t_s = TT - UT (s).
// Source: R. Grena, Solar Energy 86 (2012) 1323-1337, algorithm 3.
// Throws std::invalid_argument outside these ranges or for a value that is not finite.
SunPosition sun_position(const UtcMoment& moment, double latitude_rad, double longitude_rad,
                         double pressure_pa = 101325.0, double air_temperature_k = 283.15, double delta_t_s = 69.0);

// Pressure of the standard atmosphere at an altitude, -1000 to 11000 m. Throws std::invalid_argument outside it.
double standard_pressure_pa(double altitude_m);

// Day of the year, 1 to 366 (Gregorian).
int day_of_year(int year, int month, int day);

// Extraterrestrial normal irradiance, W/m2, on day-of-year n (1 to 366).
// Source: ASHRAE Handbook of Fundamentals, chapter "Climatic design information", eq. 4:
// E0 = 1367 [1 + 0.033 cos(360 (n-3)/365)].
double extraterrestrial_w_m2(int day_of_year);

// Relative optical air mass, 1 to about 38, for an apparent elevation above the horizon (rad, >= 0).
// Source: Kasten & Young 1989, as used by the ASHRAE clear-sky model.
double air_mass(double elevation_rad);

struct ClearSky {
  double beam_normal_w_m2, diffuse_horizontal_w_m2;
};

// ASHRAE clear-sky ("tau") model. tau_beam, tau_diffuse > 0; edition 2009, or 2013 for the tables of
// 2013, 2017 and 2021. Zero below the horizon. Throws std::invalid_argument for another edition.
ClearSky clear_sky(double elevation_rad, double extraterrestrial_w_m2, double tau_beam, double tau_diffuse,
                   int edition);

// The optical depth on a day between two 21sts, linear in time (12 values, January first).
double monthly_interpolated(const std::array<double, 12>& values, int month, int day);

// Coordinates of one's own under the clear sky of the nearest of `places` (at least one), the seasons swapped where
// the equator lies between. The altitude, temperatures and time of that place are left in it for the caller to replace.
Place under_nearest_sky(double latitude_rad, double longitude_rad, std::span<const Place> places);

// Cosine of the angle of incidence of the apparent sun on a pane; negative when the sun is behind it.
// tilt_rad 0 horizontal facing up, pi/2 vertical; azimuth of the outward normal from north, clockwise.
double cos_incidence(const SunPosition& sun, double tilt_rad, double facing_rad);

struct PaneIrradiance {
  double beam_w_m2;      // direct sun on the pane, 0 when the sun is behind it
  double sky_w_m2;       // diffuse from the sky
  double ground_w_m2;    // reflected from the ground
  double cos_incidence;  // of the beam; may be negative
  // What reflectors add, see below; 0 without them.
  double wall_w_m2 = 0.0;   // diffuse, from a light wall opposite
  double water_w_m2 = 0.0;  // the sun's image in water, a beam from below the horizon
  double water_cos_incidence = 0.0;
  double diffuse_w_m2() const { return sky_w_m2 + ground_w_m2 + wall_w_m2; }
  double total_w_m2() const { return beam_w_m2 + sky_w_m2 + ground_w_m2 + wall_w_m2 + water_w_m2; }
};

// Irradiance on a pane under a clear sky. Sky part: ASHRAE Y ratio (eqs 27 to 30 of the same chapter);
// ground part: eq. 31. tilt 0 to pi, ground_reflectance 0 to 1; throws std::invalid_argument otherwise.
PaneIrradiance on_pane(const ClearSky& sky, const SunPosition& sun, double tilt_rad, double facing_rad,
                       double ground_reflectance);

// Where a projection throws its shadow on a vertical pane. x runs along the glass to the right as seen
// from OUTDOORS, facing the pane (a pane that faces south: to the east), y up, d out from the glass.
// A point at (x, y, d) shadows the glass at (x - d tan_gamma, y - d tan_profile).
// gamma = the pane's azimuth minus the sun's, so tan_gamma > 0 when the sun stands on the right and the
// shadow goes left; tan_profile = tan(elevation)/cos(gamma), the profile angle. The elevation is the apparent one.
// sun_on_pane false (sun down, behind the pane or grazing it within 1e-6): both slopes 0, no shadow to draw.
struct ShadowSlope {
  double tan_profile, tan_gamma;
  bool sun_on_pane;
};
ShadowSlope shadow_slope(const SunPosition& sun, double facing_rad);

// One clear design day: outdoor air, sky temperature and sun in equal steps from local midnight
// (standard time), values at mid-step.
struct DayStep {
  double local_hour;
  double outdoor_air_k, sky_k;
  SunPosition sun;
  double beam_normal_w_m2, diffuse_horizontal_w_m2;
  PaneIrradiance pane;
  ShadowSlope slope{};
  int month = 1;
};
enum class DayKind { cold_clear, hot_clear };

// Snow may lie and trees stand bare: November to March, south of the equator May to September. Judgement, see
// limits.md.
constexpr bool in_winter_half(int month, bool southern) {
  return southern ? month >= 5 && month <= 9 : month <= 3 || month >= 11;
}

struct DesignDay {
  int month;
  DayKind kind;
  double step_s;
  std::vector<DayStep> steps;
};

// What in front of the pane sends sun onto it, beside sky and ground. Lengths in m: distances out from the glass,
// heights up from its bottom.
struct Reflectors {
  double wall_distance_m = 0.0, wall_top_m = 0.0;  // a long wall opposite; distance 0: none
  std::optional<double> wall_reflectance;          // of its face for sun, 0 to 1; nothing: it sends nothing over
  double wall_foot_m = 0.0;                        // so far its foot lies below the bottom of the glass
  double water_distance_m = 0.0,
         water_width_m = 0.0;  // a sheet of calm water, from its near edge outwards; width 0: none
  double water_drop_m = 0.0;   // so far its face lies below the bottom of the glass
  double water_refractive_index = 1.333;
  bool any() const { return wall_reflectance.has_value() || water_width_m > 0.0; }
};

// View factor of an upright strip, its height from 0 to height_m, to an endless one parallel to it at distance_m, from
// from_m to to_m (heights over the first one's lower border). height_m, distance_m > 0, from_m <= to_m.
// Hottel's crossed strings: F = (crossed - uncrossed)/(2 height).
double strip_view_factor(double height_m, double distance_m, double from_m, double to_m);
// The same for what of the second strip (its lower border at or below 0) each point of the first sees above its own
// horizon: there it stands before the sky. Integral of sin(angle of the top)/2 over the height, over the height.
double strip_view_above_horizon(double height_m, double distance_m, double to_m);

// Adds to step.pane what the reflectors send onto an upright pane.
// Wall: its face takes up beam, sky and ground like any upright face that looks the other way (nothing shades it) and
// sends the share wall_reflectance of them back evenly (Lambert): E = F rho G, F the crossed strings' mean over the
// pane. It stands before the ground's light by its view factor below the horizon, and before the sky's by that above
// it, of which it hides the sky away from the sun alone (Y = 0.45). Water: a level mirror with Fresnel's reflectance.
// The sun's image stands as far below the horizon as the sun above it; a point z above the water sees it in the water z
// / tan(profile) out. Where any point of the pane does, on water and not behind the wall, all of the pane is taken to.
void add_reflected(const Reflectors& reflectors, double tilt_rad, double facing_rad, double pane_height_m,
                   DayStep& step);

// Dry bulb over a design day: T(h) = T_max - f(h) range, f by apparent solar hour.
// Source: ASHRAE Handbook of Fundamentals, same chapter, table 6 (24 fractions, linear between hours).
double design_day_air_k(double solar_hour, double maximum_k, double range_k);

// Lowest temperature of a cold-clear day and highest of a hot-clear day in a month (1 to 12).
// Judgement, stated in reference/constants.toml: the annual design values carried through the year by a cosine.
double cold_day_minimum_k(const Place& place, int month, const Reference& reference);
double hot_day_maximum_k(const Place& place, int month, const Reference& reference);

// Effective clear-sky temperature (K) from air temperature and dew point (both K).
// Source: Li, Jiang & Coimbra 2017 recalibration of Martin & Berdahl: eps = .758 + .521 x + .625 x^2, x = Tdp/100 (C).
// The emissivity is held at 1 (sky as warm as the air) for dew points above 33 C, outside the fit.
double clear_sky_temperature_k(double air_k, double dew_point_k);

// The design day on the 21st of `month`. steps_per_day >= 24.
DesignDay design_day(const Place& place, int month, DayKind kind, double tilt_rad, double facing_rad,
                     double ground_reflectance, int steps_per_day, const Reference& reference);
// Both kinds of a month, the cold one first: the same, with the sun's course worked once.
std::array<DesignDay, 2> design_days(const Place& place, int month, double tilt_rad, double facing_rad,
                                     double cold_ground_reflectance, double hot_ground_reflectance, int steps_per_day,
                                     const Reference& reference);

}  // namespace sunstrain
