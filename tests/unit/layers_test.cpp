// Layers on and in the glass as a job names them: coatings, and films over them.
#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

TEST_CASE("Layers: a coating sits on the surface that is named, hard or soft") {
  const Case bare = complete_double_case({});
  for (const auto& [lite, surface, outer] :
       {std::tuple{1, 1, true}, std::tuple{1, 2, false}, std::tuple{2, 3, true}, std::tuple{2, 4, false}}) {
    for (const char* kind : {"low-e-hard", "low-e-soft", "low-e-selective", "reflective"}) {
      CAPTURE(surface, kind);
      const std::string key = "lite." + std::to_string(lite) + ".coating";
      const std::string named = key + "=" + kind, place = key + "_surface=" + std::to_string(surface);
      const Case pane = complete_double_case({named.c_str(), place.c_str()});
      const Coating& coating = row_named(builtin_reference().coatings, kind);
      const auto at = static_cast<std::size_t>(lite - 1);
      const OpticalLite& optics = pane.before.optics[at];
      const ThermalLite& thermal = pane.before.thermal.lites[at];
      CHECK((outer ? optics.outer_face : optics.inner_face).tau == coating.tau);
      CHECK((outer ? optics.inner_face : optics.outer_face).bare);
      CHECK((outer ? thermal.emissivity_outer : thermal.emissivity_inner) == coating.emissivity);
      CHECK(pane.before.optics[1 - at].outer_face.bare);
      CHECK(absorb_beam(pane.before.optics, 0.0).lites[at].total() >
            absorb_beam(bare.before.optics, 0.0).lites[at].total());
    }
  }
}

TEST_CASE("Layers: a film on an exposed hard coat takes up more than on bare glass, and its low emissivity is gone") {
  const Case plain = complete_double_case({});
  const Case coated = complete_double_case({"lite.2.coating=low-e-hard", "lite.2.coating_surface=4"});
  CHECK(coated.before.thermal.lites[1].emissivity_inner == 0.20);
  CHECK(coated.after.thermal.lites[1].emissivity_inner == 0.87);
  CHECK(absorb_beam(coated.after.optics, 0.0).lites[1].total() > absorb_beam(plain.after.optics, 0.0).lites[1].total());
  CHECK(absorb_beam(coated.after.optics, 0.0).transmitted < absorb_beam(plain.after.optics, 0.0).transmitted);
}

TEST_CASE("Layers: what the rules see of a coating under the film, and of a soft one in the open") {
  const auto fired = [](std::initializer_list<const char*> changes, const char* id) {
    const Assessment a = assess(complete_double(changes), builtin_reference());
    return std::any_of(a.rules.begin(), a.rules.end(), [&](const Rule& rule) { return rule.id == id; });
  };
  const auto on_room_face = {"lite.2.coating=low-e-hard", "lite.2.coating_surface=4"};
  CHECK(fired(on_room_face, "X4"));
  CHECK_FALSE(fired(on_room_face, "X7"));
  CHECK_FALSE(fired(on_room_face, "X8"));
  const auto soft = {"lite.2.coating=low-e-soft", "lite.2.coating_surface=4"};
  CHECK_FALSE(fired(soft, "X4"));
  CHECK(fired(soft, "X7"));
  CHECK(fired(soft, "X8"));
  CHECK(fired({"lite.1.coating=low-e-soft", "lite.1.coating_surface=1"}, "X8"));
  const auto inside = {"lite.2.coating=low-e-soft", "lite.2.coating_surface=3"};
  for (const char* rule : {"X4", "X7", "X8"}) CHECK_FALSE(fired(inside, rule));
}
