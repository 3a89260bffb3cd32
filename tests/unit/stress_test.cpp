// The edge-stress solver against what must hold whatever the numbers: fields free of stress, symmetry, linearity,
// fields whose stress is known in closed form by construction, agreement of its ways in, convergence.
#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <stdexcept>

#include "../support/stress_fields.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

using Solver = EdgeStressSolver;
using Field = std::function<double(double, double)>;

double largest(const EdgeStress& e) {
  double most = 0.0;
  for (const auto& side : e.stress_pa)
    for (double v : side) most = std::max(most, std::abs(v));
  return most;
}

EdgeStress solve_products(const Solver& solver, std::vector<ProductTerm> terms) {
  return solver.solve(std::span<const ProductTerm>(terms));
}

}  // namespace

TEST_CASE("uniform and linear fields leave the pane free of stress", "[stress]") {
  for (const auto& [w, h] : std::vector<std::pair<double, double>>{{1.2, 1.5}, {0.1, 0.1}, {6.0, 0.3}, {0.15, 3.0}}) {
    const Solver solver(w, h, {}, glass);
    const double unit = glass.young_pa * glass.expansion_per_k;
    for (const Field& field :
         {Field([](double, double) { return 1.0; }), Field([=](double x, double) { return x / w; }),
          Field([=](double, double y) { return y / h; }), Field([=](double x, double y) { return x * y / (w * h); })}) {
      CHECK(largest(solver.solve_general(field)) < 5e-8 * unit);
    }
    const auto x = [=](double s) { return s / w; };
    const auto y = [=](double s) { return 3.0 - s / h; };
    CHECK(largest(solve_products(solver, {{1.0, x, one}, {2.0, one, y}, {5.0, one, one}, {7.0, x, y}})) < 1e-6 * unit);
  }
}

// Its curvature at the corners is what a series of sines reaches last, so there is a small rest, here of fields that
// span 3 to 5 K.
TEST_CASE("a harmonic field causes no stress along the edge", "[stress]") {
  const double w = 1.2, h = 1.5, unit = glass.young_pa * glass.expansion_per_k;
  const Solver solver(w, h, {}, glass);
  CHECK(largest(solver.solve_general([](double x, double y) { return x * x - y * y; })) < 2e-4 * unit);
  CHECK(largest(solver.solve_general([](double x, double y) { return x * x * x - 3 * x * y * y; })) < 5e-4 * unit);
  CHECK(largest(solve_products(solver, {{1.0, [](double x) { return std::cos(2.0 * x); },
                                         [](double y) { return std::exp(-2.0 * y); }}})) < 2e-4 * unit);
}

// phi = (x^2 - A^2)^2 (y^2 - B^2)^2 is clamped, so lap(phi) is orthogonal to every harmonic function: a field
// T = -lap(phi) / (E alpha) has H = 0 and the stress -E alpha T along the edge.
TEST_CASE("a field made from a clamped stress function gives back its own edge stress", "[stress]") {
  for (const auto& [w, h] : std::vector<std::pair<double, double>>{{1.2, 1.5}, {2.0, 0.4}, {0.2, 0.2}}) {
    const double a = 0.5 * w, b = 0.5 * h;
    const auto p = [](double s, double c) { return (s * s - c * c) * (s * s - c * c); };
    const auto p2 = [](double s, double c) { return 12.0 * s * s - 4.0 * c * c; };
    const auto lap = [=](double x, double y) {
      const double u = x - a, v = y - b;
      return (p2(u, a) * p(v, b) + p(u, a) * p2(v, b)) / (a * a * b * b * (a * a + b * b));
    };
    const double scale = -1.0 / (a * a * b * b * (a * a + b * b));
    const std::vector<ProductTerm> terms{
        {scale, [=](double x) { return p2(x - a, a); }, [=](double y) { return p(y - b, b); }},
        {scale, [=](double x) { return p(x - a, a); }, [=](double y) { return p2(y - b, b); }}};
    // The default without features, and four times the modes.
    for (const auto& [more, margin] : {std::pair{1.0, 0.003}, {4.0, 0.0003}}) {
      const Solver solver(w, h, {}, {1.0, 1.0}, 64, {more, 4.0});
      const EdgeStress e = solver.solve_general([=](double x, double y) { return -lap(x, y); });
      const double off = margin * std::max(lap(a, 0), lap(0, b));
      INFO(w << " x " << h << " modes " << solver.modes_x());
      for (std::size_t i = 0; i < 64; ++i) {
        const double x = e.position_m[0][i], y = e.position_m[1][i];
        CHECK(e.stress_pa[0][i] == Approx(lap(x, 0)).margin(off));
        CHECK(e.stress_pa[1][i] == Approx(lap(w, y)).margin(off));
        CHECK(e.stress_pa[2][i] == Approx(lap(x, h)).margin(off));
        CHECK(e.stress_pa[3][i] == Approx(lap(0, y)).margin(off));
      }
      CHECK(edge_difference(solve_products(solver, terms), e, 0.0) < 1e-8);
      CHECK(e.peak_pa == Approx(std::max(lap(a, 0), lap(0, b))).epsilon(0.001));
    }
  }
}

