// Which films there can be, what shuts them out, and where there is nothing to search.
#include "sunstrain/limit.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using Kind = Reach::Kind;

namespace {

FilmLimits limits_of(std::initializer_list<const char*> changes) {
  return film_limits(test::complete_double(changes), builtin_reference());
}

}  // namespace

TEST_CASE("limit: a rule that no film can satisfy is named, with what the figures alone say") {
  const PaneLimits now = limits_of({"history.chips=yes"}).panes.front();
  CHECK(now.go.verdict.kind == Kind::no_film);
  CHECK(now.caution.verdict.kind == Kind::no_film);
  REQUIRE_FALSE(now.caution.held.empty());
  CHECK(now.caution.held.front().id == "W1");
  CHECK(now.caution.figures.kind != Kind::no_film);
}

TEST_CASE("limit: a rule that asks shuts out go and leaves caution") {
  const PaneLimits now = limits_of({"frame.hard_putty=yes"}).panes.front();
  CHECK(now.go.verdict.kind == Kind::no_film);
  REQUIRE(now.go.held.size() == 1);
  CHECK(now.go.held.front().id == "C4");
  CHECK(now.caution.verdict.kind != Kind::no_film);
}

TEST_CASE("limit: on tempered lites even the darkest film stays go, and the darkest is what the reflectance leaves") {
  const FilmLimits limits = limits_of({"lite.1.treatment=tempered", "lite.2.treatment=tempered"});
  const FilmLimit& go = limits.panes.front().go;
  CHECK(go.verdict.kind == Kind::every_film);
  CHECK(go.held.empty());
  CHECK(limits.darkest == Approx(0.90));  // the sheet throws back 10 %
  CHECK(go.verdict.solar_absorptance == Approx(limits.darkest));
}

TEST_CASE("limit: the lightest film is the reference glass with next to nothing on it") {
  // 3 and 6 mm clear float absorb 8 and 15 % of the sun: Rubin, Solar Energy Materials 12 (1985) 275-288, weighted with
  // the ASTM G173 global spectrum (0.082 and 0.150). A sheet's reflectance is kept, its rounding of a few tenths of a
  // percent is allowed, hence one percent either way.
  const FilmLimits thin = limits_of({"film.solar_transmittance=0.80", "film.solar_reflectance=0.08"});
  CHECK(thin.lightest == Approx(0.082).margin(0.012));
  const FilmLimits thick =
      limits_of({"film.reference_glass=6-mm-clear", "film.solar_transmittance=0.70", "film.solar_reflectance=0.07"});
  CHECK(thick.lightest == Approx(0.150).margin(0.012));
}

TEST_CASE("limit: the film's own strength in the job has no say") {
  const auto go = [](const char* transmittance) {
    return limits_of({transmittance, "frame.kind=aluminum"}).panes.front().go.figures.solar_absorptance;
  };
  CHECK(go("film.solar_transmittance=0.70") == go("film.solar_transmittance=0.10"));
}

TEST_CASE("limit: a job that cannot be is refused as its answer is") {
  Job job = test::complete_double({});
  job.values["film.solar_reflectance"] = 0.01;  // less than the front face of any glass throws back
  CHECK_THROWS_AS(film_limits(job, builtin_reference()), BadInput);
}
