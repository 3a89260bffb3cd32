// From a film's data sheet back to the film: what the reference glass did to the light is taken off.
// Whatever stands between the sun and the film (one pane's front face and bulk, or a whole outer pane more) is one
// black box of three numbers, so one closed form serves every reference glass.

#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>

#include "impossible_film.hpp"
#include "sunstrain/optics.hpp"

namespace sunstrain {
namespace {

// Sheets are printed in whole percents. A reflectance may lie half a percent outside what the glass allows, and the
// parts may miss 1 by three half percents (T, R, A each rounded), before the sheet counts as wrong.
constexpr double reflectance_rounding = 0.005;
constexpr double sum_rounding = 0.015;

// Everything in front of the film's inner side, seen from outdoors (front) and from the film (back).
struct Reference {
  double passed, rho_front, rho_back;
  double bare;  // solar transmittance of the whole reference glazing without film
  const char* name;
};

// Light that meets `front` first, then `next`.
Reference join(const Reference& front, const Reference& next) {
  const double between = 1.0 - front.rho_back * next.rho_front;
  return {front.passed * next.passed / between,
          front.rho_front + front.passed * front.passed * next.rho_front / between,
          next.rho_back + next.passed * next.passed * front.rho_back / between, 0.0, ""};
}

Reference with_bare_room_face(Reference front, const char* name) {
  const Interface face = bare_interface();
  front.bare = front.passed * face.tau / (1.0 - front.rho_back * face.rho_glass);
  front.name = name;
  return front;
}

// Front face and bulk of one pane: nothing is sent back inside the glass until the film is reached.
Reference front_of_pane(double t) {
  const Interface face = bare_interface();
  return {face.tau * t, face.rho_air, t * t * face.rho_glass, 0.0, ""};
}

Reference whole_pane(double t) {
  const Interface face = bare_interface();
  return join(front_of_pane(t), {face.tau, face.rho_glass, face.rho_air, 0.0, ""});
}

std::string figure(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3f", x);
  return text;
}

[[noreturn]] void refuse(const char* name, double value, const Saying& why) {
  throw ImpossibleFilm(saying("{} {} cannot be: {}", Saying(name), figure(value), why));
}

void check_fraction(const char* name, double value) {
  if (!(value >= 0.0 && value <= 1.0)) refuse(name, value, "it is a fraction, 0 to 1");
}

// rho_g = X / (1 + R_b X), X = (R - R_f) / T_f^2 ; the layer's reflectance seen from inside the glass.
double layer_reflectance(const FilmSheet& sheet, const Reference& ref) {
  const double highest = ref.rho_front + ref.passed * ref.passed / (1.0 - ref.rho_back);  // a perfect mirror behind
  if (sheet.solar_reflectance < ref.rho_front - reflectance_rounding ||
      sheet.solar_reflectance > highest + reflectance_rounding)
    refuse(
        "solar reflectance", sheet.solar_reflectance,
        saying("with film on {} it lies between {} and {}", Saying(ref.name), figure(ref.rho_front), figure(highest)));
  const double x = (sheet.solar_reflectance - ref.rho_front) / (ref.passed * ref.passed);
  return std::fmin(1.0, std::fmax(0.0, x / (1.0 + ref.rho_back * x)));
}

Interface take_off(const FilmSheet& sheet, const Reference& ref) {
  check_fraction("solar transmittance", sheet.solar_transmittance);
  check_fraction("solar reflectance", sheet.solar_reflectance);
  check_fraction("film-side solar reflectance", sheet.solar_reflectance_film_side);

  double rho_g = layer_reflectance(sheet, ref);
  const double d = 1.0 - ref.rho_back * rho_g;
  double tau = sheet.solar_transmittance * d / ref.passed;
  if (tau + rho_g > 1.0 + sum_rounding)
    refuse("solar transmittance", sheet.solar_transmittance,
           saying("with solar reflectance {} at most {} passes through {} ({} without film)",
                  figure(sheet.solar_reflectance), figure((1.0 - rho_g) * ref.passed / d), Saying(ref.name),
                  figure(ref.bare)));

  const double from_glass = tau * tau * ref.rho_back / d;  // the reference glass behind the film, seen through it
  double rho_a = sheet.solar_reflectance_film_side - from_glass;
  if (rho_a < -reflectance_rounding || tau + rho_a > 1.0 + sum_rounding)
    refuse("film-side solar reflectance", sheet.solar_reflectance_film_side,
           saying("with solar transmittance {} on {} it lies between {} and {}", figure(sheet.solar_transmittance),
                  Saying(ref.name), figure(from_glass), figure(std::fmax(0.0, 1.0 - tau) + from_glass)));

  // Inside the rounding of the sheet: a layer that would give more than it gets absorbs nothing.
  if (const double sum = tau + rho_g; sum > 1.0) {
    tau /= sum;
    rho_g /= sum;
  }
  rho_a = std::fmin(std::fmax(0.0, rho_a), 1.0 - tau);
  return {tau, rho_g, rho_a, false};
}

void check_reference(double t) {
  if (!(t > 0.0 && t <= 1.0))
    throw std::invalid_argument("bulk transmittance of the reference glass " + figure(t) +
                                " cannot be: it lies above 0 and up to 1");
}

}  // namespace

Interface film_interface(const FilmSheet& sheet, double reference_bulk_transmittance) {
  check_reference(reference_bulk_transmittance);
  return take_off(sheet, with_bare_room_face(front_of_pane(reference_bulk_transmittance), "this reference glass"));
}

Interface film_interface_from_double(const FilmSheet& sheet, double reference_bulk_transmittance) {
  check_reference(reference_bulk_transmittance);
  const double t = reference_bulk_transmittance;
  return take_off(sheet, with_bare_room_face(join(whole_pane(t), front_of_pane(t)), "this double reference glazing"));
}

}  // namespace sunstrain
