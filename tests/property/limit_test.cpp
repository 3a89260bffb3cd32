// How dark a film a pane takes, beside whole answers of the films on both sides of the limit.
#include "sunstrain/limit.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using Kind = Reach::Kind;

namespace {

// The job's film in another strength, written out as a sheet prints it: reflectance kept, the rest let through.
Job with_film(Job job, double absorptance) {
  for (const char* key : {"film.solar_transmittance", "film.shgc", "film.solar_reflectance_film_side"})
    job.values.erase(key);
  job.values["film.solar_absorptance"] = absorptance;
  if (const auto reflected = number_of(job, "film.solar_reflectance"))
    job.values["film.solar_transmittance"] = std::max(0.0, 1.0 - absorptance - *reflected);
  return job;
}

// At the limit the verdict is no worse than the line's, a hundredth above it is; the same of the figures alone.
void check_line(const Job& job, const FilmLimit& limit, Verdict line) {
  const auto check = [&](const Reach& reach, Verdict Assessment::*verdict) {
    INFO("reach " << reach.solar_absorptance);
    if (reach.kind != Kind::no_film)
      CHECK(assess(with_film(job, reach.solar_absorptance), builtin_reference()).*verdict <= line);
    if (reach.kind == Kind::up_to)
      CHECK(assess(with_film(job, reach.solar_absorptance + 0.01), builtin_reference()).*verdict > line);
  };
  check(limit.verdict, &Assessment::verdict);
  check(limit.figures, &Assessment::figures);
}

void check_limits(const Job& job) {
  const FilmLimits limits = film_limits(job, builtin_reference());
  CHECK(limits.panes.front().mended.empty());
  check_line(job, limits.panes.front().go, Verdict::go);
  check_line(job, limits.panes.front().caution, Verdict::caution);
}

double highest(const Reach& reach) { return reach.kind == Kind::no_film ? 0.0 : reach.solar_absorptance; }

}  // namespace

TEST_CASE("limit: with the film found the pane stays, with one a hundredth darker it does not", "[slow]") {
  SECTION("everything known") { check_limits(test::complete_double({})); }
  SECTION("a cold edge") { check_limits(test::complete_double({"frame.kind=aluminum", "site.place=fairbanks"})); }
  SECTION("a moving shadow") {
    check_limits(test::complete_double({"shading.overhang_depth=0.5 m", "shading.overhang_height=0.2 m"}));
  }
  SECTION("little known, the reflectance of the film neither") {
    check_limits(test::job_of({"pane.width=1 m", "pane.height=1.5 m", "glass.panes=1", "film.solar_absorptance=0.5"}));
  }
  SECTION("a sheet on thick glass") {
    check_limits(test::complete_double({"film.reference_glass=6-mm-clear", "film.solar_transmittance=0.40"}));
  }
}

TEST_CASE("limit: caution reaches as far as go or farther, and the figures as far as the verdict or farther") {
  for (const char* finish : {"edge.finish=damaged", "edge.finish=as-cut", "edge.finish=polished-documented"}) {
    INFO(finish);
    const PaneLimits now = film_limits(test::complete_double({finish}), builtin_reference()).panes.front();
    CHECK(highest(now.go.verdict) <= highest(now.caution.verdict));
    CHECK(highest(now.go.verdict) <= highest(now.go.figures));
    CHECK(highest(now.caution.verdict) <= highest(now.caution.figures));
  }
}

// Of panes that are within the refer line without film; one past it is not referred for that, mended it can be.
TEST_CASE("limit: a pane with its blind hung open takes a darker film", "[slow]") {
  const Job job = test::complete_double({"inside.shade=light-blind", "inside.vented=no", "site.place=houston"});
  const FilmLimits limits = film_limits(job, builtin_reference());
  REQUIRE(limits.panes.size() == 3);  // the third with the blind open
  const PaneLimits &now = limits.panes[0], &mended = limits.panes[1];
  CHECK(mended.mended == "the blind open to the air at head and sill");
  CHECK(highest(mended.go.verdict) > highest(now.go.verdict));
  CHECK(highest(mended.go.figures) > highest(now.go.figures));
  CHECK(highest(mended.caution.verdict) > highest(now.caution.verdict));
}

// Convex: the lite behind gets cooler with a darker film, the filmed one hotter.
TEST_CASE("limit: films on the outer lite that shade the inner one are go from a strength on") {
  const Job job = test::complete_double({"film.surface=2", "lite.2.tint=gray"});
  const Reach go = film_limits(job, builtin_reference()).panes.front().go.figures;
  REQUIRE(go.kind == Kind::up_to);
  CHECK(assess(with_film(job, go.from), builtin_reference()).figures == Verdict::go);
  CHECK(assess(with_film(job, go.from - 0.01), builtin_reference()).figures != Verdict::go);
  CHECK(assess(with_film(job, go.solar_absorptance + 0.01), builtin_reference()).figures != Verdict::go);
}

TEST_CASE("limit: the lighter film that an answer advises is the limit by the figures") {
  const Job job = test::complete_double({"frame.kind=aluminum", "film.solar_transmittance=0.20"});
  const Assessment answer = assess(job, builtin_reference());
  REQUIRE(answer.figures != Verdict::go);
  REQUIRE(answer.helps.back().solar_absorptance);
  CHECK(answer.helps.back().solar_absorptance ==
        Approx(film_limits(job, builtin_reference()).panes.front().go.figures.solar_absorptance));
  CHECK(answer.helps.back().stress_ratio <= 1.0);
}
