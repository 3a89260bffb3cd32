#include <set>

#include "sunstrain/resolve.hpp"
#include "support/job_text.hpp"

using namespace job_text;

TEST_CASE("only the film and the size are required") {
  CHECK_NOTHROW(check_job(sound(), reference()));
  CHECK(says(check_refusal(sound({"pane.height=unknown"})), {"pane.toml", "pane.height", "missing"}));
  CHECK(says(check_refusal(film({})), {"pane.toml", "film", "missing", "film.solar_absorptance alone"}));
  CHECK(says(check_refusal(film({"film.name=Sample 3"})), {"film", "missing"}));
  std::set<std::string> required;
  for (const JobKey& key : reference().job_keys) {
    if (key.required) required.insert(key.name);
  }
  CHECK(required == std::set<std::string>{"pane.width", "pane.height"});
}

TEST_CASE("each set of film figures that the trade has is usable") {
  const std::string a = "film.solar_absorptance=", t = "film.solar_transmittance=", r = "film.solar_reflectance=",
                    g = "film.shgc=";
  for (const std::vector<std::string>& set :
       std::vector<std::vector<std::string>>{{a + "0.5"},
                                             {t + "0.35", r + "0.15"},
                                             {t + "0.35", r + "0.15", a + "0.5"},
                                             {g + "0.48", t + "0.35"},
                                             {t + "0.35", r + "0.15", g + "0.48"},
                                             {a + "0.5", g + "0.48"},
                                             {t + "0.35", r + "0.15", a + "0.515"},
                                             {t + "0.35", r + "0.15", a + "0.485"},
                                             {a + "0.5", "film.visible_transmittance=0.2"}}) {
    CHECK_NOTHROW(check_job(film(set), reference()));
  }
  CHECK(says(check_refusal(film({t + "0.35"})), {"film.solar_transmittance = 0.35", "not enough"}));
  CHECK(says(check_refusal(film({r + "0.35"})), {"film.solar_reflectance = 0.35", "not enough"}));
  CHECK(says(check_refusal(film({g + "0.35"})), {"film.shgc = 0.35", "not enough"}));
  CHECK(says(check_refusal(film({t + "0.35", a + "0.5"})), {"film.solar_reflectance", "missing", "0.15"}));
  CHECK(says(check_refusal(film({r + "0.15", a + "0.5"})), {"film.solar_transmittance", "missing", "0.35"}));
}

TEST_CASE("film values that cannot be are refused with the figures") {
  const std::string a = "film.solar_absorptance=", t = "film.solar_transmittance=", r = "film.solar_reflectance=",
                    g = "film.shgc=";
  CHECK(says(check_refusal(film({t + "0.4", r + "0.1", a + "0.6"})),
             {"film.solar_absorptance = 0.6", "1.1", "0.015", "absorptance is 0.5"}));
  CHECK(says(check_refusal(film({t + "0.35", r + "0.15", a + "0.517"})), {"1.017"}));
  CHECK(says(check_refusal(film({t + "0.35", r + "0.15", a + "0.483"})), {"0.983"}));
  CHECK(says(check_refusal(film({t + "0.8", r + "0.3"})),
             {"film.solar_transmittance = 0.8", "film.solar_reflectance = 0.3", "1.1"}));
  CHECK(says(check_refusal(film({t + "0.8", r + "0.1", "film.solar_reflectance_film_side=0.3"})),
             {"film_side = 0.3", "1.1"}));
  CHECK(says(check_refusal(film({a + "0.8", t + "0.4"})), {"1.2", "more than the whole"}));
  CHECK(says(check_refusal(film({g + "0.3", t + "0.4"})), {"film.shgc = 0.3", "below", "0.4"}));
  CHECK(says(check_refusal(film({g + "0.9", t + "0.4", r + "0.3"})), {"film.shgc = 0.9", "above 0.7"}));
}

TEST_CASE("figures that say nothing about heat are refused with the words to ask the supplier") {
  CHECK(check_refusal(film({"film.visible_transmittance=35 %"})) ==
        "pane.toml: film.visible_transmittance = 0.35: visible darkness alone cannot be used: ask the supplier for the "
        "solar "
        "(not visible) transmittance and reflectance, measured on which glass");
  CHECK(says(check_refusal(film({"film.total_solar_rejected=0.5"})),
             {"total solar energy rejected alone", "ask the supplier"}));
  CHECK(says(check_refusal(film({"film.infrared_rejected=0.9"})), {"infrared rejection alone", "ask the supplier"}));
}

TEST_CASE("surfaces and lites that the glazing does not have") {
  CHECK(says(check_refusal(sound({"glass.panes=1", "film.surface=4"})),
             {"film.surface = \"4\"", "glass.panes = 1", "1 to 2"}));
  CHECK(says(check_refusal(sound({"glass.panes=2", "film.surface=5"})), {"film.surface = \"5\"", "1 to 4"}));
  CHECK_NOTHROW(check_job(sound({"glass.panes=2", "film.surface=4"}), reference()));
  CHECK_NOTHROW(check_job(sound({"film.surface=6"}), reference()));  // panes unknown: then there are three
  CHECK(says(check_refusal(sound({"glass.panes=2", "lite.3.tint=clear"})),
             {"lite.3.tint", "no such lite", "glass.panes = 2"}));
  CHECK(says(check_refusal(sound({"glass.panes=1", "cavity.1.width=12 mm"})), {"cavity.1.width", "no such cavity"}));
  CHECK(says(check_refusal(sound({"glass.panes=2", "cavity.2.gas=argon"})), {"cavity.2.gas", "no such cavity"}));
  CHECK_NOTHROW(check_job(sound({"glass.panes=2", "cavity.1.gas=argon", "lite.2.tint=clear"}), reference()));
  CHECK_NOTHROW(check_job(sound({"cavity.1.gas=argon", "lite.2.tint=clear"}), reference()));
  CHECK(says(refusal([] { sound({"lite.1.coating_surface=3"}); }), {"lite.1.coating_surface", "allowed: 1, 2"}));
  CHECK(says(refusal([] { sound({"film.surface=7"}); }), {"film.surface", "1, 2, 3, 4, 5, 6"}));
}