TEST_CASE("a mirrored field gives the mirrored stress", "[stress]") {
  for (const ShadowCase& c : shadow_cases(0.9, 1.4, 0.015, 0.015)) {
    ShadowCase m = c;
    for (Feature& f : m.features.along_x) f.position_m = c.width_m - f.position_m;
    for (ProductTerm& t : m.terms) t.x_profile = [f = t.x_profile, w = c.width_m](double x) { return f(w - x); };
    m.temperature = [f = c.temperature, w = c.width_m](double x, double y) { return f(w - x, y); };
    const EdgeStress a = solve_case(c), b = solve_case(m);
    for (std::size_t i = 0; i < 64; ++i)
      for (const auto& [from, to] : {std::pair{0, 0}, {2, 2}, {1, 3}, {3, 1}}) {
        const double mirrored = b.stress_pa[static_cast<std::size_t>(to)][to % 2 == 0 ? 63 - i : i];
        CHECK(a.stress_pa[static_cast<std::size_t>(from)][i] == Approx(mirrored).margin(1e-8 * a.peak_pa));
      }
    CHECK(a.peak_pa == Approx(b.peak_pa).epsilon(1e-9));
  }
}

TEST_CASE("turning the pane a quarter turns the stress with it", "[stress]") {
  const ShadowCase c = shadow_cases(0.9, 1.4, 0.015, 0.015)[3];
  ShadowCase turned = c;
  std::swap(turned.width_m, turned.height_m);
  std::swap(turned.features.along_x, turned.features.along_y);
  for (ProductTerm& t : turned.terms) std::swap(t.x_profile, t.y_profile);  // mirrored about the diagonal
  const EdgeStress a = solve_case(c), b = solve_case(turned);
  for (std::size_t i = 0; i < 64; ++i) {
    CHECK(a.stress_pa[0][i] == Approx(b.stress_pa[3][i]).margin(1e-9 * a.peak_pa));
    CHECK(a.stress_pa[2][i] == Approx(b.stress_pa[1][i]).margin(1e-9 * a.peak_pa));
  }
}

TEST_CASE("the stress is linear in the temperature and scale-free in size", "[stress]") {
  const auto cases = shadow_cases(1.2, 1.5, 0.015, 0.015), larger = shadow_cases(3.6, 4.5, 0.045, 0.045);
  for (std::size_t k = 0; k < cases.size(); ++k) {
    const EdgeStress small = solve_case(cases[k]), large = solve_case(larger[k]);
    CHECK(edge_difference(large, small, 0.0) < 1e-7);
    CHECK(large.peak_position_m == Approx(3.0 * small.peak_position_m).epsilon(1e-6));
  }
  ShadowCase c = cases[3], sum = c;
  for (ProductTerm& t : c.terms) t.amplitude_k *= -2.5;
  const EdgeStress a = solve_case(sum), b = solve_case(c);
  for (std::size_t i = 0; i < 64; ++i)
    CHECK(b.stress_pa[1][i] == Approx(-2.5 * a.stress_pa[1][i]).margin(1e-9 * a.peak_pa));
  sum.terms.push_back(cases[1].terms[0]);
  sum.features.along_x.push_back({0.3, 0.015});
  CHECK(solve_case(sum).peak_pa < a.peak_pa + solve_case(cases[1]).peak_pa);
}

