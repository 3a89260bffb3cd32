// Edge strength against published figures. "Recalled" marks a figure that was recalled, not read from the
// standard. Where a figure is no target but a cross-check, the comment says how far the model may be off and why.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/strength.hpp"

using namespace sunstrain;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double hour_s = 3600.0, day_s = 24.0 * hour_s, month_s = 30.0 * day_s, year_s = 365.25 * day_s;
constexpr double psi_pa = 6894.757;

EdgeHistory constant_load(double stress_pa, double duration_s, double length_m = 1.0) {
  return {.step_s = duration_s, .point_length_m = {length_m}, .stress_pa = {{stress_pa}}};
}

// One point whose stress follows peak * shape(u), u from 0 to 1 over the duration.
EdgeHistory pulse(double peak_pa, double duration_s, double length_m, const std::function<double(double)>& shape) {
  constexpr int steps = 2000;
  EdgeHistory history{.step_s = duration_s / steps, .point_length_m = {length_m}, .stress_pa = {}};
  for (int i = 0; i < steps; ++i) history.stress_pa.push_back({peak_pa * shape((i + 0.5) / steps)});
  return history;
}

double half_sine(double u) { return std::sin(pi * u); }

// The history as one stress of three seconds: with m = 1, eta = 1 Pa and a meter, the risk is that stress.
double equivalent_pa(const EdgeHistory& history, double n) { return weibull_risk(history, {1.0, 1.0}, 0.0, n); }

// t_eff / T of a pulse: (sigma_eq / peak)^n t0 / T.
double shape_factor(const std::function<double(double)>& shape, double n) {
  return std::pow(equivalent_pa(pulse(1e6, hour_s, 1.0, shape), n) / 1e6, n) * 3.0 / hour_s;
}

// The stress, held for `duration_s` over `length_m`, at which the line breaks with probability p.
double stress_at(double p, const WeibullLine& line, double duration_s, double length_m) {
  const double of_one_pa = weibull_risk(constant_load(line.eta_pa, duration_s, length_m), line, 0.0, 16.0);
  return line.eta_pa * std::pow(-std::log1p(-p) / of_one_pa, 1.0 / line.m);
}

EdgeDescription edge_of(const char* treatment, const char* finish) {
  return {treatment, "float", 0.006, finish, finish};
}

}  // namespace

TEST_CASE("k_mod of EN 16612 for its named loads", "[strength][published]") {
  // EN 16612, k_mod = 0.663 t^(-1/16) and the printed values; recalled, not read from the standard. The
  // standard's own table cuts the last figure off (0.507 stands as 0.50, 0.449 as 0.44): hence 0.01.
  struct Row {
    const char* load;
    double duration_s, printed;
  };
  const Row rows[] = {{"wind gust, 5 s", 5.0, 1.00},
                      {"personnel, 30 s", 30.0, 0.89},
                      {"storm, 10 min", 600.0, 0.74},
                      {"daily temperature, 11 h", 11 * hour_s, 0.57},
                      {"barometric pressure, 3 days", 3 * day_s, 0.50},
                      {"snow, 3 weeks", 21 * day_s, 0.44},
                      {"yearly temperature, 6 months", 6 * month_s, 0.39},
                      {"dead load, 50 years", 50 * year_s, 0.29}};
  for (const Row& row : rows) {
    CAPTURE(row.load);
    CHECK(duration_factor(row.duration_s, builtin_reference()) == Approx(row.printed).margin(0.01));
  }
}

TEST_CASE("k_mod is 1 at about five seconds and 0.663 at an hour", "[strength][published]") {
  // EN 16612, recalled: the reference load is the five-second gust.
  const Reference& r = builtin_reference();
  CHECK(duration_factor(4.9, r) == 1.0);
  CHECK(duration_factor(5.3, r) < 1.0);
  CHECK(duration_factor(hour_s, r) == Approx(0.663).epsilon(1e-12));
  CHECK(duration_factor(6 * hour_s, r) == Approx(0.593).margin(5e-4));
}

TEST_CASE("load duration factors of ASTM E1300", "[strength][published]") {
  // ASTM E1300, table of load duration factors for annealed glass against 3 s; recalled, not read from the
  // standard. Its last row, "beyond 1 year" 0.31, follows no duration and is left out.
  struct Row {
    double duration_s, printed;
  };
  const Row rows[] = {{3.0, 1.00},         {10.0, 0.93},        {60.0, 0.83},      {600.0, 0.72},   {hour_s, 0.64},
                      {12 * hour_s, 0.55}, {24 * hour_s, 0.53}, {7 * day_s, 0.47}, {month_s, 0.43}, {year_s, 0.36}};
  for (const Row& row : rows) {
    CAPTURE(row.duration_s);
    CHECK(static_fatigue_factor(3.0, row.duration_s, 16.0) == Approx(row.printed).margin(0.0051));
  }
}

