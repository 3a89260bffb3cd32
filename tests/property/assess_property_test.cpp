// What must hold of whole answers, whatever the figures are.
#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

Assessment answer(std::initializer_list<const char*> changes) {
  return assess(test::complete_double(changes), builtin_reference());
}

double filmed_stress(const Assessment& a) { return a.lites.back().after.peak_stress_pa; }

}  // namespace

TEST_CASE("with everything known nothing is unknown and both runs take the same glass") {
  const Assessment a = answer({});
  CHECK(a.unknowns.empty());
  CHECK(a.bad_end.values == a.job.values);
  CHECK(a.middle.values == a.job.values);
}

TEST_CASE("a better edge never worsens the answer") {
  double before = 1e9;
  for (const char* finish : {"edge.finish=damaged", "edge.finish=hidden", "edge.finish=as-cut", "edge.finish=seamed",
                             "edge.finish=polished-documented"}) {
    const double ratio = answer({finish}).stress_ratio;
    INFO(finish);
    CHECK(ratio <= before);
    before = ratio;
  }
}

TEST_CASE("the filmed lite's middle grows hotter with what the film absorbs, all else fixed") {
  double before = 0.0;
  for (const char* transmittance : {"film.solar_transmittance=0.70", "film.solar_transmittance=0.55",
                                    "film.solar_transmittance=0.40", "film.solar_transmittance=0.25"}) {
    const Assessment a = answer({transmittance});
    INFO(transmittance);
    CHECK(a.lites.back().after.center_k > before);
    before = a.lites.back().after.center_k;
  }
}

TEST_CASE("a warmer spacer lowers the winter stress of the room-side lite, a darker film raises it") {
  const double metal = filmed_stress(answer({}));
  CHECK(filmed_stress(answer({"unit.spacer=warm-edge"})) < metal);
  CHECK(filmed_stress(answer({"film.solar_transmittance=0.30"})) > metal);
}

TEST_CASE("every step closes its energy and every figure is a number") {
  const Assessment a = answer({"shading.overhang_depth=0.5 m", "shading.overhang_height=0.2 m"});
  for (const LiteResult& lite : a.lites) {
    for (const LiteFigures* f : {&lite.before, &lite.after}) {
      CHECK(std::isfinite(f->peak_stress_pa));
      CHECK(f->odds.low <= f->odds.best);
      CHECK(f->odds.best <= f->odds.high);
      CHECK(f->when.month >= 1);
    }
  }
  CHECK(a.before.solar_transmittance > a.after.solar_transmittance);
  CHECK(a.before.shgc > a.after.shgc);
}

TEST_CASE("a refer is never for a stress that is there without film") {
  // Low-e with argon in the coldest place: past the lines as it stands.
  const Assessment a = answer({"lite.2.coating=low-e-soft", "lite.2.coating_surface=3", "cavity.1.gas=argon",
                               "site.place=fairbanks", "film.solar_transmittance=0.80", "film.solar_reflectance=0.08"});
  if (a.past_line_without_film) CHECK(a.figures != Verdict::refer);
}

// Behind a thin film the room side of the glass and the blind come to nearly the same warmth, and the air between them
// turns about: what the gap carries over swings with every round of the balance.
TEST_CASE("a pane whose blind is about as warm as its glass settles") {
  const Assessment a =
      assess(test::job_of({"pane.width=20 in", "pane.height=20 in", "film.solar_absorptance=0.1", "glass.panes=1",
                           "inside.shade=light-blind", "film.reference_glass=3-mm-clear", "pane.facing=W",
                           "frame.kind=vinyl", "lite.1.thickness=6 mm", "site.place=duluth", "site.ground=snow"}),
             builtin_reference());
  CHECK(a.stress_ratio > 0.1);
  CHECK(a.stress_ratio < 2.0);
}

TEST_CASE("a blind whose balance jumps between two values settles, and the answer follows its distance evenly") {
  std::vector<double> ratios;
  for (const char* gap : {"inside.gap=30 mm", "inside.gap=40 mm", "inside.gap=50 mm", "inside.gap=60 mm"}) {
    const Assessment a = assess(test::job_of({"pane.width=1.2 m",
                                              "pane.height=1.6 m",
                                              "pane.facing=S",
                                              "glass.panes=1",
                                              "lite.1.kind=float",
                                              "lite.1.tint=clear",
                                              "lite.1.thickness=6 mm",
                                              "lite.1.treatment=annealed",
                                              "lite.1.coating=none",
                                              "edge.finish=hidden",
                                              "frame.kind=aluminum",
                                              "frame.color=light",
                                              "frame.bite=12 mm",
                                              "frame.sun=shaded",
                                              "inside.shade=dark-blind",
                                              "inside.closure=33 %",
                                              "inside.drawn=from-top",
                                              "inside.vented=yes",
                                              "inside.heat=none",
                                              "film.solar_transmittance=0.55",
                                              "film.solar_reflectance=0.15",
                                              "film.reference_glass=3-mm-clear",
                                              "film.surface=2",
                                              "site.place=chicago",
                                              "site.ground=grass",
                                              gap}),
                                builtin_reference());
    ratios.push_back(a.stress_ratio);
  }
  for (std::size_t i = 1; i < ratios.size(); ++i) {
    INFO(i);
    CHECK(ratios[i] < ratios[i - 1]);
    CHECK(ratios[i] > ratios[i - 1] - 0.05);
  }
}