TEST_CASE("sums of products, sampled profiles, general fields and batches agree", "[stress]") {
  for (const ShadowCase& c : shadow_cases(1.2, 0.8, 0.012, 0.015, conducted_step)) {
    if (c.terms.empty()) continue;
    const Solver solver(c.width_m, c.height_m, c.features, glass, 48);
    const EdgeStress a = solver.solve(std::span<const ProductTerm>(c.terms));
    CHECK(edge_difference(solver.solve_general(c.temperature), a, 0.0) < 1e-8);

    std::vector<Solver::Profile> kept;
    for (const ProductTerm& t : c.terms) {
      kept.push_back(solver.transform_x(solver.sample_x(t.x_profile)));
      kept.push_back(solver.transform_y(solver.sample_y(t.y_profile)));
    }
    // Fields 0, 1, ... 8, each with the amplitudes times its number plus one; a number that is no multiple of the
    // batch's own grouping.
    std::vector<Solver::Product> products;
    std::vector<std::size_t> starts{0};
    for (int field = 0; field < 9; ++field) {
      for (std::size_t k = 0; k < c.terms.size(); ++k)
        products.push_back({(field + 1) * c.terms[k].amplitude_k, kept[2 * k].data, kept[2 * k + 1].data});
      starts.push_back(products.size());
    }
    std::vector<double> batch(9 * 4 * 48), single(4 * 48);
    solver.solve_batch(products, starts, batch);
    for (std::size_t f = 0; f < 9; ++f) {
      solver.solve_into(std::span(products).subspan(starts[f], c.terms.size()), single);
      CHECK(std::equal(single.begin(), single.end(), batch.begin() + static_cast<std::ptrdiff_t>(f * 192)));  // bits
      const EdgePeak peak = solver.find_peak(single);
      CHECK(peak.stress_pa == Approx(static_cast<double>(f + 1) * a.peak_pa).epsilon(1e-9));
      CHECK(peak.side == a.peak_side);
    }
  }
}

TEST_CASE("profiles made ready in a batch are the same to the last bit", "[stress]") {
  const Solver solver(1.2, 0.8, {{{0.3, 0.015}}, {{0.2, 0.015}}}, glass);
  std::vector<double> x, y;
  for (int k = 0; k < 7; ++k) {
    const auto profile = [k](double s) { return std::sin((k + 1) * s) + std::abs(s - 0.3); };
    for (double v : solver.sample_x(profile)) x.push_back(v);
    for (double v : solver.sample_y(profile)) y.push_back(v);
  }
  std::vector<double> ready_x(7 * solver.x_profile_size()), ready_y(7 * solver.y_profile_size());
  solver.transform_x_batch(x, ready_x);
  solver.transform_y_batch(y, ready_y);
  for (std::size_t k = 0; k < 7; ++k) {
    const auto each_x = std::span(x).subspan(k * solver.x_sample_size(), solver.x_sample_size());
    const auto each_y = std::span(y).subspan(k * solver.y_sample_size(), solver.y_sample_size());
    CHECK(std::ranges::equal(solver.transform_x(each_x).data,
                             std::span(ready_x).subspan(k * solver.x_profile_size(), solver.x_profile_size())));
    CHECK(std::ranges::equal(solver.transform_y(each_y).data,
                             std::span(ready_y).subspan(k * solver.y_profile_size(), solver.y_profile_size())));
  }
}

// Against answers with three times the modes and four times the quadrature. The corner itself, where
// the stress falls to nothing within a few millimeters, is left out.
TEST_CASE("0.5 % of the peak along the whole edge, 0.2 % at the peak, from 0.1 to 6 m and to an aspect of 20",
          "[stress][slow]") {
  struct Size {
    double w, h, frame, shadow;
  };
  for (const Size& s : {Size{1.2, 1.5, 0.015, 0.015},
                        {1.2, 1.5, 0.015, 0.005},
                        {0.1, 0.1, 0.010, 0.005},
                        {0.1, 2.0, 0.015, 0.015},
                        {6.0, 0.3, 0.020, 0.015},
                        {3.0, 3.0, 0.020, 0.020},
                        {0.6, 0.6, 0.012, 0.020}})
    for (auto step : {smooth_step, conducted_step})
      for (const ShadowCase& c : shadow_cases(s.w, s.h, s.frame, s.shadow, step)) {
        const EdgeStress converged = solve_case(c, {3.0, 1.0}), e = solve_case(c);
        INFO(c.name << ' ' << s.w << " x " << s.h << " frame " << s.frame << " shadow " << s.shadow);
        CHECK(edge_difference(e, converged) < 0.003);
        CHECK(e.peak_pa == Approx(converged.peak_pa).epsilon(0.001));
        // Between its 64 points a side the peak is found as with 400.
        CHECK(e.peak_pa == Approx(solve_case(c, {}, 400).peak_pa).epsilon(0.002));
      }
}

