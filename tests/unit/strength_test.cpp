#include "sunstrain/strength.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "support/strength_reference.hpp"

using namespace sunstrain;
using test::strength_reference;

namespace {

const EdgeDescription plain{"annealed", "float", 0.006, "as-cut", "as-cut"};

EdgeHistory constant_load(double stress_pa, double duration_s, double length_m = 1.0) {
  return {.step_s = duration_s, .point_length_m = {length_m}, .stress_pa = {{stress_pa}}};
}

}  // namespace

TEST_CASE("the lines of a plain cut edge", "[strength]") {
  const AllowableStress lines = allowable_stress(plain, strength_reference());
  // 45 x 0.8 x 0.663 x 6^(-1/16) / 1.8 and / 1.6, worked by hand to three figures.
  CHECK(lines.go_pa == Approx(11.9e6).margin(0.05e6));
  CHECK(lines.refer_pa == Approx(13.3e6).margin(0.05e6));
  CHECK(lines.refer_pa / lines.go_pa == Approx(1.8 / 1.6));
}

TEST_CASE("what the edge and the glass are multiplies the lines", "[strength]") {
  const Reference reference = strength_reference();
  const AllowableStress base = allowable_stress(plain, reference);
  const auto ratio = [&](const EdgeDescription& edge) { return allowable_stress(edge, reference).go_pa / base.go_pa; };
  CHECK(ratio({"annealed", "patterned", 0.006, "as-cut", "as-cut"}) == Approx(0.75));
  CHECK(ratio({"annealed", "wired", 0.006, "as-cut", "as-cut"}) == Approx(0.55));
  CHECK(ratio({"heat-strengthened", "float", 0.006, "as-cut", "as-cut"}) == Approx(2.2));
  CHECK(ratio({"tempered", "float", 0.006, "as-cut", "as-cut"}) == Approx(4.4));
  CHECK(ratio({"annealed", "float", 0.006, "damaged", "as-cut"}) == Approx(0.5));
  CHECK(ratio({"tempered", "patterned", 0.019, "hidden", "as-cut"}) == Approx(4.4 * 0.75 * 0.83 * 0.85));
}

TEST_CASE("go goes by the bad finish, refer by the likely one", "[strength]") {
  const Reference reference = strength_reference();
  const AllowableStress base = allowable_stress(plain, reference);
  const AllowableStress hidden = allowable_stress({"annealed", "float", 0.006, "hidden", "seamed"}, reference);
  CHECK(hidden.go_pa == Approx(0.85 * base.go_pa));
  CHECK(hidden.refer_pa == Approx(0.9 / 0.8 * base.refer_pa));
}

TEST_CASE("a thickness belongs to the thickest class that it exceeds", "[strength]") {
  const Reference reference = strength_reference();
  const double base_pa = allowable_stress(plain, reference).go_pa;
  const auto factor = [&](double thickness_m) {
    return allowable_stress({"annealed", "float", thickness_m, "as-cut", "as-cut"}, reference).go_pa / base_pa;
  };
  CHECK(factor(0.003) == Approx(1.0));
  CHECK(factor(0.012) == Approx(1.0));
  CHECK(factor(0.0135) == Approx(1.0));
  CHECK(factor(0.015) == Approx(0.83));
  CHECK(factor(0.019) == Approx(0.83));
  CHECK(factor(0.022) == Approx(0.70));
}

TEST_CASE("an unknown name is refused with the names there are", "[strength]") {
  CHECK_THROWS_AS(allowable_stress({"chilled", "float", 0.006, "as-cut", "as-cut"}, strength_reference()), BadInput);
  CHECK_THROWS_WITH(allowable_stress({"annealed", "float", 0.006, "torn", "as-cut"}, strength_reference()),
                    Catch::Contains("torn") && Catch::Contains("seamed"));
}

TEST_CASE("the duration factor is 1 for short loads and falls with time", "[strength]") {
  const Reference reference = strength_reference();
  CHECK(duration_factor(1.0, reference) == 1.0);
  CHECK(duration_factor(3600.0, reference) == Approx(0.663));
  CHECK(duration_factor(7200.0, reference) < duration_factor(3600.0, reference));
  CHECK_THROWS_AS(duration_factor(0.0, reference), std::invalid_argument);
  CHECK_THROWS_AS(duration_factor(std::numeric_limits<double>::quiet_NaN(), reference), std::invalid_argument);
}

TEST_CASE("static fatigue factors chain and invert", "[strength]") {
  const double there = static_fatigue_factor(3.0, 60.0, 16.0), on = static_fatigue_factor(60.0, 3600.0, 16.0);
  CHECK(there * on == Approx(static_fatigue_factor(3.0, 3600.0, 16.0)));
  CHECK(there * static_fatigue_factor(60.0, 3.0, 16.0) == Approx(1.0));
  CHECK_THROWS_AS(static_fatigue_factor(0.0, 3.0, 16.0), std::invalid_argument);
}

TEST_CASE("the scale eta is the stress of risk 1 on a meter for three seconds", "[strength]") {
  const WeibullLine line{7.0, 33.1e6};
  CHECK(weibull_risk(constant_load(33.1e6, 3.0), line, 0.0, 16.0) == Approx(1.0));
  CHECK(breakage_probability(constant_load(33.1e6, 3.0), line, 0.0, 16.0) == Approx(1.0 - std::exp(-1.0)));
}

