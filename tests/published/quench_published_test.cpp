// Cold water on hot glass against tables of transient conduction and a formula for thermal shock.
#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/quench.hpp"

using namespace sunstrain;

TEST_CASE("Quench: first root and coefficient of a plane wall") {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table 5.1, plane wall. Recalled, not read from the
  // book.
  struct Row {
    double biot, root, coefficient;
  };
  for (const Row& row :
       {Row{0.1, 0.3111, 1.0161}, Row{0.5, 0.6533, 1.0701}, Row{1.0, 0.8603, 1.1191}, Row{2.0, 1.0769, 1.1785},
        Row{5.0, 1.3138, 1.2403}, Row{10.0, 1.4289, 1.2620}, Row{100.0, 1.5552, 1.2731}}) {
    CAPTURE(row.biot);
    const double z = quench_root(row.biot, 0);
    CHECK(z == Approx(row.root).margin(0.0002));
    CHECK(4.0 * std::sin(z) / (2.0 * z + std::sin(2.0 * z)) == Approx(row.coefficient).margin(0.0002));
  }
}

TEST_CASE("Quench: the further roots of a plane wall") {
  // Carslaw & Jaeger, Conduction of Heat in Solids, appendix IV, table I: roots of z tan z = 1. Recalled.
  const double roots[]{0.8603, 3.4256, 6.4373, 9.5293};
  for (std::size_t n = 0; n < 4; ++n) CHECK(quench_root(1.0, n) == Approx(roots[n]).margin(0.0002));
}

TEST_CASE("Quench: the highest face stress of a cooled plate by Manson's formula") {
  // Manson, Behavior of Materials under Conditions of Thermal Stress, NACA report 1170 (1954): 1/s = 1.5 + 3.25/Bi -
  // 0.5 exp(-16/Bi), good to a few percent by its author's word. Recalled, not read.
  for (double biot : {1.0, 2.0, 5.0, 10.0, 20.0}) {
    CAPTURE(biot);
    const double formula = 1.0 / (1.5 + 3.25 / biot - 0.5 * std::exp(-16.0 / biot));
    CHECK(quench_peak(biot).difference == Approx(formula).epsilon(0.06));
  }
}