// Nothing softens the shadow line where the edge itself is lit (structural glazing); a thermal picture has jumps.
TEST_CASE("ramps and jumps that cross an open edge", "[stress]") {
  const double w = 1.2, h = 1.5, at = 0.9;
  for (double ramp : {0.0, 0.005, 0.015, 0.030}) {
    const auto fall = [=](double y) {
      return ramp == 0.0 ? (y < at ? 1.0 : 0.0) : std::clamp((at - y) / ramp + 0.5, 0.0, 1.0);
    };
    const double scale = std::max(0.005, ramp / 3.0);
    const FieldFeatures features{{}, {{at - 0.5 * ramp, scale}, {at + 0.5 * ramp, scale}}};
    const ShadowCase c{"ramp", w, h, features, sum_of({{20.0, one, fall}}), {{20.0, one, fall}}};
    const EdgeStress converged = solve_case(c, {4.0, 1.0});
    INFO(ramp);
    CHECK(edge_difference(solve_case(c), converged) < 0.003);
    const Solver solver(w, h, features, glass);
    CHECK(edge_difference(solver.solve_general(c.temperature), converged) < 0.003);
  }
}

TEST_CASE("a change that may lie anywhere within reach is resolved wherever it lies", "[stress]") {
  const double w = 1.0, h = 1.5, scale = 0.015;
  const FieldFeatures anywhere{{{0.0, scale}}, {{0.5 * h, scale, 0.5 * h}}};
  const Solver solver(w, h, anywhere, glass);
  for (double at = 0.0137; at < h; at += 0.0931) {
    const auto lit = conducted_step(at, scale);
    const std::vector<ProductTerm> terms{{20.0, framed(w, scale), times(framed(h, scale), lit)}};
    const ShadowCase exact{"", w, h, {{{0.0, scale}}, {{at, scale}}}, {}, terms};
    const Solver fine(w, h, exact.features, glass, 600, {4.0, 1.0});
    INFO(at);
    CHECK(solver.solve(std::span<const ProductTerm>(terms)).peak_pa ==
          Approx(fine.solve(std::span<const ProductTerm>(terms)).peak_pa).epsilon(0.003));
  }
}

TEST_CASE("errors fall as modes are added", "[stress]") {
  for (const ShadowCase& c : shadow_cases(1.2, 1.5, 0.015, 0.015, conducted_step)) {
    const EdgeStress converged = solve_case(c, {5.0, 1.0});
    const double coarse = edge_difference(solve_case(c, {0.75, 2.0}), converged),
                 fine = edge_difference(solve_case(c, {1.5, 2.0}), converged);
    INFO(c.name << ' ' << coarse << ' ' << fine);
    CHECK(fine < 0.4 * coarse);
  }
}

TEST_CASE("modes follow from the sharpest change, whichever direction it is in", "[stress]") {
  const Solver solver(1.2, 1.5, {{{0.3, 0.015}}, {{0.5, 0.010}}}, glass);
  CHECK(solver.modes_x() == 120);
  CHECK(solver.modes_y() == 150);
  const Solver smooth(2.4, 1.2, {{{0.3, 1.0}}, {}}, glass);
  CHECK(smooth.modes_x() == 48);
  CHECK(smooth.modes_y() == 24);
}

