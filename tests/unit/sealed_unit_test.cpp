// What must hold of any sealed unit.
#include "sunstrain/sealed_unit.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

SealedUnit unit_of(std::vector<double> thickness_m, std::vector<double> cavity_m, double size_m = 1.0) {
  return {size_m, 1.5 * size_m, std::move(thickness_m), std::move(cavity_m), 70e9, 0.23, 293.15, 101325.0};
}

}  // namespace

TEST_CASE("Sealed unit: at the temperature and pressure of its sealing nothing presses") {
  const SealedState state = sealed_state(unit_of({0.004, 0.006}, {0.012}), {293.15}, 101325.0);
  CHECK(state.isochoric_pa[0] == Approx(0.0).margin(1e-9));
  CHECK(state.lites[0].bending_pa == Approx(0.0).margin(1e-9));
  CHECK(state.edge_seal_n_m == Approx(0.0).margin(1e-9));
}

TEST_CASE("Sealed unit: stiff lites keep the whole pressure, limp ones next to none") {
  const std::vector<double> hot{323.15};
  const SealedState stiff = sealed_state(unit_of({0.2, 0.2}, {0.012}), hot, 101325.0);
  CHECK(stiff.gauge_pa[0] == Approx(101325.0 * 30.0 / 293.15).epsilon(0.005));
  const SealedState limp = sealed_state(unit_of({0.002, 0.002}, {0.012}, 2.0), hot, 101325.0);
  CHECK(limp.gauge_pa[0] < 0.001 * limp.isochoric_pa[0]);
}

TEST_CASE("Sealed unit: warm gas bows both lites out, cold gas in, the thin one more, small units most in stress") {
  const SealedUnit unit = unit_of({0.006, 0.004}, {0.012});
  const SealedState warm = sealed_state(unit, {313.15}, 101325.0), cold = sealed_state(unit, {273.15}, 101325.0);
  CHECK(warm.lites[0].net_pa > 0.0);
  CHECK(warm.lites[1].net_pa == Approx(-warm.lites[0].net_pa));
  CHECK(std::abs(warm.lites[1].deflection_m) > std::abs(warm.lites[0].deflection_m));
  CHECK(cold.lites[0].net_pa == Approx(-warm.lites[0].net_pa));
  double before = 0.0;
  for (double size_m : {1.6, 0.8, 0.4}) {
    const SealedState state = sealed_state(unit_of({0.004, 0.004}, {0.012}, size_m), {313.15}, 101325.0);
    CHECK(state.lites[0].bending_pa > before);
    before = state.lites[0].bending_pa;
  }
  const SealedState mountain = sealed_state(unit, {293.15}, 80000.0);
  CHECK(mountain.lites[0].net_pa > 0.0);
}

TEST_CASE("Sealed unit: three lites are two gas laws; the middle one is bent by their difference alone") {
  const SealedUnit triple = unit_of({0.004, 0.004, 0.004}, {0.012, 0.012}, 0.6);
  const SealedState even = sealed_state(triple, {313.15, 313.15}, 101325.0);
  CHECK(even.lites[1].net_pa == Approx(0.0).margin(1e-9));
  CHECK(even.lites[0].net_pa == Approx(-even.lites[2].net_pa));
  // As stiff as a double unit of half the gas with a fixed middle: each cavity works against one lite only.
  const SealedState inner_hot = sealed_state(triple, {303.15, 323.15}, 101325.0);
  CHECK(inner_hot.gauge_pa[1] > inner_hot.gauge_pa[0]);
  CHECK(inner_hot.lites[1].net_pa > 0.0);
}

TEST_CASE("Sealed unit: what is no unit is refused") {
  CHECK_THROWS_AS(sealed_state(unit_of({0.004}, {}), {}, 1e5), std::invalid_argument);
  CHECK_THROWS_AS(sealed_state(unit_of({0.004, 0.004}, {0.012}), {}, 1e5), std::invalid_argument);
  CHECK_THROWS_AS(plate_response(1.0, 1.0, 0.0, 70e9, 0.23), std::invalid_argument);
}

TEST_CASE("Sealed unit: the answer has it for units alone, hotter and harder pressed with film") {
  const Assessment unit = assess(test::complete_double({}), builtin_reference());
  REQUIRE(unit.sealed);
  CHECK(unit.sealed->after.gas_k.size() == 1);
  CHECK(unit.sealed->after.gas_k[0] > unit.sealed->before.gas_k[0]);
  CHECK(unit.sealed->after.state.lites[1].bending_pa > unit.sealed->before.state.lites[1].bending_pa);
  // Sealed lower down than it stands, the gas presses more.
  const Assessment lowland = assess(test::complete_double({"unit.sealed_altitude=0 m"}), builtin_reference());
  CHECK(lowland.sealed->before.state.isochoric_pa[0] > unit.sealed->before.state.isochoric_pa[0] + 10e3);
  CHECK(lowland.verdict == unit.verdict);
}