TEST_CASE("keys that have no meaning beside the others") {
  CHECK(says(check_refusal(sound({"glass.panes=1", "unit.spacer=metal"})),
             {"unit.spacer", "no meaning", "glass.panes = 2 or 3"}));
  CHECK(says(check_refusal(sound({"lite.1.coating=none", "lite.1.coating_surface=2"})),
             {"lite.1.coating_surface", "lite.1.coating"}));
  CHECK(says(check_refusal(sound({"inside.shade=none", "inside.gap=50 mm"})),
             {"inside.gap", "inside.shade other than none"}));
  CHECK(
      says(check_refusal(sound({"shading.pattern=half", "shading.share=30 %"})), {"shading.share", "shading.pattern"}));
  CHECK(says(check_refusal(sound({"site.place=denver", "site.latitude=40", "site.longitude=-105"})),
             {"site.", "left out"}));
  CHECK(says(check_refusal(sound({"site.latitude=40"})), {"site.longitude", "missing"}));
  CHECK(says(check_refusal(sound({"site.coldest=-20 C"})), {"site.coldest", "site.latitude beside it"}));
  CHECK(says(check_refusal(sound({"shading.overhang_height=1 ft"})), {"shading.overhang_depth beside it"}));
  // Each lite by itself: a reading on lite 1 says nothing against the nominal thickness of lite 2.
  CHECK_NOTHROW(check_job(sound({"lite.1.measured_thickness=0.223 in", "lite.2.thickness=6 mm"}), reference()));
  CHECK(says(check_refusal(sound({"lite.2.measured_thickness=0.223 in", "lite.2.thickness=6 mm"})),
             {"lite.2.thickness", "lite.2.measured_thickness left out"}));
}

TEST_CASE("a key whose parent is left out is refused where the parent would be taken as none of it") {
  CHECK(
      says(check_refusal(sound({"shading.screen_pass=60 %"})),
           {"shading.screen_pass", "no meaning", "it needs shading.screen = bottom-half or left-half or right-half"}));
  CHECK(says(check_refusal(sound({"shading.share=30 %"})), {"shading.share", "shading.pattern = head-band"}));
  CHECK(says(check_refusal(sound({"shading.leafless_pass=30 %"})), {"shading.leafless_pass", "shading.pattern"}));
  CHECK(says(check_refusal(sound({"sash.share=50 %"})), {"sash.share", "it needs sash.side = left or right"}));
  CHECK(says(check_refusal(sound({"glass.panes=1", "lite.1.coating_surface=2"})),
             {"lite.1.coating_surface", "lite.1.coating other than none"}));
  CHECK(says(check_refusal(sound({"film.surface=2", "history.unit_age=5 years"})),
             {"history.unit_age", "glass.panes = 2 or 3"}));
  // Where the parent may be taken as something that gives it a meaning, it is heard.
  for (const char* heard : {"inside.gap=50 mm", "inside.vented=no", "lite.1.coating_surface=2",
                            "history.unit_age=5 years", "unit.spacer=metal", "lite.1.interlayer=0.76 mm"}) {
    CAPTURE(heard);
    CHECK_NOTHROW(check_job(sound({heard}), reference()));
  }
}

TEST_CASE("the panes are counted from everything that speaks of a further lite") {
  const auto panes = [](const std::string& told) {
    return std::get<std::string>(resolve(sound({told}), Run::middle, {}, reference()).job.values.at("glass.panes"));
  };
  for (const char* told : {"interlayer=0.76 mm", "outer_ply=3 mm"}) {
    CHECK(panes(std::string("lite.3.") + told) == "3");
    CHECK_NOTHROW(check_job(sound({"film.surface=2", std::string("lite.2.") + told}), reference()));
  }
  CHECK(panes("second_film.surface=6") == "3");
}

TEST_CASE("what would leave nothing of the pane or is worked for upright panes alone is refused") {
  CHECK(says(check_refusal(sound({"pane.width=50 mm", "film.edge_gap=25 mm"})),
             {"film.edge_gap: 25 mm", "no film on a pane.width of 50 mm"}));
  CHECK_NOTHROW(check_job(sound({"pane.width=60 mm", "film.edge_gap=25 mm"}), reference()));
  const std::vector<std::string> wall{"shading.wall_distance=10 m", "shading.wall_reflectance=50 %"};
  CHECK_NOTHROW(check_job(with(sound(wall), {"pane.tilt=90 deg"}), reference()));
  CHECK(says(check_refusal(with(sound(wall), {"pane.tilt=60 deg"})), {"shading.wall_reflectance", "upright panes"}));
  CHECK(says(check_refusal(sound({"site.water_distance=10 m", "pane.tilt=60 deg"})),
             {"site.water_distance", "upright panes"}));
}
