// Layers on and in the glass as a job names them: coatings, and films over them.
#include <algorithm>
#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"
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

namespace {

constexpr const char *inner_laminated = "lite.2.kind=laminated", *three_eighths = "lite.2.interlayer=0.38 mm";

double share(const Case& pane, std::size_t sheet) { return absorb_beam(pane.after.optics, 0.0).lites[sheet].total(); }

}  // namespace

TEST_CASE("Layers: a laminated lite is two plies and an interlayer, with the film on the right one") {
  const Case pane = complete_double_case({inner_laminated, "lite.2.interlayer=0.76 mm"});
  REQUIRE(pane.sheets.size() == 3);
  CHECK(pane.sheets[1].lite == 1);
  CHECK(pane.sheets[2].ply == 1);
  CHECK(pane.filmed_lite == 2);
  CHECK(pane.before.thermal.lites[1].thickness_m == Approx(0.002));
  CHECK(pane.before.thermal.lites[2].thickness_m == Approx(0.002));
  CHECK_FALSE(pane.before.thermal.cavities[0].solid());
  CHECK(pane.before.thermal.cavities[1].solid());
  CHECK(pane.before.thermal.joined(2).first == 1);
  CHECK(pane.bottom_is_colder(1));
  CHECK_FALSE(pane.bottom_is_colder(0));
  CHECK(complete_double_case({inner_laminated, three_eighths, "film.surface=3"}).filmed_lite == 1);
  CHECK(pane.strengths.size() == 3);
  const Case uneven =
      complete_double_case({inner_laminated, three_eighths, "lite.2.thickness=10 mm", "lite.2.outer_ply=4 mm"});
  CHECK(uneven.before.thermal.lites[1].thickness_m == Approx(0.004));
  CHECK(uneven.before.thermal.lites[2].thickness_m == Approx(0.006));
}

TEST_CASE("Layers: a laminated lite absorbs what its glass does as one sheet and its interlayer on top") {
  const Case whole = complete_double_case({});
  double before = absorb_beam(whole.before.optics, 0.0).lites[1].total();
  for (const char* interlayer : {three_eighths, "lite.2.interlayer=0.76 mm", "lite.2.interlayer=1.52 mm"}) {
    CAPTURE(interlayer);
    const Case pane = complete_double_case({inner_laminated, interlayer});
    const Absorption a = absorb_beam(pane.before.optics, 0.0);
    const double lite = lite_absorptance(a, pane.before.thermal.joined(1));
    CHECK(lite > before + 0.01);
    CHECK(a.transmitted + a.reflected + a.lites[0].total() + lite == Approx(1.0).margin(1e-12));
    before = lite;
  }
  // An interlayer that takes up nothing leaves the lite's optics as they were at any angle.
  GlazingState split = complete_double_case({inner_laminated, three_eighths}).before;
  split.optics[1].inner_face = split.optics[2].outer_face = interlayer_half(1.0);
  for (double angle_rad : {0.0, 0.7, 1.2, 1.5}) {
    const Absorption one = absorb_beam(whole.before.optics, angle_rad), two = absorb_beam(split.optics, angle_rad);
    CHECK(two.transmitted == Approx(one.transmitted).margin(1e-12));
    CHECK(two.lites[1].total() + two.lites[2].total() == Approx(one.lites[1].total()).margin(1e-12));
  }
}

TEST_CASE("Layers: a laminated lite's own transmittance is that of glass and interlayer together") {
  const Case pane = complete_double_case({inner_laminated, three_eighths, "lite.2.solar_transmittance=0.60"});
  CHECK(absorb_beam(std::span(pane.before.optics).subspan(1), 0.0).transmitted == Approx(0.60).margin(1e-12));
  CHECK_THROWS_AS(complete_double_case({inner_laminated, three_eighths, "lite.2.solar_transmittance=0.91"}), BadInput);
  CHECK_THROWS_AS(complete_double_case({inner_laminated, three_eighths, "lite.2.outer_ply=4 mm"}), BadInput);
}

