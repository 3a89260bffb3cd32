// What a clear sky sends down. ASHRAE Handbook of Fundamentals, chapter "Climatic design information".
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "sunstrain/sun.hpp"

namespace sunstrain {
namespace {

using std::numbers::pi;

void require(bool holds, const char* what, double value) {
  if (!holds) throw std::invalid_argument("clear sky: " + std::string(what) + ", not " + std::to_string(value));
}

// Exponents ab and ad of the air mass. Each generation of published taus was fitted together with its
// own pair: mixing them puts winter diffuse off by up to a quarter.
struct AirMassExponents {
  double beam, diffuse;
};

AirMassExponents exponents(double tb, double td, int edition) {
  switch (edition) {
    case 2009:
      return {1.219 - 0.043 * tb - 0.151 * td - 0.204 * tb * td, 0.202 + 0.852 * tb - 0.007 * td - 0.357 * tb * td};
    case 2013:
      // The last term of ab is +0.021. Copies with -0.021 are about; they do not give the handbook's own
      // examples nor the noon values printed with the tables (Calgary in December: 15 W/m2 too much).
      return {1.454 - 0.406 * tb - 0.268 * td + 0.021 * tb * td, 0.507 + 0.205 * tb - 0.080 * td - 0.190 * tb * td};
    default:
      throw std::invalid_argument("clear sky: edition of the coefficients must be 2009 or 2013, not " +
                                  std::to_string(edition));
  }
}

}  // namespace

double extraterrestrial_w_m2(int day_of_year) {
  require(day_of_year >= 1 && day_of_year <= 366, "day of the year must be 1 to 366", day_of_year);
  return 1367.0 * (1.0 + 0.033 * std::cos(2.0 * pi * (day_of_year - 3) / 365.0));
}

double air_mass(double elevation_rad) {
  // a hair above the zenith is rounding of the caller's angles
  require(elevation_rad >= 0.0 && elevation_rad <= pi / 2.0 + 1e-6, "elevation must be 0 to pi/2", elevation_rad);
  const double elevation_deg = elevation_rad * 180.0 / pi;
  return 1.0 / (std::sin(elevation_rad) + 0.50572 * std::pow(6.07995 + elevation_deg, -1.6364));
}

ClearSky clear_sky(double elevation_rad, double extraterrestrial_w_m2, double tau_beam, double tau_diffuse,
                   int edition) {
  require(std::isfinite(elevation_rad), "elevation must be a finite number", elevation_rad);
  require(std::isfinite(extraterrestrial_w_m2) && extraterrestrial_w_m2 >= 0.0,
          "extraterrestrial irradiance must be 0 or more", extraterrestrial_w_m2);
  require(std::isfinite(tau_beam) && tau_beam > 0.0, "tau_beam must be above 0", tau_beam);
  require(std::isfinite(tau_diffuse) && tau_diffuse > 0.0, "tau_diffuse must be above 0", tau_diffuse);
  const AirMassExponents exponent = exponents(tau_beam, tau_diffuse, edition);
  if (elevation_rad <= 0.0) return {0.0, 0.0};
  // No correction for pressure: the place's altitude is inside its taus.
  const double m = air_mass(elevation_rad);
  return {extraterrestrial_w_m2 * std::exp(-tau_beam * std::pow(m, exponent.beam)),
          extraterrestrial_w_m2 * std::exp(-tau_diffuse * std::pow(m, exponent.diffuse))};
}

double monthly_interpolated(const std::array<double, 12>& values, int month, int day) {
  static constexpr std::array<int, 12> days_in{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  require(month >= 1 && month <= 12, "month must be 1 to 12", month);
  const auto this_month = static_cast<std::size_t>(month - 1);
  // 29 February counts as 1 March: the tables know no leap years
  require(day >= 1 && day <= days_in[this_month] + (month == 2 ? 1 : 0), "no such day in that month", day);
  const std::size_t from = day >= 21 ? this_month : (this_month + 11) % 12;
  const std::size_t to = (from + 1) % 12;
  const int days_since_21st = day >= 21 ? day - 21 : day - 21 + days_in[from];
  const double share = static_cast<double>(days_since_21st) / days_in[from];
  return (1.0 - share) * values[from] + share * values[to];
}

double clear_sky_temperature_k(double air_k, double dew_point_k) {
  require(std::isfinite(air_k) && air_k > 0.0, "air temperature must be above 0 K", air_k);
  require(std::isfinite(dew_point_k) && dew_point_k > 0.0, "dew point must be above 0 K", dew_point_k);
  const double x = (dew_point_k - 273.15) / 100.0;
  const double emissivity = std::min(1.0, 0.758 + 0.521 * x + 0.625 * x * x);  // the fit passes 1 at 33 C
  return air_k * std::sqrt(std::sqrt(emissivity));
}

}  // namespace sunstrain