TEST_CASE("design strength of a cut edge for six hours", "[strength][published]") {
  // EN 16612: f_gd = k_e k_mod f_gk / gamma_M with 45 MPa, k_e 0.8, gamma 1.8 (1.6 for infill panes);
  // recalled, not read from the standard. Worked by hand: 45 x 0.8 x 0.593 = 21.3 MPa.
  const AllowableStress lines = allowable_stress(edge_of("annealed", "as-cut"), builtin_reference());
  CHECK(lines.go_pa == Approx(21.34e6 / 1.8).epsilon(2e-3));
  CHECK(lines.go_pa == Approx(11.9e6).margin(0.05e6));
  CHECK(lines.refer_pa == Approx(13.3e6).margin(0.05e6));
}

TEST_CASE("edge factors of EN 16612", "[strength][published]") {
  // k_e: cut 0.8, seamed 0.9, polished 1.0; recalled, not read from the standard. The polished value is given
  // with papers only, since tests find it can be too high (Bukieda et al., Glass Struct. Eng. 2024).
  const Reference& r = builtin_reference();
  const auto go_pa = [&](const char* finish) { return allowable_stress(edge_of("annealed", finish), r).go_pa; };
  CHECK(go_pa("seamed") / go_pa("as-cut") == Approx(0.9 / 0.8));
  CHECK(go_pa("polished-documented") / go_pa("as-cut") == Approx(1.0 / 0.8));
  CHECK(go_pa("polished") == Approx(go_pa("as-cut")));
  CHECK(go_pa("ground") == Approx(go_pa("as-cut")));
}

TEST_CASE("glass and thickness ratios of national practice", "[strength][published]") {
  const Reference& r = builtin_reference();
  const double plain_pa = allowable_stress(edge_of("annealed", "as-cut"), r).go_pa;
  const auto ratio = [&](const char* treatment, const char* kind, double thickness_m) {
    return allowable_stress({treatment, kind, thickness_m, "as-cut", "as-cut"}, r).go_pa / plain_pa;
  };
  // Japanese thermal practice: 17.7 MPa float, 9.8 wired, 14.7 for 15 to 19 mm; recalled.
  CHECK(ratio("annealed", "wired", 0.006) == Approx(9.8 / 17.7).epsilon(0.01));
  CHECK(ratio("annealed", "float", 0.015) == Approx(14.7 / 17.7).epsilon(0.01));
  // JGJ 113: cut edge 20, 17 and 14 MPa by thickness; recalled. Its 15 to 19 mm row is 0.85: 2.5 % above ours.
  CHECK(ratio("annealed", "float", 0.019) == Approx(17.0 / 20.0).epsilon(0.025));
  CHECK(ratio("annealed", "float", 0.025) == Approx(14.0 / 20.0).epsilon(0.01));
  // EN 16612 surface factor of patterned glass 0.75; recalled.
  CHECK(ratio("annealed", "patterned", 0.006) == Approx(0.75).epsilon(1e-12));
  // ASTM E1300 edge stresses 36.5 and 73.0 MPa over 16.6; 36.5 and 73.0 read in an open transcription, 16.6 recalled.
  CHECK(ratio("heat-strengthened", "float", 0.006) == Approx(36.5 / 16.6).epsilon(0.005));
  CHECK(ratio("tempered", "float", 0.006) == Approx(73.0 / 16.6).epsilon(0.005));
}

TEST_CASE("the weakest line returns the edge stresses of ASTM E1300 at 8 in 1000", "[strength][published]") {
  // ASTM E1300 allowable edge stress, 3 s, 8 in 1000: cut 16.6, seamed 18.3, polished 20.0 MPa (recalled),
  // heat-strengthened 36.5, tempered 73.0 (read in an open transcription). The line is anchored to the first,
  // at a meter of edge; the standard states no length that we know of. 2 % on P is 0.3 % on stress: the anchor
  // is kept as 33.1 MPa.
  struct Row {
    const char* treatment;
    const char* finish;
    double stress_pa;
  };
  const Row rows[] = {{"annealed", "as-cut", 16.6e6},
                      {"annealed", "seamed", 18.3e6},
                      {"annealed", "polished-documented", 20.0e6},
                      {"heat-strengthened", "as-cut", 36.5e6},
                      {"tempered", "as-cut", 73.0e6}};
  for (const Row& row : rows) {
    CAPTURE(row.treatment, row.finish);
    const Odds odds =
        breakage_odds(constant_load(row.stress_pa, 3.0), edge_of(row.treatment, row.finish), builtin_reference());
    CHECK(odds.high == Approx(0.008).epsilon(0.02));
  }
}