TEST_CASE("Layers: with an interlayer of glass's own conductivity the plies are one sheet") {
  // One lite of 8 mm, and two plies of 4 mm whose joint neither takes up sun nor holds heat nor resists.
  const Case whole = complete_double_case({"lite.2.thickness=8 mm"});
  Case split = complete_double_case({inner_laminated, three_eighths, "lite.2.thickness=8 mm"});
  for (GlazingState* state : {&split.before, &split.after}) {
    state->optics[1].inner_face = state->optics[2].outer_face = interlayer_half(1.0);
    state->thermal.cavities[1] = {1e-6, {}, 1.0, 1e-9};
  }
  ChainCache cache;
  const DesignDay day = design_day(whole.place, 1, DayKind::cold_clear, whole.tilt_rad, whole.facing_rad,
                                   whole.ground_reflectance, 144, builtin_reference());
  const YearPeaks one = worst_of_days(whole, whole.after, {&day, 1}, builtin_reference(), cache, false);
  const YearPeaks two = worst_of_days(split, split.after, {&day, 1}, builtin_reference(), cache, false);
  CHECK(two.worst_energy_residual < 1e-6);
  CHECK(0.5 * (two.lites[1].center_k + two.lites[2].center_k) == Approx(one.lites[1].center_k).margin(0.2));
  CHECK(0.5 * (two.lites[1].stress_pa + two.lites[2].stress_pa) == Approx(one.lites[1].stress_pa).epsilon(0.06));
  // The outer lite meets one ply through the spacer where it met the whole sheet: a small thing, and it bears little.
  CHECK(two.lites[0].stress_pa == Approx(one.lites[0].stress_pa).margin(5e4));
}

TEST_CASE("Layers: both plies of a laminated pane are strained, the filmed one hotter, and the answer names each") {
  const Assessment a = assess(complete_double({inner_laminated, three_eighths}), builtin_reference());
  REQUIRE(a.lites.size() == 3);
  REQUIRE(a.sheets.size() == 3);
  for (const LiteResult& lite : a.lites) {
    CHECK(lite.before.peak_stress_pa > 1e5);
    CHECK(lite.after.allowable_pa > 1e6);
  }
  CHECK(a.lites[2].after.absorbed_fraction > a.lites[1].after.absorbed_fraction);
  CHECK(a.lites[2].after.center_k > a.lites[1].after.center_k);
  CHECK(a.sealed.has_value());
  CHECK(a.sealed->after.state.lites.size() == 2);
  CHECK(share(complete_double_case({inner_laminated, three_eighths}), 2) == a.lites[2].after.absorbed_fraction);
}

namespace {

constexpr const char *old_t = "second_film.solar_transmittance=0.65", *old_r = "second_film.solar_reflectance=0.10",
                     *old_glass = "second_film.reference_glass=3-mm-clear", *old_e = "second_film.emissivity=0.87",
                     *there = "second_film.already_on=yes", *on_4 = "second_film.surface=4",
                     *on_1 = "second_film.surface=1", *clean = "second_film.weathering=0 %";

}  // namespace

TEST_CASE("Layers: a second film under the first takes up sun with it, and is there before it") {
  const Case one = complete_double_case({}), two = complete_double_case({old_t, old_r, old_glass, old_e, there, on_4});
  CHECK(share(two, 1) > share(one, 1));
  CHECK_FALSE(two.before.optics[1].inner_face.bare);
  CHECK(two.before.thermal.lites[1].emissivity_inner == 0.87);
  const auto bare_share = [](const Case& pane) { return absorb_beam(pane.before.optics, 0.0).lites[1].total(); };
  CHECK(bare_share(two) > bare_share(one));
  // The same film twice over: whichever is called the second, the pair is one.
  const Case swapped =
      complete_double_case({"film.solar_transmittance=0.65", "film.solar_reflectance=0.10",
                            "second_film.solar_transmittance=0.45", old_r, old_glass, old_e, there, on_4});
  CHECK(swapped.after.optics[1].inner_face.tau == Approx(two.after.optics[1].inner_face.tau).margin(2e-3));
  // Two new ones: the pane without film is bare, the pane with them the same.
  const Case both_new = complete_double_case({old_t, old_r, old_glass, old_e, "second_film.already_on=no", on_4});
  CHECK(both_new.before.optics[1].inner_face.bare);
  CHECK(share(both_new, 1) == share(two, 1));
}

