#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <numeric>
#include <stdexcept>

#include "sunstrain/io/quantity.hpp"

namespace sunstrain {

namespace {

using Kind = JobKey::Kind;

constexpr double meters_per_inch = 0.0254, kelvin_at_0_c = 273.15, f_per_kelvin = 1.8;
constexpr double deg_per_rad = 180.0 / std::numbers::pi;

// At most `decimals` places, no trailing zeros, no "-0".
std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string sixteenths(double inches) {
  const long long total = std::llround(std::abs(inches) * 16.0);
  const long long whole = total / 16, part = total % 16, divisor = std::gcd(part, 16LL);
  const std::string sign = inches < 0.0 && total > 0 ? "-" : "";
  if (part == 0) return fmt::format("{}{} in", sign, whole);
  const std::string fraction = fmt::format("{}/{} in", part / divisor, 16 / divisor);
  return whole == 0 ? sign + fraction : fmt::format("{}{} {}", sign, whole, fraction);
}

std::string temperature_in(double kelvin, std::string_view unit) {
  if (unit == "C") return trimmed(kelvin - kelvin_at_0_c, 1) + " C";
  if (unit == "F") return trimmed((kelvin - kelvin_at_0_c) * f_per_kelvin + 32.0, 1) + " F";
  return trimmed(kelvin, 1) + " K";
}

}  // namespace

std::string format_length(double length_m, Units units) {
  return units == Units::metric ? trimmed(length_m * 1000.0, 0) + " mm" : sixteenths(length_m / meters_per_inch);
}

std::string format_thickness(double thickness_m, Units units) {
  return units == Units::metric ? trimmed(thickness_m * 1000.0, 2) + " mm"
                                : trimmed(thickness_m / meters_per_inch, 3) + " in";
}

std::string format_temperature(double temperature_k, Units units) {
  const double celsius = temperature_k - kelvin_at_0_c;
  return units == Units::metric ? trimmed(celsius, 0) + " C" : trimmed(celsius * f_per_kelvin + 32.0, 0) + " F";
}

std::string format_difference(double difference_k, Units units) {
  return units == Units::metric ? trimmed(difference_k, 0) + " K" : trimmed(difference_k * f_per_kelvin, 0) + " F";
}

std::string format_fraction(double fraction) { return trimmed(fraction * 100.0, 1) + " %"; }

std::string format_angle(double angle_rad) { return trimmed(angle_rad * deg_per_rad, 1) + " deg"; }

std::string format_hour(double hour) {
  const long minutes = std::lround(hour * 60.0);
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string format_in_unit(JobKey::Kind kind, double value, std::string_view unit) {
  if (unit == "mm") return trimmed(value * 1000.0, 3) + " mm";
  if (unit == "cm") return trimmed(value * 100.0, 3) + " cm";
  if (unit == "m") return trimmed(value, 4) + " m";
  if (unit == "in") return trimmed(value / meters_per_inch, 4) + " in";
  if (unit == "deg") return trimmed(value * deg_per_rad, 4) + " deg";
  if (unit == "%") return trimmed(value * 100.0, 3) + " %";
  if (unit == "C" || unit == "F" || unit == "K") {
    if (kind == Kind::temperature) return temperature_in(value, unit);
    return trimmed(unit == "F" ? value * f_per_kelvin : value, 1) + " " + std::string(unit);
  }
  if (unit == "W/m2K") return trimmed(value, 3) + " W/m2K";
  if (unit == "-" || unit.empty()) return trimmed(value, 4);
  if (unit == "years" || unit == "h") return trimmed(value, 2) + " " + std::string(unit);
  throw std::logic_error("no such unit of a job key: " + std::string(unit));
}

// One of the key's words where it means this angle: "SE".
static std::string angle_text(const JobKey& key, double angle_rad) {
  constexpr double same_rad = 1e-9;
  for (const std::string& word : key.choices) {
    if (std::abs(parse_quantity(Kind::angle, word) - angle_rad) < same_rad) return word;
  }
  return format_angle(angle_rad);
}

std::string format_value(const JobKey& key, const Value& value, Units units) {
  if (const std::string* word = std::get_if<std::string>(&value)) return *word;
  const double number = std::get<double>(value);
  switch (key.kind) {
    case Kind::length:
      return format_length(number, units);
    case Kind::thickness:
      return format_thickness(number, units);
    case Kind::temperature:
      return format_temperature(number, units);
    case Kind::difference:
      return format_difference(number, units);
    case Kind::fraction:
      return format_fraction(number);
    case Kind::angle:
      return angle_text(key, number);
    case Kind::u_value:
      return format_in_unit(key.kind, number, "W/m2K");
    case Kind::hour:
      return format_hour(number);
    case Kind::years:
      return trimmed(number, 1) + (number == 1.0 ? " year" : " years");
    default:
      return trimmed(number, 4);
  }
}

}  // namespace sunstrain