TEST_CASE("edge points lie inside the edge, ascend, mirror, and crowd at the features", "[stress]") {
  const Solver solver(1.2, 1.5, {{{0.3, 0.010}}, {}}, glass, 64);
  const auto x = solver.x_edge_points();
  REQUIRE(x.size() == 64);
  CHECK(x.front() > 0.0);
  CHECK(x.back() < 1.2);
  for (std::size_t i = 1; i < 64; ++i) {
    CHECK(x[i] > x[i - 1]);
    CHECK(x[i] + x[63 - i] == Approx(1.2));
  }
  const std::ptrdiff_t near = std::ranges::count_if(x, [](double s) { return std::abs(s - 0.3) < 0.03; });
  CHECK(near >= 9);  // even spacing would put 3 there
}

TEST_CASE("a solver for fields that mirror themselves gives what any solver gives, and refuses the rest", "[stress]") {
  FieldFeatures features{{{0.02, 0.01}}, {{0.02, 0.01}, {0.9, 0.006}}};
  const Solver any(1.1, 1.4, features, glass);
  features.mirrored_in_x = true;
  const Solver mirrored(1.1, 1.4, features, glass);
  // By the distance from the nearer end, so that both halves are equal to the last bit.
  const auto bowl = [](const Solver& solver) {
    std::vector<double> values = solver.sample_x([](double x) { return std::exp(-std::min(x, 1.1 - x) / 0.02); });
    const std::size_t points = static_cast<std::size_t>(solver.points_per_side()), nodes = values.size() - points - 4;
    std::size_t first = 0;
    for (std::size_t count : {nodes, points, std::size_t{2}, std::size_t{2}}) {
      for (std::size_t i = 0; 2 * i < count; ++i) values[first + count - 1 - i] = values[first + i];
      first += count;
    }
    return values;
  };
  const auto band = [](double y) { return 1.0 / (1.0 + std::exp((0.9 - y) / 0.006)); };
  const auto solved = [&](const Solver& solver) {
    const std::vector<double> x = bowl(solver), y = solver.sample_y(band);
    const Solver::SampledProduct product{-10.0, x, y};
    return solver.solve(std::span<const Solver::SampledProduct>(&product, 1));
  };
  const EdgeStress a = solved(any), b = solved(mirrored);
  CHECK(a.peak_pa > 1e6);
  for (std::size_t side = 0; side < 4; ++side) CHECK(a.stress_pa[side] == b.stress_pa[side]);
  CHECK_THROWS_AS(mirrored.transform_x(mirrored.sample_x([](double x) { return x; })), std::invalid_argument);
  CHECK_THROWS_AS(mirrored.solve_general([](double, double y) { return y; }), std::invalid_argument);
}

TEST_CASE("what the solver cannot do it refuses", "[stress]") {
  const auto make = [](double w, double h, FieldFeatures f = {}, int points = 64) {
    return Solver(w, h, f, glass, points);
  };
  CHECK_THROWS_AS(make(0.01, 1.0), std::invalid_argument);
  CHECK_THROWS_AS(make(1.0, 13.0), std::invalid_argument);
  CHECK_THROWS_AS(make(std::numeric_limits<double>::quiet_NaN(), 1.0), std::invalid_argument);
  CHECK_THROWS_AS(make(1.0, 1.0, {}, 63), std::invalid_argument);
  CHECK_THROWS_AS(make(1.0, 1.0, {}, 4), std::invalid_argument);
  CHECK_THROWS_AS(make(1.0, 1.0, {{{0.5, 0.0}}, {}}), std::invalid_argument);
  CHECK_THROWS_AS(make(1.0, 1.0, {{{0.5, 0.01, -1.0}}, {}}), std::invalid_argument);
  CHECK_THROWS_AS(make(12.0, 12.0, {{{0.5, 0.002}}, {}}), std::invalid_argument);
  CHECK_THROWS_AS(Solver(1.0, 1.0, {}, glass, 64, {0.0, 1.0}), std::invalid_argument);
  CHECK_THROWS_AS(Solver(1.0, 1.0, {}, glass, 64, {1.0, 0.0}), std::invalid_argument);
  const Solver solver = make(1.0, 1.0);
  CHECK_THROWS_AS(solver.transform_x(std::vector<double>(3)), std::invalid_argument);
  CHECK_THROWS_AS(solver.solve_field(std::vector<double>(3)), std::invalid_argument);
}