namespace {

Assessment with_absorptance_alone(std::initializer_list<const char*> changes) {
  Job job = complete_double(changes);
  for (const char* sheet : {"film.solar_transmittance", "film.solar_reflectance"}) job.values.erase(sheet);
  job.values["film.solar_absorptance"] = 0.5;
  return assess(job, builtin_reference());
}

}  // namespace

TEST_CASE("Layers: where two films are known by their absorptance alone the bad end is no kinder than the middle") {
  const auto* surface = GENERATE("second_film.surface=4", "second_film.surface=1");
  CAPTURE(surface);
  const Assessment a = with_absorptance_alone({"second_film.solar_absorptance=0.2", old_glass, old_e, there, surface});
  const LiteFigures& lite = a.lites[a.governing_lite].after;
  CHECK(lite.peak_stress_pa >= lite.peak_stress_middle_pa);
}

TEST_CASE("Layers: a film known by its absorptance alone is read as no mirror where a blind or sign is behind") {
  const auto check = [](std::initializer_list<const char*> changes) {
    Job told = complete_double(changes);
    told.values["film.solar_transmittance"] = 0.42;
    told.values["film.solar_reflectance"] = 0.08;
    CHECK(with_absorptance_alone(changes).stress_ratio > assess(told, builtin_reference()).stress_ratio - 0.01);
  };
  check({"inside.shade=light-blind", "inside.gap=50 mm", "inside.closure=100 %", "inside.vented=yes"});
  check({"sign.side=inside", "sign.width=300 mm", "sign.height=300 mm", "sign.left=200 mm", "sign.bottom=200 mm",
         "sign.reflectance=10 %"});
}

TEST_CASE("Layers: films on two faces of a unit each warm their own lite") {
  const Case one = complete_double_case({});
  const Case two = complete_double_case({old_t, old_r, old_glass, old_e, there, on_1, clean});
  CHECK_FALSE(two.after.optics[0].outer_face.bare);
  CHECK(share(two, 0) > share(one, 0));
  CHECK(share(two, 1) < share(one, 1));  // in the shade of the outer film
}

TEST_CASE("Layers: a film over a film is for its makers, and an old film that is told of is no open question") {
  const auto fired = [](std::initializer_list<const char*> changes, const char* id) {
    const Assessment a = assess(complete_double(changes), builtin_reference());
    return std::any_of(a.rules.begin(), a.rules.end(), [&](const Rule& rule) { return rule.id == id; });
  };
  CHECK(fired({old_t, old_r, old_glass, old_e, there, on_4, "history.film_on=yes"}, "X9"));
  CHECK_FALSE(fired({old_t, old_r, old_glass, old_e, there, on_4, "history.film_on=yes"}, "P5"));
  CHECK(fired({"history.film_on=yes"}, "P5"));
  CHECK_FALSE(fired({old_t, old_r, old_glass, old_e, there, on_1, clean}, "X9"));
}

TEST_CASE("Layers: a second film that is to go on a coating is asked about as the first is") {
  const auto fired = [](const char* on, const char* coating, const char* id) {
    const Assessment a = assess(complete_double({old_t, old_r, old_glass, old_e, on_4, on, "film.surface=1",
                                                 "film.weathering=0 %", coating, "lite.2.coating_surface=4"}),
                                builtin_reference());
    return std::any_of(a.rules.begin(), a.rules.end(), [&](const Rule& rule) { return rule.id == id; });
  };
  CHECK(fired("second_film.already_on=no", "lite.2.coating=low-e-hard", "X4"));
  CHECK(fired("second_film.already_on=no", "lite.2.coating=low-e-soft", "X7"));
  CHECK_FALSE(fired("second_film.already_on=yes", "lite.2.coating=low-e-hard", "X4"));
}

