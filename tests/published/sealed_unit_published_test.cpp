// Sealed units against handbook tables of plates and the published climatic-load method.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/sealed_unit.hpp"
#include "sunstrain/sun.hpp"

using namespace sunstrain;

namespace {

constexpr double young_pa = 70e9;

SealedUnit unit_of(double width_m, double height_m, double outer_mm, double cavity_mm, double inner_mm) {
  return {width_m, height_m, {outer_mm / 1e3, inner_mm / 1e3}, {cavity_mm / 1e3}, young_pa, 0.23, 293.15, 100e3};
}

// The state at a given isochoric pressure, with the method's 100 kPa around.
SealedState at_isochoric(const SealedUnit& unit, double p0_pa) {
  return sealed_state(unit, {unit.sealed_k * (100e3 + p0_pa) / unit.sealed_pa}, 100e3);
}

}  // namespace

TEST_CASE("Plates: deflection and moment of a simply supported plate as in Timoshenko and Woinowsky-Krieger, table 8") {
  // nu = 0.3; w = alpha q a^4/D, M = beta q a^2, a the short side. Recalled, not read from the book.
  struct Row {
    double ratio, alpha, beta;
  };
  const double a = 1.0, t = 0.01, d = young_pa * t * t * t / (12 * (1 - 0.09));
  for (const Row& row : {Row{1.0, 0.00406, 0.0479}, Row{1.5, 0.00772, 0.0812}, Row{2.0, 0.01013, 0.1017}}) {
    CAPTURE(row.ratio);
    const PlateResponse plate = plate_response(a, row.ratio * a, t, young_pa, 0.3);
    CHECK(plate.deflection_m * d == Approx(row.alpha).epsilon(0.002));
    CHECK(plate.stress * t * t / 6 == Approx(row.beta).epsilon(0.002));
  }
}

TEST_CASE("Plates: the swept volume as in the tables of DIN 18008-2 and the TRLV") {
  // B_V for nu = 0.23 over a/b. Recalled, not read from the standard.
  struct Row {
    double ratio, volume;
  };
  for (const Row& row : {Row{1.0, 0.0194}, Row{0.9, 0.0237}, Row{0.8, 0.0288}, Row{0.7, 0.0350}, Row{0.6, 0.0421},
                         Row{0.5, 0.0501}, Row{0.4, 0.0587}, Row{0.3, 0.0676}, Row{0.2, 0.0767}, Row{0.1, 0.0857}}) {
    CAPTURE(row.ratio);
    const double t = 0.006, b = 1.0 / row.ratio;
    const PlateResponse plate = plate_response(1.0, b, t, young_pa, 0.23);
    CHECK(plate.volume_m3 * young_pa * t * t * t / b == Approx(row.volume).margin(0.00015));
  }
}

TEST_CASE("Plates: plies that slide on each other share the load by their stiffness") {
  // EN 16612, annex on laminated glass without shear transfer (recalled): h_ef,w = (sum h^3)^(1/3), h_ef,s = (h_ef,w^3
  // / h)^(1/2); for 4 + 4 mm 5.04 and 5.66 mm, for 6 + 4 mm 6.54 and 6.83 mm (at the 6 mm ply).
  struct Row {
    double outer_mm, inner_mm, stiff_mm, stressed_mm;
  };
  for (const Row& row : {Row{4, 4, 5.04, 5.66}, Row{6, 4, 6.54, 6.83}}) {
    SealedUnit unit = unit_of(1.0, 1.2, 6.0, 12.0, row.stiff_mm);
    unit.thickest_ply_m = {0.006, std::max(row.outer_mm, row.inner_mm) / 1e3};
    CHECK(std::cbrt(std::pow(row.outer_mm, 3) + std::pow(row.inner_mm, 3)) == Approx(row.stiff_mm).margin(0.006));
    const SealedState state = at_isochoric(unit, 16e3);
    const PlateResponse plate = plate_response(1.0, 1.2, row.stressed_mm / 1e3, young_pa, 0.23);
    CHECK(state.lites[1].bending_pa == Approx(std::abs(state.lites[1].net_pa) * plate.stress).epsilon(0.003));
  }
}

TEST_CASE("Climatic load: the published summer and winter cases") {
  // DIN 18008-2: summer +20 K, -2 kPa, +600 m give 16 kN/m2; winter -25 K, +4 kPa, -300 m give -16 kN/m2; 0.34 kPa/K
  // and 0.012 kPa/m (the sums are read, the constants recalled). Here by the gas law and the standard atmosphere.
  const double sealed_pa = standard_pressure_pa(0.0), sealed_k = 292.15;
  const auto isochoric = [&](double rise_k, double weather_pa, double climb_m) {
    return sealed_pa * (sealed_k + rise_k) / sealed_k - (standard_pressure_pa(climb_m) + weather_pa);
  };
  CHECK(isochoric(20.0, -2e3, 600.0) == Approx(16e3).margin(500.0));
  CHECK(isochoric(-25.0, 4e3, -300.0) == Approx(-16e3).margin(500.0));
  CHECK(isochoric(1.0, 0.0, 0.0) == Approx(340.0).epsilon(0.03));
  CHECK(isochoric(0.0, 0.0, 1.0) == Approx(12.0).epsilon(0.01));
}

TEST_CASE("Climatic load: the insulating-unit factor of worked units") {
  // phi = 1/(1 + (a/a*)^4), a* = 28.9 [s d1^3 d2^3/((d1^3 + d2^3) chi)]^(1/4) mm, at p0 = 16 kPa: worked by hand from
  // the formula of EN 16612's annex (recalled). Deflection and stress in the middle with the plate coefficients above.
  struct Row {
    double width_m, height_m, outer_mm, cavity_mm, inner_mm, phi, bend_mm, stress_mpa;
  };
  for (const Row& row : {Row{1.2, 1.5, 6, 12, 6, 0.0149, 2.2, 3.7}, Row{1.0, 1.5, 6, 12, 6, 0.0237, 2.2, 5.0},
                         Row{0.6, 1.2, 4, 16, 4, 0.0522, 2.8, 11.3}, Row{0.5, 0.75, 6, 12, 6, 0.280, 1.6, 14.8},
                         Row{0.3, 1.5, 4, 12, 4, 0.301, 1.3, 20.3}, Row{0.3, 1.5, 6, 16, 4, 0.470, 2.0, 31.6}}) {
    CAPTURE(row.width_m, row.height_m, row.outer_mm);
    const SealedState state =
        at_isochoric(unit_of(row.width_m, row.height_m, row.outer_mm, row.cavity_mm, row.inner_mm), 16e3);
    CHECK(state.stiffness == Approx(row.phi).epsilon(0.01));
    CHECK(state.gauge_pa[0] == Approx(row.phi * 16e3).epsilon(0.01));
    CHECK(-state.lites[1].deflection_m == Approx(row.bend_mm / 1e3).margin(0.06e-3));
    CHECK(state.lites[1].bending_pa == Approx(row.stress_mpa * 1e6).epsilon(0.015));
  }
}

TEST_CASE("Standard atmosphere: pressure at altitude as tabulated") {
  // ICAO standard atmosphere: 101.325, 95.461, 89.875, 79.495 kPa at 0, 500, 1000, 2000 m.
  CHECK(standard_pressure_pa(0.0) == Approx(101325.0));
  CHECK(standard_pressure_pa(500.0) == Approx(95461.0).epsilon(1e-4));
  CHECK(standard_pressure_pa(1000.0) == Approx(89875.0).epsilon(1e-4));
  CHECK(standard_pressure_pa(2000.0) == Approx(79495.0).epsilon(1e-4));
}