TEST_CASE("the same edge stresses for the older sixty-second load are round in psi", "[strength][published]") {
  // The sixty-second edition of ASTM E1300: 2000, 2200, 2400 psi; recalled, and consistent with (3/60)^(1/16).
  // P goes with the seventh power, and the psi figures are rounded to some 0.5 %: 4 % on P.
  struct Row {
    const char* finish;
    double stress_pa;
  };
  for (const Row& row :
       {Row{"as-cut", 2000 * psi_pa}, Row{"seamed", 2200 * psi_pa}, Row{"polished-documented", 2400 * psi_pa}}) {
    CAPTURE(row.finish);
    const Odds odds =
        breakage_odds(constant_load(row.stress_pa, 60.0), edge_of("annealed", row.finish), builtin_reference());
    CHECK(odds.high == Approx(0.008).epsilon(0.04));
  }
}

TEST_CASE("a six-hour half-sine of sun counts as 1.574 times its peak held for three seconds",
          "[strength][published]") {
  // integral sin^16 = 12870/65536 (Wallis): t_eff = 0.19638 x 21600 s = 4242 s = 1.18 h;
  // (4242 / 3)^(1/16) = 1.574, to 60 s 1.305. Power-law crack growth: Charles, J. Appl. Phys. 29 (1958).
  CHECK(equivalent_pa(pulse(1.0e6, 6 * hour_s, 1.0, half_sine), 16.0) / 1.0e6 == Approx(1.574).margin(5e-4));
  CHECK(equivalent_pa(pulse(1.0e6, 6 * hour_s, 1.0, half_sine), 16.0) / 1.0e6 *
            static_fatigue_factor(3.0, 60.0, 16.0) ==
        Approx(1.305).margin(5e-4));
  // The same time for n = 12, 16 and 20.
  CHECK(static_fatigue_factor(4242.0, 3.0, 12.0) == Approx(1.83).margin(0.005));
  CHECK(static_fatigue_factor(4242.0, 3.0, 16.0) == Approx(1.57).margin(0.005));
  CHECK(static_fatigue_factor(4242.0, 3.0, 20.0) == Approx(1.44).margin(0.005));
}

TEST_CASE("pulse shapes count as their closed forms", "[strength][published]") {
  // Ramp: 1/(n + 1) (a test to failure in t_f counts as t_f / 17 for n = 16). Half-sine and sine-squared:
  // Wallis, (2k - 1)!!/(2k)!! for n = 2k and 4k. Parabola 4u(1 - u): 4^n B(n + 1, n + 1).
  const auto wallis = [](int power) {
    double product = 1.0;
    for (int k = 2; k <= power; k += 2) product *= (k - 1.0) / k;
    return product;
  };
  const auto beta = [](double n) {
    return std::exp(n * std::log(4.0) + 2 * std::lgamma(n + 1) - std::lgamma(2 * n + 2));
  };
  for (const int n : {12, 16, 20}) {
    CAPTURE(n);
    CHECK(shape_factor([](double u) { return u; }, n) == Approx(1.0 / (n + 1)).epsilon(1e-4));
    CHECK(shape_factor(half_sine, n) == Approx(wallis(n)).epsilon(1e-4));
    CHECK(shape_factor([](double u) { return half_sine(u) * half_sine(u); }, n) == Approx(wallis(2 * n)).epsilon(1e-4));
    CHECK(shape_factor([](double u) { return 4 * u * (1 - u); }, n) == Approx(beta(n)).epsilon(1e-4));
  }
}

