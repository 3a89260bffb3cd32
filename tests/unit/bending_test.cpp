// A lite whose frame keeps its edges straight, one face warmer than the other.
#include "sunstrain/bending.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

TEST_CASE("Bending: the plate's own moment along a straight edge, whatever the thickness and whichever face is warm") {
  const PaneElasticity glass{70e9, 9e-6};
  const double difference_k = 3.0, nu = 0.23;
  for (double thickness_m : {0.003, 0.006, 0.019}) {
    const double rigidity = glass.young_pa * std::pow(thickness_m, 3) / (12.0 * (1.0 - nu * nu));
    const double moment = glass.expansion_per_k * difference_k * rigidity * (1.0 - nu * nu) / thickness_m;
    CHECK(held_straight_pa(difference_k, glass) == Approx(6.0 * moment / (thickness_m * thickness_m)));
  }
  CHECK(held_straight_pa(-difference_k, glass) == held_straight_pa(difference_k, glass));
  CHECK(held_straight_pa(0.0, glass) == 0.0);
}

TEST_CASE("Bending: the faces of the filmed lite differ by what crosses it, and thick glass bends more") {
  const auto peak = [](const char* thickness) {
    const std::string outer = std::string("lite.1.thickness=") + thickness;
    const Case pane = test::complete_double_case({outer.c_str()});
    ChainCache cache;
    return worst_of_year(pane, pane.after, builtin_reference(), cache, false).lites.front();
  };
  const LitePeak thin = peak("3 mm"), thick = peak("12 mm");
  CHECK(thin.bending_pa > 0.0);
  CHECK(thin.bending_pa < 0.2 * thin.stress_pa);
  CHECK(thick.bending_pa > 2.0 * thin.bending_pa);
}
