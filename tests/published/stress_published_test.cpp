// The edge stress against closed forms, against an independent finite-element program, and against a second route of
// our own (Airy stress function on Hermite bicubics, tests/support/airy_plate).
#include <algorithm>
#include <catch2/catch.hpp>
#include <numbers>

#include "../support/airy_plate.hpp"
#include "../support/stress_fields.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

constexpr PaneElasticity unit{1.0, 1.0};

Profile1d box(double from, double to) {
  return [=](double s) { return s > from && s < to ? 1.0 : 0.0; };
}

EdgeStress solve_terms(const EdgeStressSolver& solver, std::vector<ProductTerm> terms) {
  return solver.solve(std::span<const ProductTerm>(terms));
}

// The middle of a side; with an even number of mirrored points the two next to it are the same distance away.
double at_middle(const EdgeStress& e, Side side) {
  const auto& v = e.stress_pa[static_cast<std::size_t>(side)];
  return 0.5 * (v[v.size() / 2 - 1] + v[v.size() / 2]);
}

struct StripEdges {
  double bottom, top;
};

// A strip 20 times as long as it is high, temperature across it only; middle of its long edges.
StripEdges long_strip(Profile1d across_height, std::vector<Feature> features = {}) {
  const EdgeStressSolver solver(4.0, 0.2, {{}, std::move(features)}, unit);
  const EdgeStress e = solve_terms(solver, {{1.0, one, std::move(across_height)}});
  return {at_middle(e, Side::bottom), at_middle(e, Side::top)};
}

}  // namespace

// Timoshenko & Goodier, Theory of Elasticity, 3rd ed., art. 150: thin strip, temperature T0 (1 - y^2/c^2):
// sigma = (2/3) E alpha T0 - E alpha T0 (1 - y^2/c^2), away from the ends. Recalled, not read from the book.
TEST_CASE("long strip, parabola across: 2/3 at both edges", "[stress][published]") {
  const auto [bottom, top] = long_strip([](double y) { return 1.0 - std::pow(y / 0.1 - 1.0, 2); });
  CHECK(bottom == Approx(2.0 / 3.0).epsilon(1e-4));
  CHECK(top == Approx(2.0 / 3.0).epsilon(1e-4));
}

// The same article's general rule, strain linear across the strip and no resultants:
// sigma = -E alpha T + (E alpha / 2c) int T dy + (3 E alpha y / 2c^3) int T y dy. For T = T0 (y/c)^3 it gives
// sigma = E alpha T0 (3/5 y/c - (y/c)^3): -0.4 and 0.4.
TEST_CASE("long strip, cubic across: -0.4 and 0.4", "[stress][published]") {
  const auto [bottom, top] = long_strip([](double y) { return std::pow(y / 0.1 - 1.0, 3); });
  CHECK(bottom == Approx(0.4).epsilon(1e-4));
  CHECK(top == Approx(-0.4).epsilon(1e-4));
}

// Boley & Weiner, Theory of Thermal Stresses, ch. 9-10, give the same strength-of-materials form for beams of any
// T(y). One cold side of share f, the rest hotter by 1: cold outer edge (1 - f)(1 - 3f), far hot edge 2f - 3f^2.
TEST_CASE("long strip, one cold side of share f", "[stress][published]") {
  for (double f : {0.05, 0.1, 0.25, 0.5}) {
    const double line = 0.2 * f;
    const auto [bottom, top] = long_strip(box(line, 0.3), {{line, 0.005}});
    CHECK(bottom == Approx((1 - f) * (1 - 3 * f)).margin(2e-4));
    CHECK(top == Approx(2 * f - 3 * f * f).margin(2e-4));
  }
}

// Two equal cold sides, total share f: 1 - f at both edges (mean stress only, no bow).
TEST_CASE("long strip, two equal cold sides", "[stress][published]") {
  for (double f : {0.05, 0.2, 0.5}) {
    const double line = 0.1 * f;
    const auto [bottom, top] = long_strip(box(line, 0.2 - line), {{line, 0.005}, {0.2 - line, 0.005}});
    CHECK(bottom == Approx(1 - f).epsilon(2e-4));
    CHECK(top == Approx(1 - f).epsilon(2e-4));
  }
}

