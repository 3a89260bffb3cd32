// A unit's overall thickness as whole build-ups: which are plausible, what is given of the unit, what is refused.
#include "sunstrain/unit_build_up.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "../../src/engine/unknowns.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

using Texts = std::vector<std::string>;

// A pane of 0.8 x 1.1 m with a film, so that 3, 4 and 6 mm are plausible.
Job small(std::initializer_list<const char*> more) {
  Job job{"test", {}};
  for (const char* text : {"pane.width=0.8 m", "pane.height=1.1 m", "film.solar_absorptance=0.3"})
    set_key(job, text, builtin_reference());
  for (const char* text : more) set_key(job, text, builtin_reference());
  return job;
}

BuildUps of(int panes, std::initializer_list<const char*> more) {
  return build_ups(small(more).values, panes, builtin_reference());
}

bool has(const BuildUps& found, const char* text) {
  return std::find(found.plausible.begin(), found.plausible.end(), text) != found.plausible.end();
}

std::string refusal(std::initializer_list<const char*> more) {
  try {
    check_job(small(more), builtin_reference());
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

bool says(const std::string& message, const Texts& parts) {
  CAPTURE(message);
  for (const std::string& part : parts) {
    CAPTURE(part);
    CHECK(message.find(part) != std::string::npos);
  }
  return message.find('\n') == std::string::npos;
}

}  // namespace

// Common practice, no source: what these thicknesses are made of.
TEST_CASE("the everyday build-ups are among those of their thickness") {
  CHECK(has(of(2, {"unit.thickness=24 mm"}), "4-16-4"));
  CHECK(has(of(2, {"unit.thickness=24 mm"}), "6-12-6"));
  CHECK(has(of(2, {"unit.thickness=28 mm"}), "4-20-4"));
  CHECK(has(of(2, {"unit.thickness=28 mm"}), "6-16-6"));
  CHECK(has(of(2, {"unit.thickness=1 in"}), "6-13-6"));
  CHECK(has(of(2, {"unit.thickness=3/4 in"}), "3-13-3"));
  CHECK(has(of(3, {"unit.thickness=36 mm"}), "4-12-4-12-4"));
  CHECK(has(of(3, {"unit.thickness=44 mm"}), "4-16-4-16-4"));
  CHECK(of(2, {"unit.thickness=24 mm"}).likely == "4-16-4");
  CHECK(of(2, {"unit.thickness=1 in", "pane.width=2 m"}).likely == "6-13-6");
  CHECK(of(3, {"unit.thickness=36 mm"}).likely == "4-12-4-12-4");
  CHECK(of(2, {"unit.thickness=52 mm"}).plausible.empty());  // no lites that thick are common
}

TEST_CASE("every build-up adds up to the thickness, and each lite has one") {
  const double most_m = constant(builtin_reference(), "unit_thickness_tolerance_m") + 1e-6;
  for (const char* thickness : {"14 mm", "18 mm", "3/4 in", "22 mm", "1 in", "30 mm", "31 mm", "44 mm", "52 mm"}) {
    for (const int panes : {2, 3}) {
      const Job job = small({(std::string("unit.thickness=") + thickness).c_str()});
      const BuildUps found = build_ups(job.values, panes, builtin_reference());
      CAPTURE(thickness, panes);
      std::vector<double> lites;
      for (const std::string& text : found.plausible) {
        CAPTURE(text);
        const auto unit = build_up_of(text);
        REQUIRE(unit);
        CHECK(build_up_text(*unit) == text);
        CHECK(unit->lites_m.size() == static_cast<std::size_t>(panes));
        double total = 0.0;
        for (const double lite : unit->lites_m) total += lite;
        for (const double cavity : unit->cavities_m) total += cavity;
        CHECK(std::abs(total - *number_of(job, "unit.thickness")) <= most_m);
        lites.push_back(unit->lites_m.front());
      }
      CHECK(std::adjacent_find(lites.begin(), lites.end()) == lites.end());
      CHECK(found.plausible.empty() == found.likely.empty());
    }
  }
}

TEST_CASE("what is given of the unit stands") {
  CHECK(of(2, {"unit.thickness=24 mm", "lite.1.thickness=6 mm"}).plausible == Texts{"6-12-6", "6-14-4", "6-15-3"});
  CHECK(of(2, {"unit.thickness=24 mm", "cavity.1.width=16 mm"}).plausible == Texts{"4-16-4"});
  CHECK(has(of(2, {"unit.thickness=24 mm", "lite.1.measured_thickness=5.66 mm"}), "6-12-6"));
  CHECK(of(2, {"unit.thickness=25 mm", "lite.1.kind=laminated", "lite.1.interlayer=0.76 mm"}).nearest_m ==
        Approx(0.025).margin(0.001));
  const BuildUps all =
      of(2, {"unit.thickness=24 mm", "lite.1.thickness=4 mm", "lite.2.thickness=4 mm", "cavity.1.width=16 mm"});
  CHECK_FALSE(all.open);
  CHECK(all.plausible == Texts{"4-16-4"});
}

TEST_CASE("lites and cavity of a unit of known thickness are one unknown together") {
  const Reference& reference = builtin_reference();
  const Job job = small({"unit.thickness=24 mm", "glass.panes=2"});
  const Resolved bad = resolve(job, Run::bad_end, {}, reference);
  const auto open =
      std::find_if(bad.open.begin(), bad.open.end(), [](const OpenKey& o) { return o.key == "unit.build_up"; });
  REQUIRE(open != bad.open.end());
  for (std::size_t i = 0; i < open->candidates.size(); ++i) {
    const Job one = resolve(job, Run::bad_end, {{"unit.build_up", i}}, reference).job;
    const auto unit = build_up_of(std::get<std::string>(open->candidates[i]));
    CHECK(number_of(one, "lite.1.thickness") == Approx(unit->lites_m[0]));
    CHECK(number_of(one, "lite.2.thickness") == Approx(unit->lites_m[1]));
    CHECK(number_of(one, "cavity.1.width") == Approx(unit->cavities_m[0]));
  }
  for (const OpenKey& other : bad.open) {
    CHECK(other.key != "lite.1.thickness");
    CHECK(other.key != "cavity.1.width");
  }
  CHECK(word_of(resolve(job, Run::middle, {}, reference).job, "unit.build_up") == "4-16-4");
}

TEST_CASE("a unit's thickness tells its panes") {
  const auto panes = [](const char* thickness) {
    return word_of(resolve(small({thickness}), Run::middle, {}, builtin_reference()).job, "glass.panes");
  };
  CHECK(panes("unit.thickness=24 mm") == "2");
  CHECK(panes("unit.thickness=44 mm") == "3");
  const Job given = small({"unit.build_up=4-12-4-12-4"});
  const Job whole = resolve(given, Run::bad_end, {}, builtin_reference()).job;
  CHECK(word_of(whole, "glass.panes") == "3");
  CHECK(number_of(whole, "cavity.2.width") == Approx(0.012));
}

TEST_CASE("an unknown build-up is never better than one it could be") {
  const Reference& reference = builtin_reference();
  const Job job = test::complete_double({"unit.thickness=24 mm", "lite.1.thickness=unknown", "lite.2.thickness=unknown",
                                         "cavity.1.width=unknown", "film.solar_transmittance=0.70"});
  ChainCache cache;
  const double ratio = internal::bad_end_ratio(job, internal::worst_choice(job, reference, cache), reference, cache);
  for (const std::string& text : build_ups(job.values, 2, reference).plausible) {
    CAPTURE(text);
    CHECK(internal::bad_end_ratio(internal::with_value(job, "unit.build_up", text), {}, reference, cache) <=
          ratio * (1.0 + 1e-12));
  }
}

TEST_CASE("a build-up given as such is the lites and cavity given one by one") {
  const Reference& reference = builtin_reference();
  Job by_key = test::complete_double({}), by_text = by_key;
  for (const char* key : {"lite.1.thickness", "lite.2.thickness", "cavity.1.width"}) by_text.values.erase(key);
  set_key(by_text, "unit.build_up=4-12-4", reference);
  check_job(by_text, reference);
  ChainCache cache;
  CHECK(internal::bad_end_ratio(by_text, {}, reference, cache) ==
        internal::bad_end_ratio(by_key, {}, reference, cache));
}

TEST_CASE("a unit that cannot be is refused in one line") {
  CHECK(refusal({"unit.thickness=24 mm"}).empty());
  CHECK(refusal({"unit.thickness=24 mm", "unit.build_up=4-16-4"}).empty());
  CHECK(refusal({"unit.build_up=6-12-6", "lite.1.thickness=1/4 in"}).empty());
  CHECK(
      says(refusal({"unit.thickness=8 mm", "glass.panes=2"}), {"unit.thickness", "8 mm", "no unit", "3-6-3 is 12 mm"}));
  CHECK(
      says(refusal({"unit.thickness=24 mm", "lite.1.thickness=6 mm", "lite.2.thickness=4 mm", "cavity.1.width=12 mm"}),
           {"unit.thickness", "do not add up", "6-12-4", "22 mm"}));
  CHECK(says(refusal({"unit.thickness=24 mm", "unit.build_up=6-16-6"}), {"do not add up", "6-16-6", "28 mm"}));
  CHECK(says(refusal({"unit.thickness=24 mm", "glass.panes=1"}), {"unit.thickness", "glass.panes"}));
  CHECK(says(refusal({"unit.build_up=4-16"}), {"unit.build_up", "4-16", "such as 4-16-4"}));
  CHECK(says(refusal({"unit.build_up=4-16-4-16-4-16-4"}), {"unit.build_up"}));
  CHECK(says(refusal({"unit.build_up=4-x-4"}), {"unit.build_up", "4-x-4"}));
  CHECK(says(refusal({"unit.build_up=4-16-40"}), {"unit.build_up", "40 mm", "lite.2.thickness"}));
  CHECK(says(refusal({"unit.build_up=4-16-4", "glass.panes=3"}), {"has 2 lites", "glass.panes = 3"}));
  CHECK(says(refusal({"unit.build_up=4-16-4", "lite.2.thickness=6 mm"}), {"lite.2.thickness", "6 mm", "4-16-4"}));
  CHECK(says(refusal({"unit.build_up=4-16-4", "cavity.1.width=12 mm"}), {"cavity.1.width", "16 mm"}));
}
