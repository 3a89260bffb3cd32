// Hand methods of national standards. The factors are recalled (reference/hand_methods.toml); what is checked here is
// the arithmetic on them, and where a figure of the same method was published, that.
#include <catch2/catch.hpp>

#include "sunstrain/hand_methods.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

// 4 mm clear glass in 700 W/m2 of sun, 1.5 m2, 20 C on either side.
HandCase pane(double absorptance) {
  HandCase hand;
  hand.absorbed_w_m2 = {700.0 * absorptance};
  hand.outdoor_k = hand.room_k = 293.15;
  hand.shadow = "none";
  hand.frame = "wood";  // solid backing strip, fixed: 0.80
  hand.area_m2 = 1.5;
  hand.treatment = "annealed";
  hand.glass_kind = "float";
  hand.thickness_m = 0.004;
  return hand;
}

}  // namespace

TEST_CASE("JGJ 113 (recalled): one pane's middle above its edge is 0.012 per kJ/m2h, whatever the air") {
  // 0.012 K per kJ/(m2 h) is 0.0432 K per W/m2.
  for (double outdoor_k : {263.15, 293.15, 308.15}) {
    HandCase hand = pane(0.504);
    hand.outdoor_k = outdoor_k;
    const HandResult result = by_hand(hand, builtin_reference()).front();
    CHECK(result.middle_k - result.edge_k == Approx(0.012 * 3.6 * 700.0 * 0.504).epsilon(0.005));
    CHECK(result.edge_k == Approx(0.65 * outdoor_k + 0.35 * hand.room_k).margin(0.05));
  }
}

TEST_CASE("JGJ 113 and Japanese practice (recalled): filmed glass under no shadow, one side, an L with a blind") {
  // Worked by hand to a tenth of an MPa, with 0.043 K per W/m2 rounded (0.3 %). An optical laboratory's published pair:
  // bare glass absorbs 0.097, with a tinted film 0.504. MPa by 0.471 and 0.533.
  struct Row {
    double absorptance;
    const char *shadow, *curtain;
    double japan_mpa, jgj_mpa;
  };
  const Row rows[]{{0.097, "none", "none", 1.1, 1.3},
                   {0.504, "none", "none", 5.9, 6.7},
                   {0.504, "side-band", "none", 7.7, 8.7},
                   {0.504, "L", "light-blind", 14.3, 16.1}};
  for (const Row& row : rows) {
    HandCase hand = pane(row.absorptance);
    hand.shadow = row.shadow;
    hand.curtain = row.curtain;
    hand.curtain_gap_m = 0.05;
    const std::vector<HandResult> results = by_hand(hand, builtin_reference());
    REQUIRE(results.size() == 2);
    CHECK(results[0].stress_pa / 1e6 == Approx(row.jgj_mpa).margin(0.05 + 0.003 * row.jgj_mpa));
    CHECK(results[1].stress_pa / 1e6 == Approx(row.japan_mpa).margin(0.05 + 0.003 * row.japan_mpa));
    CHECK(results[1].allowable_pa == Approx(17.7e6));
  }
}

TEST_CASE("Two panes by the method's films: the published air weights and rises") {
  // JGJ 113's recalled double-glazing weights are 0.79/0.21 and 0.37/0.63; its network gives 0.806 and 0.362.
  HandCase hand = pane(0.0);
  hand.absorbed_w_m2 = {0.0, 0.0};
  hand.outdoor_k = 273.15;
  hand.room_k = 274.15;
  const double outer = by_hand(hand, builtin_reference()).front().middle_k - 273.15;
  hand.lite = 1;
  const double inner = by_hand(hand, builtin_reference()).front().middle_k - 273.15;
  CHECK(outer == Approx(0.194).margin(0.002));
  CHECK(inner == Approx(0.638).margin(0.002));
  hand.room_k = 273.15;
  hand.absorbed_w_m2 = {0.0, 1000.0};  // 0.0788 and 0.0240 K per W/m2 of the inner lite's own sun
  CHECK(by_hand(hand, builtin_reference()).front().middle_k - 273.15 == Approx(78.8).margin(0.3));
  hand.lite = 0;
  CHECK(by_hand(hand, builtin_reference()).front().middle_k - 273.15 == Approx(24.0).margin(0.1));
}

TEST_CASE("Published limits: the row of a glass is its kind's, then its thickness's") {
  const Reference& reference = builtin_reference();
  const auto share = [&](const char* published, const char* treatment, const char* kind, double thickness_m) {
    for (const LimitUsed& limit : limits_used(9.8e6, 17.5, treatment, kind, thickness_m, reference))
      if (limit.published == published) return limit.used;
    return 0.0;
  };
  CHECK(share("Japanese practice", "annealed", "float", 0.006) == Approx(9.8 / 17.7));
  CHECK(share("Japanese practice", "annealed", "float", 0.015) == Approx(9.8 / 14.7));
  CHECK(share("Japanese practice", "annealed", "wired", 0.015) == Approx(1.0));
  CHECK(share("European draft on thermal shock", "annealed", "float", 0.006) == Approx(0.5));
  CHECK(share("European draft on thermal shock", "tempered", "float", 0.006) == Approx(17.5 / 200.0));
  CHECK(share("JGJ 113-2015, long-term", "tempered", "float", 0.006) == 0.0);
  // ASTM E1300 from three seconds to six hours, (3 s/6 h)^(1/16): 16.6 to 9.5 MPa (both recalled or derived).
  CHECK(share("ASTM E1300, three seconds", "annealed", "float", 0.006) /
            share("ASTM E1300, six hours", "annealed", "float", 0.006) ==
        Approx(std::pow(3.0 / 21600.0, 1.0 / 16.0)).epsilon(0.005));
}