// The strip behind a sightline in a long strip, by the same rule: T = 1 - exp(-y/l) - exp(-(h-y)/l) averages to
// 1 - 2 l/h (1 - exp(-h/l)).
TEST_CASE("long strip, conducted cold edges", "[stress][published]") {
  for (double l : {0.010, 0.015, 0.023}) {
    const double decay = std::exp(-0.2 / l), edge = -decay;
    const auto [bottom, top] = long_strip(framed(0.2, l), {{0.0, l}});
    CHECK(bottom == Approx(1.0 - 2.0 * l / 0.2 * (1.0 - decay) - edge).epsilon(2e-4));
    CHECK(top == Approx(bottom).epsilon(1e-9));
  }
}

// A step of 1 K along a strip, line straight across: the long edges carry +0.5 E alpha beside the line on the hot side
// and -0.5 on the cold side (by antisymmetry H is the mean temperature at the line; the value is classical for a
// strip of which one part is heated, cf. Goodier 1937). A softened step falls short by an amount that vanishes with its
// width.
TEST_CASE("step along a strip: 0.5 on the hot side", "[stress][published]") {
  double short_by = 1.0;
  for (double scale : {0.008, 0.004, 0.002}) {
    const EdgeStressSolver solver(3.0, 1.0, {{{1.5, scale}}, {}}, unit, 160);
    const EdgeStress e = solve_terms(solver, {{1.0, smooth_step(1.5, scale), one}});
    CHECK(e.peak_position_m > 1.5);
    CHECK(e.peak_position_m < 1.5 + 4 * scale);
    const double low = *std::ranges::min_element(e.stress_pa[0]);
    CHECK(low == Approx(-e.peak_pa).epsilon(1e-2));
    CHECK(0.5 - e.peak_pa > 0.0);
    CHECK(0.5 - e.peak_pa < 0.62 * short_by);
    short_by = 0.5 - e.peak_pa;
  }
  CHECK(short_by < 0.01);

  // The jump itself, as a thermal picture may hold it.
  const EdgeStressSolver solver(3.0, 1.0, {{{1.5, 0.005}}, {}}, unit, 160);
  const EdgeStress e = solve_terms(solver, {{1.0, [](double x) { return x > 1.5 ? 1.0 : 0.0; }, one}});
  CHECK(e.peak_pa == Approx(0.5).epsilon(0.01));
}

// A small hot spot at depth c below a straight edge (nucleus of thermoelastic strain in a half-plane; Goodier 1937,
// thermoelastic potential and its image): the stress along the edge is
//   sigma = (2/pi) E alpha (c^2 - x^2) / (c^2 + x^2)^2 * integral of T dA,
// for a round spot of any radial profile that does not reach the edge. For a disk of radius a, T0: 2 E alpha T0 (a/c)^2
// above it. Derived here, the sources recalled.
TEST_CASE("round hot spot near a straight edge", "[stress][published]") {
  const double side = 6.0, c = 0.15, s = 0.03, middle = 0.5 * side;
  const auto bell = [=](double m) { return [=](double x) { return std::exp(-0.5 * std::pow((x - m) / s, 2)); }; };
  const EdgeStressSolver solver(side, side, {{{middle, s}}, {{c, s}}}, unit, 200);
  const EdgeStress e = solve_terms(solver, {{1.0, bell(middle), bell(c)}});
  const double heat = 2.0 * std::numbers::pi * s * s;
  const auto exact = [=](double x) {
    return 2.0 / std::numbers::pi * heat * (c * c - x * x) / std::pow(c * c + x * x, 2);
  };
  CHECK(e.peak_pa == Approx(exact(0.0)).epsilon(0.005));
  CHECK(e.peak_position_m == Approx(middle).margin(0.005));
  int compared = 0;
  for (std::size_t i = 0; i < 200; ++i) {
    const double x = e.position_m[0][i] - middle;
    if (std::abs(x) > 0.6) continue;
    // The pane is 40 times as wide as the spot is deep, not infinite: its mean and bow leave some 0.3 % of the peak.
    CHECK(e.stress_pa[0][i] == Approx(exact(x)).margin(0.006 * exact(0.0)));
    ++compared;
  }
  CHECK(compared > 30);
}