TEST_CASE("odds of a two-meter edge under a six-hour half-sine", "[strength][published]") {
  // Worked by hand to two figures from Weibull's weakest link (1939) with sigma_eq = 1.574 sigma_max:
  // the pessimistic line at its unrounded anchor (16.6 MPa recalled from ASTM E1300), a middle and a strong
  // one, and half the pessimistic eta for a damaged edge. Two figures printed: 5 % on P.
  struct Column {
    double peak_pa, code, best, strong, damaged;
  };
  const Column columns[] = {{4e6, 1.8e-5, 3.6e-7, 1.2e-7, 2.3e-3}, {6e6, 3.1e-4, 1.4e-5, 4.8e-6, 3.9e-2},
                            {8e6, 2.3e-3, 1.8e-4, 6.3e-5, 0.26},   {10e6, 1.1e-2, 1.4e-3, 4.7e-4, 0.76},
                            {12e6, 3.9e-2, 7.0e-3, 2.4e-3, 1.0},   {14e6, 0.11, 2.8e-2, 9.7e-3, 1.0},
                            {16e6, 0.26, 8.9e-2, 3.2e-2, 1.0},     {18e6, 0.49, 0.24, 8.9e-2, 1.0}};
  for (const Column& column : columns) {
    CAPTURE(column.peak_pa);
    const EdgeHistory history = pulse(column.peak_pa, 6 * hour_s, 2.0, half_sine);
    const auto p = [&](double m, double eta_pa) { return breakage_probability(history, {m, eta_pa}, 0.0, 16.0); };
    CHECK(p(7.0, 33.07e6) == Approx(column.code).epsilon(0.05));
    CHECK(p(9.0, 35.4e6) == Approx(column.best).epsilon(0.05));
    CHECK(p(9.0, 39.8e6) == Approx(column.strong).epsilon(0.05));
    CHECK(p(7.0, 16.5e6) == Approx(column.damaged).epsilon(0.05));
  }
}

TEST_CASE("prestress is taken off before fatigue", "[strength][published]") {
  // A crack grows by the net opening stress, so 16.6 MPa above 24 MPa of compression (ASTM C1048, least
  // surface compression of heat-strengthened glass) stands where 16.6 MPa on annealed glass does: 40.6 MPa.
  // The published 36.5 is 10 % lower, so there the cap decides.
  const Reference& r = builtin_reference();
  const WeibullLine line{constant(r, "weibull_low_m"), constant(r, "weibull_low_eta_pa")};
  CHECK(breakage_probability(constant_load(40.6e6, 3.0), line, 24e6, 16.0) == Approx(0.008).epsilon(0.02));
  CHECK(breakage_probability(constant_load(36.5e6, 3.0), line, 24e6, 16.0) < 0.002);
  // Over hours an edge under compression loses less than an annealed one: ASTM gives heat-strengthened
  // 0.76 and tempered 0.83 of the 3 s value for 6 h against 0.57 for annealed (apparent n 31.7 and 47.5, read
  // in an open transcription). Net stress alone gives (0.574 x 16.6 + 24) / 40.6 = 0.826 and
  // (0.574 x 16.6 + 67) / 83.6 = 0.915: milder by some 10 %, which the cap on eta takes back.
  const auto kept = [&](double prestress_pa) {
    const double net_pa = stress_at(0.008, line, 6 * hour_s, 1.0);
    return (net_pa + prestress_pa) / (stress_at(0.008, line, 3.0, 1.0) + prestress_pa);
  };
  CHECK(kept(0.0) == Approx(0.574).margin(0.001));
  CHECK(kept(24e6) == Approx(0.826).margin(0.002));
  CHECK(kept(67e6) == Approx(0.915).margin(0.002));
}

TEST_CASE("mean edge strengths of laboratory series", "[strength][published]") {
  // Japanese practice (JASS 17 figures): mean failure stress at the edge, float 35.3 MPa, tempered 131.4.
  // Test length and time are not given: 0.3 m and 1.5 s in effect are assumed. The weakest line comes out 9 %
  // above the first; the tempered mean it must not exceed.
  const Reference& r = builtin_reference();
  const WeibullLine line{constant(r, "weibull_low_m"), constant(r, "weibull_low_eta_pa")};
  const double eta_of_test_pa = stress_at(1.0 - std::exp(-1.0), line, 1.5, 0.3);
  const double mean_pa = eta_of_test_pa * std::tgamma(1.0 + 1.0 / line.m);
  CHECK(mean_pa == Approx(35.3e6).epsilon(0.10));
  CHECK(mean_pa + row_named(r.treatments, "tempered").prestress_pa < 131.4e6);
  // Pantelides et al., J. Eng. Mech. 120 (1994): heat-strengthened edges about 50 % above annealed ones.
  CHECK((mean_pa + row_named(r.treatments, "heat-strengthened").prestress_pa) / mean_pa == Approx(1.5).epsilon(0.10));
  // Same practice: a factor of 2.5 on the mean for 1 in 1000 in wind, 2.0 in bending; m = 7 and 9 bracket them.
  const auto factor = [](double m) { return std::tgamma(1.0 + 1.0 / m) / std::pow(-std::log(0.999), 1.0 / m); };
  CHECK(factor(constant(r, "weibull_low_m")) == Approx(2.5).epsilon(0.01));
  CHECK(factor(constant(r, "weibull_high_m")) == Approx(2.0).epsilon(0.03));
}