TEST_CASE("compression does no harm and does not make up for tension", "[strength]") {
  const WeibullLine line{7.0, 33.1e6};
  EdgeHistory history{.step_s = 1800.0, .point_length_m = {0.5, 0.5}, .stress_pa = {{-20e6, -5e6}, {-1e6, 0.0}}};
  CHECK(weibull_risk(history, line, 0.0, 16.0) == 0.0);
  history.stress_pa[1][1] = 8e6;
  const double with_compression = weibull_risk(history, line, 0.0, 16.0);
  history.stress_pa[0] = {0.0, 0.0};
  history.stress_pa[1][0] = 0.0;
  CHECK(with_compression > 0.0);
  CHECK(weibull_risk(history, line, 0.0, 16.0) == Approx(with_compression).epsilon(1e-14));
}

TEST_CASE("stress below the prestress carries no risk", "[strength]") {
  const WeibullLine line{7.0, 33.1e6};
  CHECK(weibull_risk(constant_load(24e6, 21600.0), line, 24e6, 16.0) == 0.0);
  CHECK(weibull_risk(constant_load(30e6, 21600.0), line, 24e6, 16.0) ==
        Approx(weibull_risk(constant_load(6e6, 21600.0), line, 0.0, 16.0)));
}

TEST_CASE("the risk of an edge is the sum of the risks of its parts", "[strength]") {
  const WeibullLine line{9.0, 40e6};
  const EdgeHistory both{.step_s = 600.0, .point_length_m = {0.3, 0.7}, .stress_pa = {{9e6, 4e6}, {11e6, 5e6}}};
  const EdgeHistory first{.step_s = 600.0, .point_length_m = {0.3}, .stress_pa = {{9e6}, {11e6}}};
  const EdgeHistory second{.step_s = 600.0, .point_length_m = {0.7}, .stress_pa = {{4e6}, {5e6}}};
  CHECK(weibull_risk(both, line, 0.0, 16.0) ==
        Approx(weibull_risk(first, line, 0.0, 16.0) + weibull_risk(second, line, 0.0, 16.0)));
}

TEST_CASE("finer steps of the same history change nothing", "[strength]") {
  const WeibullLine line{7.0, 33.1e6};
  const EdgeHistory coarse{.step_s = 3600.0, .point_length_m = {1.0}, .stress_pa = {{6e6}, {9e6}}};
  const EdgeHistory fine{.step_s = 1800.0, .point_length_m = {1.0}, .stress_pa = {{6e6}, {6e6}, {9e6}, {9e6}}};
  CHECK(weibull_risk(coarse, line, 0.0, 16.0) == Approx(weibull_risk(fine, line, 0.0, 16.0)));
}

TEST_CASE("very small odds keep their figures and very high stress stays finite", "[strength]") {
  const WeibullLine line{9.0, 45e6};
  const double risk = weibull_risk(constant_load(0.5e6, 3600.0), line, 0.0, 16.0);
  CHECK(risk < 1e-15);
  CHECK(breakage_probability(constant_load(0.5e6, 3600.0), line, 0.0, 16.0) == Approx(risk).epsilon(1e-9));
  CHECK(breakage_probability(constant_load(1e12, 3600.0), line, 0.0, 47.5) == 1.0);
}

TEST_CASE("a history that does not fit its edge is refused", "[strength]") {
  const WeibullLine line{7.0, 33.1e6};
  EdgeHistory history = constant_load(5e6, 60.0);
  history.stress_pa.push_back({5e6, 6e6});
  CHECK_THROWS_AS(weibull_risk(history, line, 0.0, 16.0), std::invalid_argument);
  history.stress_pa.pop_back();
  history.step_s = 0.0;
  CHECK_THROWS_AS(weibull_risk(history, line, 0.0, 16.0), std::invalid_argument);
  CHECK_THROWS_AS(weibull_risk(constant_load(5e6, 60.0), {7.0, 0.0}, 0.0, 16.0), std::invalid_argument);
}

TEST_CASE("the odds are the three lines with the factors of the edge", "[strength]") {
  const Reference reference = strength_reference();
  const EdgeHistory history = constant_load(8e6, 4242.0, 2.0);
  const Odds odds = breakage_odds(history, {"annealed", "patterned", 0.015, "hidden", "seamed"}, reference);
  const double glass = 0.75 * 0.83;
  CHECK(odds.high == Approx(breakage_probability(history, {7.0, 33.1e6 * glass * 0.85}, 0.0, 16.0)));
  CHECK(odds.best == Approx(breakage_probability(history, {9.0, 40e6 * glass * 1.1}, 0.0, 16.0)));
  CHECK(odds.low == Approx(breakage_probability(history, {9.0, 45e6 * glass * 1.1}, 0.0, 16.0)));
}

TEST_CASE("heat-treated glass gets no more than the multiple of a plain edge", "[strength]") {
  const Reference reference = strength_reference();
  const EdgeDescription strengthened{"heat-strengthened", "float", 0.006, "as-cut", "as-cut"};
  // 3 s: below about 44 MPa the cap (eta x 2.2) is the weaker of the two, above it the prestress.
  const EdgeHistory mild = constant_load(30e6, 3.0), harsh = constant_load(70e6, 3.0);
  CHECK(breakage_odds(mild, strengthened, reference).high ==
        Approx(breakage_probability(mild, {7.0, 2.2 * 33.1e6}, 0.0, 16.0)));
  CHECK(breakage_odds(harsh, strengthened, reference).high ==
        Approx(breakage_probability(harsh, {7.0, 33.1e6}, 24e6, 16.0)));
}