namespace {

// Shadow patterns on a 1.5 x 1.0 m pane, cold edge strip 12.5 mm, sharp steps; lit part 1, strip 0, shaded part ts.
struct Lit {
  double from_x, to_x, from_y, to_y;
};

double multiplier(const Lit& lit, double shaded, double strip = 0.0125, double w = 1.5, double h = 1.0) {
  const double scale = std::max(0.006, strip / 3.0);
  FieldFeatures f;
  for (double x : {strip, w - strip, lit.from_x, lit.to_x}) f.along_x.push_back({x, scale});
  for (double y : {strip, h - strip, lit.from_y, lit.to_y}) f.along_y.push_back({y, scale});
  const EdgeStressSolver solver(w, h, f, unit);
  const auto inside = [&](double from, double to, double length) {
    return box(std::max(from, strip), std::min(to, length - strip));
  };
  return solve_terms(solver, {{shaded, inside(0, w, w), inside(0, h, h)},
                              {1.0 - shaded, inside(lit.from_x, lit.to_x, w), inside(lit.from_y, lit.to_y, h)}})
      .peak_pa;
}

}  // namespace

// Multipliers k = greatest edge stress / (E alpha (T_sun - T_edge)) computed beforehand from first principles with an
// independent plane-stress finite-element program: 480 x 320 elements, Poisson's ratio 0.23 (which drops out), half
// the elements giving up to 1.2 % other values; given to 0.01 in part.
TEST_CASE("shadow multipliers of an independent finite-element program", "[stress][published]") {
  const double w = 1.5, h = 1.0, none = multiplier({0, w, 0, h}, 0.0);
  CHECK(none == Approx(0.981).epsilon(0.005));
  struct Row {
    const char* name;
    Lit lit;
    double dark, at_3, at_5;
  };  // k at ts = 0; ratio to none at ts = 0.3, 0.5
  for (const Row& r : {Row{"one long side 10 %", {0, w, 0.1 * h, h}, 1.320, 1.22, 1.15},
                       {"one long side 25 %", {0, w, 0.25 * h, h}, 1.406, 1.29, 1.21},
                       {"one long side 50 %", {0, w, 0.5 * h, h}, 1.270, 1.20, 1.14},
                       {"one short side 25 %", {0.25 * w, w, 0, h}, 1.36, 1.26, 1.19},
                       {"one short side 50 %", {0.5 * w, w, 0, h}, 1.30, 1.22, 1.16},
                       {"L 10 % + 10 %", {0.1 * w, w, 0.1 * h, h}, 1.398, 1.28, 1.20},
                       {"L 25 % + 25 %", {0.25 * w, w, 0.25 * h, h}, 1.500, 1.36, 1.26},
                       {"two long sides 25 % each", {0, w, 0.25 * h, 0.75 * h}, 1.577, 1.42, 1.30},
                       // all four sides 10 % of the height
                       {"all four sides", {0.1, w - 0.1, 0.1, h - 0.1}, 0.843, 0.90, 0.93}}) {
    INFO(r.name);
    CHECK(multiplier(r.lit, 0.0) == Approx(r.dark).epsilon(0.03));
    CHECK(multiplier(r.lit, 0.3) / none == Approx(r.at_3).epsilon(0.03));
    CHECK(multiplier(r.lit, 0.5) / none == Approx(r.at_5).epsilon(0.03));
  }
  const double scale = 0.015, strip = 0.0125;
  const FieldFeatures f{{{strip, scale}, {w - strip, scale}, {0.5 * w, scale, 0.5 * w}},
                        {{strip, scale}, {h - strip, scale}, {0.5 * h, scale, 0.5 * h}}};
  const EdgeStress diagonal = EdgeStressSolver(w, h, f, unit).solve_general([=](double x, double y) {
    return x > strip && x < w - strip && y > strip && y < h - strip && y / h < x / w ? 1.0 : 0.0;
  });
  CHECK(diagonal.peak_pa == Approx(1.288).epsilon(0.03));
}

// The same program, frame only, by the width of the cold strip over the height, 120 to 160 elements.
TEST_CASE("frame-only multipliers of an independent finite-element program", "[stress][published]") {
  struct Row {
    double aspect;
    std::array<double, 4> k;
  };
  for (const Row& r : {Row{1.0, {0.979, 0.957, 0.914, 0.822}}, Row{1.5, {0.981, 0.961, 0.922, 0.843}},
                       Row{2.0, {0.978, 0.957, 0.914, 0.826}}}) {
    const std::array<double, 4> strip{0.0125, 0.025, 0.05, 0.10};
    for (std::size_t i = 0; i < 4; ++i)
      CHECK(multiplier({0, r.aspect, 0, 1}, 0.0, strip[i], r.aspect, 1.0) == Approx(r.k[i]).epsilon(0.01));
  }
}