TEST_CASE("a longer edge is weaker by the 1/m-th power", "[strength][published]") {
  // Weibull 1939. 16.6 MPa at 1 m, 8 in 1000, becomes 15.0 / 14.2 / 13.2 MPa at 2 / 3 / 5 m for m = 7.
  const WeibullLine line{7.0, 33.07e6};
  CHECK(stress_at(0.008, line, 3.0, 1.0) == Approx(16.6e6).margin(0.05e6));
  CHECK(stress_at(0.008, line, 3.0, 2.0) == Approx(15.0e6).margin(0.05e6));
  CHECK(stress_at(0.008, line, 3.0, 3.0) == Approx(14.2e6).margin(0.05e6));
  CHECK(stress_at(0.008, line, 3.0, 5.0) == Approx(13.2e6).margin(0.05e6));
}

TEST_CASE("an uneven stress counts as a shorter edge", "[strength][published]") {
  // L_eff / L = integral (sigma / sigma_max)^m: parabola (2^m m!)^2 / (2m + 1)!, half-sine
  // Gamma((m + 1)/2) / (sqrt(pi) Gamma(m/2 + 1)); 0.32 and 0.29 for m = 7 (closed forms).
  const auto effective = [](double m, const std::function<double(double)>& shape) {
    constexpr int points = 2000;
    EdgeHistory history{.step_s = 3.0, .point_length_m = std::vector<double>(points, 1.0 / points), .stress_pa = {{}}};
    for (int i = 0; i < points; ++i) history.stress_pa[0].push_back(1e6 * shape(2 * (i + 0.5) / points - 1));
    return weibull_risk(history, {m, 1e6}, 0.0, 16.0);
  };
  const auto parabola = [](double u) { return 1 - u * u; };
  const auto arch = [](double u) { return std::cos(pi * u / 2); };
  CHECK(effective(7.0, parabola) == Approx(0.318).margin(0.001));
  CHECK(effective(7.0, arch) == Approx(0.291).margin(0.001));
  for (const double m : {5.0, 7.0, 9.0, 12.0}) {
    CAPTURE(m);
    const double wide = std::exp(2 * (m * std::log(2.0) + std::lgamma(m + 1)) - std::lgamma(2 * m + 2));
    CHECK(effective(m, parabola) == Approx(wide).epsilon(1e-4));
    CHECK(effective(m, arch) ==
          Approx(std::tgamma((m + 1) / 2) / (std::sqrt(pi) * std::tgamma(m / 2 + 1))).epsilon(1e-4));
  }
}

TEST_CASE("equal days on the same flaws raise the risk by N to the m/n", "[strength][published]") {
  // Static fatigue adds up time, not draws: N^(7/16) = 2.7, 7.5, 20.5 for 10, 100 and 1000 days; the exponent
  // m/16 stands in the load-duration term of the face model behind ASTM E1300 (read in an open transcription).
  const WeibullLine line{7.0, 33.07e6};
  const double one = weibull_risk(constant_load(8e6, 6 * hour_s), line, 0.0, 16.0);
  struct Row {
    int days;
    double factor;
  };
  for (const Row row : {Row{10, 2.7}, Row{100, 7.5}, Row{1000, 20.5}}) {
    CAPTURE(row.days);
    EdgeHistory history = constant_load(8e6, 6 * hour_s);
    history.stress_pa.assign(static_cast<std::size_t>(row.days), {8e6});
    CHECK(weibull_risk(history, line, 0.0, 16.0) / one == Approx(row.factor).margin(0.06));
  }
}

TEST_CASE("the go line stands below the figures of other practice for thermal stress", "[strength][published]") {
  // Japanese thermal practice allows 17.7 MPa with a simplified, higher stress (recalled); ASTM's normal model
  // at 8 in 1000 for 6 h gives 9.5 MPa on a cut edge (16.6 x 0.57, recalled). A real stress field against
  // 11.9 MPa lies between the two.
  const double go_pa = allowable_stress(edge_of("annealed", "as-cut"), builtin_reference()).go_pa;
  CHECK(go_pa < 17.7e6);
  CHECK(go_pa > 16.6e6 * static_fatigue_factor(3.0, 6 * hour_s, 16.0));
}
