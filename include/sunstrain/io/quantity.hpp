// Lengths, temperatures and fractions as people write them, to SI and back.
#pragma once

#include <string>
#include <string_view>

#include "sunstrain/reference.hpp"

namespace sunstrain {

enum class Units { metric, inch };

// The text as an SI number: lengths "37 1/4 in", `37-1/4"`, "3 ft 1 1/4 in", `3' 1 1/4"`, "0.946 m",
// "87.6 cm", "6 mm"; temperatures "20 C", "68 F", "293 K"; differences "15 K", "27 F"; fractions "0.45"
// or "45 %"; angles "180", "180 deg" or a compass word; years "12", "12 years", "8 months"; hours of the day "9:30", "2
// pm"; numbers "-7". Quote marks, fractions and degree signs as phones write them are understood. Throws BadInput with
// what is wrong and what is allowed (the caller puts source, key and value before it): empty, no unit, NaN, infinite,
// beyond a million, trailing text, a bare 45 for a fraction. Throws std::logic_error for the kinds that hold words
// (text, choice, date).
double parse_quantity(JobKey::Kind kind, std::string_view text);

// A calendar day "2025-02-21", returned as it stands. Throws BadInput for anything else.
std::string parse_date(std::string_view text);

// What one may write for this kind: "a length with its unit, such as 37 1/4 in, ...".
std::string allowed_forms(JobKey::Kind kind);

// 0.946 -> "946 mm" or "37 1/4 in" (to the nearest 1/16 in).
std::string format_length(double length_m, Units units);
// 0.006 -> "6 mm" or "0.236 in": a sixteenth is too coarse for glass.
std::string format_thickness(double thickness_m, Units units);
// 293.15 -> "20 C" or "68 F".
std::string format_temperature(double temperature_k, Units units);
// 18.0 -> "18 K" or "32 F": a difference of two temperatures.
std::string format_difference(double difference_k, Units units);
// 0.385 -> "38.5 %".
std::string format_fraction(double fraction);
// pi -> "180 deg".
std::string format_angle(double angle_rad);

// 9.5 -> "9:30".
std::string format_hour(double hour);

// An SI number of this kind in the printed unit of a key's range: 0.006, "mm" -> "6 mm"; "-" -> "6".
// Throws std::logic_error for a unit it does not know.
std::string format_in_unit(JobKey::Kind kind, double value, std::string_view unit);

// A value of a job the way a person reads it: words as they stand, numbers by kind.
std::string format_value(const JobKey& key, const Value& value, Units units);

}  // namespace sunstrain