namespace {

std::vector<double> fixed_positions(const std::vector<Feature>& features) {
  std::vector<double> at;
  for (const Feature& f : features)
    if (f.reach_m == 0.0) at.push_back(f.position_m);
  return at;
}

struct Agreement {
  double edge, peak;
};

Agreement compare(const ShadowCase& c, double fineness) {
  const bool anywhere = c.terms.empty();
  const Grading grading{0.0012 * fineness, 0.004 * fineness, 1.0 + 0.28 * fineness,
                        (anywhere ? 0.016 : 0.08) * fineness};
  const AiryPlate plate(graded_lines(c.width_m, fixed_positions(c.features.along_x), grading),
                        graded_lines(c.height_m, fixed_positions(c.features.along_y), grading),
                        glass.young_pa * glass.expansion_per_k, c.temperature);
  const EdgeStress e = solve_case(c);
  EdgeStress airy = e;
  airy.peak_pa = 0.0;
  for (std::size_t s = 0; s < 4; ++s)
    for (std::size_t i = 0; i < e.position_m[s].size(); ++i) {
      airy.stress_pa[s][i] = plate.edge_stress_pa(static_cast<int>(s), e.position_m[s][i]);
      airy.peak_pa = std::max(airy.peak_pa, airy.stress_pa[s][i]);
    }
  return {edge_difference(e, airy), std::abs(e.peak_pa / airy.peak_pa - 1.0)};
}

}  // namespace

TEST_CASE("the Airy route on Hermite bicubics agrees to 0.5 % of the peak on framed panes with shadows",
          "[stress][published]") {
  for (const ShadowCase& c : shadow_cases(1.2, 1.5, 0.015, 0.015)) {
    const Agreement a = compare(c, 1.0);
    INFO(c.name);
    CHECK(a.edge < 0.003);
    CHECK(a.peak < 0.003);
  }
  for (const ShadowCase& c : shadow_cases(1.5, 0.5, 0.012, 0.020, conducted_step)) {
    const Agreement a = compare(c, 1.0);
    INFO(c.name << ", 1.5 x 0.5");
    CHECK(a.edge < 0.004);
    CHECK(a.peak < 0.004);
  }
}

// Exact on a clamped stress function of its own: phi = (x^2 - A^2)^2 (y^2 - B^2)^2 is not in the space, so the edge
// stress converges, at second order, as second derivatives of cubics do.
TEST_CASE("the Airy route converges at its order", "[stress][published]") {
  const double a = 0.6, b = 0.4;
  const auto p = [](double s, double c) { return (s * s - c * c) * (s * s - c * c); };
  const auto p2 = [](double s, double c) { return 12.0 * s * s - 4.0 * c * c; };
  const auto lap = [=](double x, double y) { return p2(x - a, a) * p(y - b, b) + p(x - a, a) * p2(y - b, b); };
  std::vector<double> error;
  for (int n : {8, 16, 32}) {
    const AiryPlate plate(even_lines(2 * a, n), even_lines(2 * b, n), 1.0,
                          [=](double x, double y) { return -lap(x, y); });
    double worst = 0.0;
    for (double s = 0.05; s < 2 * a; s += 0.05)
      worst = std::max(worst, std::abs(plate.edge_stress_pa(0, s) - lap(s, 0.0)));
    for (double s = 0.05; s < 2 * b; s += 0.05)
      worst = std::max(worst, std::abs(plate.edge_stress_pa(1, s) - lap(2 * a, s)));
    error.push_back(worst);
  }
  const double first = std::log2(error[0] / error[1]), second = std::log2(error[1] / error[2]);
  INFO(first << ' ' << second);
  CHECK(first > 1.7);
  CHECK(second == Approx(2.0).margin(0.2));
}

// Under a shadow too, halving the mesh quarters what is left between the two routes.
TEST_CASE("the two routes close in on each other as the Airy mesh is refined", "[stress][published]") {
  const ShadowCase c = shadow_cases(1.2, 1.5, 0.015, 0.015)[3];
  const double coarse = compare(c, 4.0).edge, middle = compare(c, 2.0).edge, fine = compare(c, 1.0).edge;
  INFO(coarse << ' ' << middle << ' ' << fine);
  CHECK(middle < 0.4 * coarse);
  CHECK(fine < 0.4 * middle);
}
