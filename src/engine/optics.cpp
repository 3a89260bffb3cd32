// The sharing out of the sun in a stack of lites: every interface and every glass body is one element with a
// transmittance and two reflectances, and the stack is solved in flux form (net-radiation method).
// Interface values at an angle come from splitting the layer off its air boundary; see theory "Optics".

#include "sunstrain/optics.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "sunstrain/per_lite.hpp"

namespace sunstrain {
namespace {

constexpr double r0 = (glass_refractive_index - 1.0) / (glass_refractive_index + 1.0) *
                      ((glass_refractive_index - 1.0) / (glass_refractive_index + 1.0));

// ---- the angle: Fresnel for glass/air, and the lengthened path in the glass -------------------------------------

struct Direction {
  double r_s, r_p;  // reflectance of a bare face for the two polarizations
  double path;      // 1 / cos phi', length of way in the glass
};

// r_s = ((cos phi - n cos phi') / (cos phi + n cos phi'))^2, r_p = ((n cos phi - cos phi') / (n cos phi + cos phi'))^2,
// sin phi' = sin phi / n.
Direction direction(double incidence_rad, double n = glass_refractive_index) {
  const double c = std::cos(incidence_rad);
  const double s = std::sin(incidence_rad) / n;
  const double c_in = std::sqrt(1.0 - s * s);
  const double root_s = (c - n * c_in) / (c + n * c_in);
  const double root_p = (n * c - c_in) / (n * c + c_in);
  return {root_s * root_s, root_p * root_p, 1.0 / c_in};
}

// ---- an interface, split into its layer and the air boundary behind it ------------------------------------------

// The layer lies in glass (index of glass on both sides); the boundary to air is Fresnel. Together they give the
// interface's three numbers at normal incidence exactly.
struct Layer {
  bool bare = true, in_glass = false;
  double boundary = r0;                              // of the air boundary at normal incidence, <= that of bare glass
  double tau = 1.0, rho_glass = 0.0, rho_air = 0.0;  // of the layer without the boundary
  double log_share = 0.0;                            // ln of the share passed of what the layer does not reflect
};

// The strongest air boundary b <= r that leaves the layer possible:
// its reflectance from the air side    >= 0:  b <= rho_a
// its reflectance from the glass side  >= 0:  b <= rho_g / (tau^2 + rho_g (2 - rho_a))
// its absorptance from the glass side  >= 0:  b <= a_g / (tau a_a + a_g (2 - rho_a))
// b = r for all but films that quench the reflection of the glass.
double boundary_reflectance(const Interface& face) {
  double b = std::min(r0, face.rho_air);
  const double below = face.tau * face.tau + face.rho_glass * (2.0 - face.rho_air);
  if (below > 0.0) b = std::min(b, face.rho_glass / below);
  const double a_g = std::max(0.0, 1.0 - face.tau - face.rho_glass);
  const double a_a = std::max(0.0, 1.0 - face.tau - face.rho_air);
  constexpr double rounding = 1e-12;  // a clear layer has 0/0 here: leave it alone
  const double absorbed = face.tau * a_a + a_g * (2.0 - face.rho_air);
  if (face.tau * a_a * b > a_g * (1.0 - b * (2.0 - face.rho_air)) + rounding) b = std::min(b, a_g / absorbed);
  return b;
}

// With e = 1 - 2 b + b rho_a:
// layer tau = tau (1 - b)/e, rho_air = (rho_a - b)/e, rho_glass = rho_g - tau^2 b/e.
Layer split(const Interface& face) {
  if (face.bare) return {};
  if (face.in_glass) return {false, true, 0.0, face.tau, 0.0, 0.0, std::log(face.tau)};
  const double b = boundary_reflectance(face);
  const double e = 1.0 - 2.0 * b + b * face.rho_air;
  Layer layer{false, false, b, face.tau * (1.0 - b) / e, 0.0, 0.0, 0.0};
  layer.rho_glass = std::max(0.0, face.rho_glass - face.tau * face.tau * b / e);
  layer.rho_air = std::max(0.0, (face.rho_air - b) / e);
  // One share for both ways, so that tau stays the same both ways: the geometric mean of the two sides' shares.
  if (layer.tau > 0.0) {
    const double entering = std::sqrt((1.0 - layer.rho_glass) * (1.0 - layer.rho_air));
    layer.log_share = std::min(0.0, std::log(layer.tau / entering));
  }
  return layer;
}

// The boundary at an angle, from bare glass's r(phi): r itself for b = r(0); a quenched boundary keeps its share
// b/r(0) near the normal and still goes to 1 at grazing. Smooth, 0 <= result <= r(phi).
double boundary_at(double b, double r) {
  if (b == r0) return r;
  const double kept = b / r0;
  const double rise = (r - r0) / (1.0 - r0);
  return r * (kept + (1.0 - kept) * rise * rise);
}

// ---- elements of the stack --------------------------------------------------------------------------------------

// Front is the side towards outdoors.
struct Element {
  double tau, rho_front, rho_back, absorbed_front, absorbed_back;
};

Element reversed(const Element& e) { return {e.tau, e.rho_back, e.rho_front, e.absorbed_back, e.absorbed_front}; }

// Glass side is the front.
Element interface_at(const Layer& layer, double r, double path) {
  if (layer.bare) return {1.0 - r, r, r, 0.0, 0.0};
  if (layer.in_glass) {
    const double passed = std::exp(layer.log_share * path);
    return {passed, 0.0, 0.0, 1.0 - passed, 1.0 - passed};
  }
  const double tau = layer.tau * std::exp(layer.log_share * (path - 1.0));
  const double a_g = std::max(0.0, 1.0 - layer.rho_glass - tau);
  const double a_a = std::max(0.0, 1.0 - layer.rho_air - tau);
  const double m = boundary_at(layer.boundary, r);
  const double between = 1.0 - m * layer.rho_air;
  return {tau * (1.0 - m) / between, layer.rho_glass + tau * tau * m / between,
          m + (1.0 - m) * (1.0 - m) * layer.rho_air / between, a_g + tau * m * a_a / between,
          (1.0 - m) * a_a / between};
}

struct Body {
  Layer outer, inner;
  double log_bulk;
};

struct Stack {
  std::array<Body, most_lites> bodies;
  std::size_t count;
};

void check(bool good, const char* sentence) {
  if (!good) throw std::invalid_argument(sentence);
}

void check_interface(const Interface& face) {
  constexpr double most = 1.0 + 1e-9;
  check(face.tau >= 0.0 && face.rho_glass >= 0.0 && face.rho_air >= 0.0 && face.tau + face.rho_glass <= most &&
            face.tau + face.rho_air <= most,
        "a surface of the glazing sends on and back more light than it gets, or less than none");
  check(!face.in_glass || (face.rho_glass == 0.0 && face.rho_air == 0.0), "an interlayer sends nothing back");
}

Stack prepare(std::span<const OpticalLite> lites, double back_reflectance) {
  check(!lites.empty() && lites.size() <= most_lites, "the optics take 1 to 8 sheets of glass");
  check(back_reflectance >= 0.0 && back_reflectance < 1.0, "reflectance behind the glazing must be 0 to below 1");
  Stack stack{{}, lites.size()};
  for (std::size_t i = 0; i < lites.size(); ++i) {
    const OpticalLite& lite = lites[i];
    check_interface(lite.outer_face);
    check_interface(lite.inner_face);
    check(lite.bulk_transmittance >= 0.0 && lite.bulk_transmittance <= 1.0,
          "bulk transmittance of a lite must be 0 to 1");
    stack.bodies[i] = {split(lite.outer_face), split(lite.inner_face), std::log(lite.bulk_transmittance)};
  }
  return stack;
}

// Backwards: Re_j = Rf_j + T_j^2 Re_j+1 / (1 - Rb_j Re_j+1), what element j and all behind it send back.
// Forwards:  X_j = T_j I_j / (1 - Rb_j Re_j+1), the flux that leaves element j indoors;
//            A_j = I_j af_j + X_j Re_j+1 ab_j ; I_j+1 = X_j.
void add_polarized(const Stack& stack, double r, double path, double back_reflectance, double weight, Absorption& sum) {
  std::array<Element, 3 * most_lites> elements;
  std::array<double, 3 * most_lites + 1> sent_back;
  const std::size_t size = 3 * stack.count;
  for (std::size_t i = 0; i < stack.count; ++i) {
    const Body& body = stack.bodies[i];
    const double t = std::exp(body.log_bulk * path);
    elements[3 * i] = reversed(interface_at(body.outer, r, path));
    elements[3 * i + 1] = {t, 0.0, 0.0, 1.0 - t, 1.0 - t};
    elements[3 * i + 2] = interface_at(body.inner, r, path);
  }
  sent_back[size] = back_reflectance;
  for (std::size_t j = size; j-- > 0;) {
    const Element& e = elements[j];
    sent_back[j] = e.rho_front + e.tau * e.tau * sent_back[j + 1] / (1.0 - e.rho_back * sent_back[j + 1]);
  }
  double flux = weight;
  std::array<double, 3 * most_lites> absorbed;
  for (std::size_t j = 0; j < size; ++j) {
    const Element& e = elements[j];
    const double onward = e.tau * flux / (1.0 - e.rho_back * sent_back[j + 1]);
    absorbed[j] = flux * e.absorbed_front + onward * sent_back[j + 1] * e.absorbed_back;
    flux = onward;
  }
  sum.reflected += weight * sent_back[0];
  sum.transmitted += flux * (1.0 - back_reflectance);
  for (std::size_t i = 0; i < stack.count; ++i) {
    sum.lites[i].outer_face += absorbed[3 * i];
    sum.lites[i].bulk += absorbed[3 * i + 1];
    sum.lites[i].inner_face += absorbed[3 * i + 2];
  }
}

void add_direction(const Stack& stack, const Direction& d, double back_reflectance, double weight, Absorption& sum) {
  add_polarized(stack, d.r_s, d.path, back_reflectance, 0.5 * weight, sum);
  add_polarized(stack, d.r_p, d.path, back_reflectance, 0.5 * weight, sum);
}

Absorption nothing_yet(std::size_t lites) { return {0.0, 0.0, std::vector<LiteAbsorption>(lites, LiteAbsorption{})}; }

// ---- the hemisphere ---------------------------------------------------------------------------------------------

// Isotropic light: weight 2 sin phi cos phi d phi. 30 Gauss points in phi hold 1e-6 for low-iron triple units too,
// whose absorptance bends within the last degrees before grazing.
constexpr std::size_t directions = 30;
struct Hemisphere {
  std::array<Direction, directions> direction;
  std::array<double, directions> weight;
};

Hemisphere hemisphere() {
  using Rule = boost::math::quadrature::gauss<double, directions>;
  const auto& x = Rule::abscissa();  // the non-negative half
  const auto& w = Rule::weights();
  Hemisphere h{};
  constexpr double quarter = std::numbers::pi / 4.0;
  for (std::size_t i = 0; i < directions; ++i) {
    const std::size_t half = i / 2;
    const double phi = quarter * (1.0 + (i % 2 == 0 ? x[half] : -x[half]));
    h.direction[i] = direction(phi);
    h.weight[i] = quarter * w[half] * std::sin(2.0 * phi);
  }
  return h;
}

}  // namespace

// Layer under, then the film's interface, light going to and fro between them.
Interface laid_over(const Interface& film, const Interface& under) {
  if (under.bare) return film;
  const Layer layer = split(under);
  const double between = 1.0 - layer.rho_air * film.rho_glass;
  return {layer.tau * film.tau / between, layer.rho_glass + layer.tau * layer.tau * film.rho_glass / between,
          film.rho_air + film.tau * film.tau * layer.rho_air / between, false};
}

double fresnel_reflectance(double incidence_rad, double n) {
  check(incidence_rad >= 0.0 && incidence_rad <= std::numbers::pi / 2.0 && n >= 1.0,
        "a face's reflectance needs an angle of 0 to 90 degrees and an index of at least 1");
  const Direction d = direction(incidence_rad, n);
  return 0.5 * (d.r_s + d.r_p);
}

Interface bare_interface() { return {1.0 - r0, r0, r0, true}; }

Interface weathered(const Interface& film, double taken_up) {
  check(taken_up >= 0.0 && taken_up < 1.0, "what weather takes up must be 0 to below 1");
  if (taken_up == 0.0) return film;
  const double passed = 1.0 - taken_up;
  return {film.tau * passed, film.rho_glass, film.rho_air * passed * passed, false};
}

Interface interlayer_half(double interlayer_transmittance) {
  check(interlayer_transmittance >= 0.0 && interlayer_transmittance <= 1.0,
        "transmittance of an interlayer must be 0 to 1");
  return {std::sqrt(interlayer_transmittance), 0.0, 0.0, false, true};
}

double bulk_transmittance(double solar_transmittance) {
  const double highest = (1.0 - r0) / (1.0 + r0);
  if (!(solar_transmittance > 0.0 && solar_transmittance <= highest))
    throw std::invalid_argument("solar transmittance of a bare pane must be above 0 and at most 0.916");
  // t = (sqrt((1-r)^4 + 4 r^2 T^2) - (1-r)^2) / (2 r^2 T), written without the difference of near equals.
  const double face_twice = (1.0 - r0) * (1.0 - r0);
  const double echo = 2.0 * r0 * solar_transmittance;
  return std::min(1.0, 2.0 * solar_transmittance / (face_twice + std::sqrt(face_twice * face_twice + echo * echo)));
}

double bare_transmittance(double bulk_transmittance) {
  const double t = bulk_transmittance;
  check(t >= 0.0 && t <= 1.0, "bulk transmittance of a pane must be 0 to 1");
  return (1.0 - r0) * (1.0 - r0) * t / (1.0 - r0 * r0 * t * t);
}

Absorption absorb_beam(std::span<const OpticalLite> lites, double incidence_rad, double back_reflectance) {
  check(incidence_rad >= 0.0 && incidence_rad < std::numbers::pi / 2.0,
        "angle of incidence must be 0 to below 90 degrees");
  const Stack stack = prepare(lites, back_reflectance);
  Absorption sum = nothing_yet(lites.size());
  add_direction(stack, direction(incidence_rad), back_reflectance, 1.0, sum);
  return sum;
}

Absorption absorb_diffuse(std::span<const OpticalLite> lites, double back_reflectance) {
  static const Hemisphere sky = hemisphere();
  const Stack stack = prepare(lites, back_reflectance);
  Absorption sum = nothing_yet(lites.size());
  for (std::size_t i = 0; i < directions; ++i)
    add_direction(stack, sky.direction[i], back_reflectance, sky.weight[i], sum);
  return sum;
}

}  // namespace sunstrain