TEST_CASE("Layers: what cannot be of a second film is refused by its own key") {
  const auto refused = [](std::initializer_list<const char*> changes, const char* words) {
    try {
      complete_double(changes);
    } catch (const BadInput& bad) {
      CAPTURE(bad.what());
      CHECK(std::string(bad.what()).find(words) != std::string::npos);
      return;
    }
    FAIL("taken");
  };
  refused({old_t}, "second_film.solar_transmittance = 0.65: is not enough by itself");
  refused({old_t, "second_film.solar_reflectance=0.5"}, "more than the whole");
  refused({"second_film.surface=4"}, "second_film: its solar figures are missing");
  refused({old_t, old_r, "second_film.surface=6"}, "second_film.surface");
  refused({"film.weathering=5 %"}, "film.weathering");
}

TEST_CASE("Layers: a film outdoors takes up more the more it has weathered, most where it mirrors") {
  double before = 0.0;
  for (const char* worn :
       {"film.weathering=0 %", "film.weathering=5 %", "film.weathering=10 %", "film.weathering=30 %"}) {
    CAPTURE(worn);
    const Case pane =
        complete_double_case({"film.surface=1", worn, "film.solar_transmittance=0.15", "film.solar_reflectance=0.50"});
    CHECK(share(pane, 0) > before);
    before = share(pane, 0);
  }
  const auto added = [](const char* transmittance, const char* reflectance) {
    return share(complete_double_case({"film.surface=1", "film.weathering=10 %", transmittance, reflectance}), 0) -
           share(complete_double_case({"film.surface=1", "film.weathering=0 %", transmittance, reflectance}), 0);
  };
  CHECK(added("film.solar_transmittance=0.15", "film.solar_reflectance=0.50") >
        added("film.solar_transmittance=0.45", "film.solar_reflectance=0.06"));
  // Left out it is worse at the bad end than in the middle, and not asked of a film indoors.
  const Job outdoors = complete_double({"film.surface=1"});
  CHECK(number_of(resolve(outdoors, Run::bad_end, {}, builtin_reference()).job, "film.weathering") >
        number_of(resolve(outdoors, Run::middle, {}, builtin_reference()).job, "film.weathering"));
  CHECK_FALSE(number_of(resolve(complete_double({}), Run::bad_end, {}, builtin_reference()).job, "film.weathering"));
}

TEST_CASE("Layers: a film known by its absorptance alone can be told of on any reference glass") {
  for (const char* glass :
       {"film.reference_glass=3-mm-clear", "film.reference_glass=6-mm-clear", "film.reference_glass=double-clear"}) {
    CAPTURE(glass);
    Job job = job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45", glass});
    for (Run run : {Run::bad_end, Run::middle}) {
      const Job complete = resolve(job, run, {}, builtin_reference()).job;
      const Case pane = build_case(complete, run, builtin_reference());
      CHECK(share(pane, pane.filmed_lite) > 0.2);
    }
  }
}

TEST_CASE("Layers: what is told of a lite, a film or a panel that is not there is refused or makes it be there") {
  const Job spoken = job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45", "glass.panes=1",
                             "lite.1.interlayer=0.76 mm"});
  CHECK(word_of(resolve(spoken, Run::middle, {}, builtin_reference()).job, "lite.1.kind") == "laminated");
  const auto with = [](const char* key) {
    return job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45", key});
  };
  CHECK_THROWS_AS(with("panel.gap=75 mm"), BadInput);
  CHECK_THROWS_AS(with("film.weathering=5 %"), BadInput);
  CHECK_THROWS_AS(with("second_film.weathering=5 %"), BadInput);
  CHECK_THROWS_AS(with("second_film.surface=2"), BadInput);
}
