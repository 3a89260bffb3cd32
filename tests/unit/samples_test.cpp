#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"
#include "sunstrain/sampler.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

// The tables with those draws alone.
Reference drawing(std::initializer_list<Draw::Of> kept) {
  Reference reference = builtin_reference();
  std::erase_if(reference.draws,
                [&](const Draw& draw) { return std::find(kept.begin(), kept.end(), draw.of) == kept.end(); });
  return reference;
}

// A single clear pane of which everything is known, its frame seen in the shade; then the changes.
Job known_single(std::initializer_list<const char*> changes) {
  Job job = test::job_of({"pane.width=0.9 m",
                          "pane.height=1.4 m",
                          "pane.facing=S",
                          "pane.tilt=90",
                          "glass.panes=1",
                          "lite.1.kind=float",
                          "lite.1.tint=clear",
                          "lite.1.thickness=6 mm",
                          "lite.1.treatment=annealed",
                          "lite.1.coating=none",
                          "edge.finish=as-cut",
                          "frame.kind=aluminum",
                          "frame.bite=12 mm",
                          "frame.color=white",
                          "frame.sun=shaded",
                          "shading.pattern=none",
                          "inside.shade=none",
                          "inside.heat=none",
                          "site.place=denver",
                          "site.ground=grass",
                          "film.solar_absorptance=0.5",
                          "film.solar_transmittance=0.4",
                          "film.solar_reflectance=0.1",
                          "film.reference_glass=3-mm-clear",
                          "film.surface=2",
                          "film.emissivity=0.87"});
  for (const char* change : changes) set_key(job, change, builtin_reference());
  return job;
}

std::vector<SampleRow> rows_of(const Sampler& sampler, std::uint64_t seed, std::size_t count, ChainCache& cache) {
  std::vector<SampleRow> rows;
  for (std::size_t i = 0; i < count; ++i) rows.push_back(sampler.row(seed, i, cache));
  return rows;
}

bool same(const SobolRow& x, const SobolRow& y) { return x.a == y.a && x.b == y.b && x.mixed == y.mixed; }

// That any lite breaks on the day of its peak, of a pane in its middle run whose outdoor air is shifted; by the whole
// day's history.
double odds_of(const Job& job, double shift_k, const Reference& reference, ChainCache& cache) {
  Case pane = build_case(resolve(job, Run::middle, {}, reference).job, Run::middle, reference);
  pane.place.coldest_k += shift_k;
  pane.place.hottest_k += shift_k;
  double whole = 1.0;
  for (const LitePeak& lite : worst_of_year(pane, pane.after, reference, cache, true).lites)
    whole *= 1.0 - lite.odds.best;
  return 1.0 - whole;
}

// The samples' interval holds the odds, 95 times of 100.
void check_odds(const Sampler& sampler, double odds, const Reference& reference) {
  REQUIRE(sampler.unknowns().size() == 1);
  int inside = 0;
  ChainCache cache;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    CAPTURE(seed);
    const Samples samples = samples_of(sampler, rows_of(sampler, seed, 60, cache), seed, reference);
    CHECK(samples.odds.value == Approx(odds).epsilon(0.3));
    inside += samples.odds.low <= odds && odds <= samples.odds.high;
  }
  CHECK(inside >= 8);  // three misses of ten would come once in a hundred
}

using Quadrature = boost::math::quadrature::gauss_kronrod<double, 15>;

}  // namespace

TEST_CASE("samples of one unknown give the odds of direct integration", "[slow]") {
  // By Gauss-Kronrod's rule of a general-purpose library (Boost.Math).
  ChainCache cache;
  SECTION("the weather's air, over the pieces of its distribution") {
    const Reference reference = drawing({Draw::Of::air_k});
    const Job job = known_single({});
    const Draw& air = reference.draws.front();
    double odds = 0.0;
    for (std::size_t i = 1; i < air.chance.size(); ++i) {
      const double density = (air.chance[i] - air.chance[i - 1]) / (air.value[i] - air.value[i - 1]);
      const auto at = [&](double shift_k) { return density * odds_of(job, shift_k, reference, cache); };
      odds += Quadrature::integrate(at, air.value[i - 1], air.value[i], 0);
    }
    check_odds(Sampler(job, reference, 1.0), odds, reference);
  }
  SECTION("a film known in part") {
    const Reference reference = drawing({});
    Job job = known_single({});
    forget(job, "film.solar_transmittance");
    forget(job, "film.solar_absorptance");
    const auto at = [&](double absorptance) {
      Job known = job;
      settle(known, "film.solar_absorptance", absorptance);
      return odds_of(known, 0.0, reference, cache);
    };
    const double odds = Quadrature::integrate(at, 0.35, 0.60, 1) / (0.60 - 0.35);
    set_key(job, "film.solar_absorptance=0.35 to 0.60", reference);
    check_odds(Sampler(job, reference, 1.0), odds, reference);
  }
}

TEST_CASE("a row of samples is its seed's and its own, whatever was worked before it") {
  const Reference& reference = builtin_reference();
  const Job job = test::job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.4", "glass.panes=2",
                                "shading.overhang_depth=0.5 m"});
  const Sampler sampler(job, reference, 1.0);
  ChainCache fresh, used;
  rows_of(sampler, 1, 2, used);
  const SampleRow row = sampler.row(1, 2, used), again = sampler.row(1, 2, fresh), other = sampler.row(2, 2, fresh);
  CHECK(same(row.ratio, again.ratio));
  CHECK(same(row.load, again.load));
  CHECK(row.ratio.a != other.ratio.a);
}

TEST_CASE("of a pane that is known the weather alone is drawn") {
  const Sampler sampler(known_single({}), builtin_reference(), 1.0);
  std::vector<Draw::Of> drawn;
  for (const SampledUnknown& unknown : sampler.unknowns()) {
    drawn.push_back(unknown.of.value());
    CHECK(unknown.asks.empty());
  }
  CHECK(drawn == std::vector<Draw::Of>{Draw::Of::air_k, Draw::Of::beam_depth, Draw::Of::wind_m_s});
}

TEST_CASE("what is not known is drawn under its key, or what stands for it") {
  const Reference& reference = builtin_reference();
  const Job job = test::job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.4"});
  const Sampler sampler(job, reference, 1.0);
  const auto has = [&](const char* name) {
    return std::any_of(sampler.unknowns().begin(), sampler.unknowns().end(),
                       [&](const SampledUnknown& unknown) { return unknown.name == name; });
  };
  for (const char* key :
       {"pane.facing", "glass.panes", "lite.1.thickness", "lite.2.thickness", "frame.kind", "inside.shade",
        "site.place", "film.reference_glass", "frame in the sun", "colder bottom edge", "film solar reflectance"}) {
    CAPTURE(key);
    CHECK(has(key));
  }
  CHECK_FALSE(has("frame.sun"));
  CHECK_FALSE(has("pane.tilt"));  // always taken upright
}

TEST_CASE("samples: shares, quantiles and odds hang together, and what cannot matter owns nothing") {
  const Reference& reference = builtin_reference();
  Job job = known_single({"shading.upright_bars=0", "shading.bar_width=25 mm"});  // no bar: its depth is no matter
  job.values.erase("frame.kind");
  const Sampler sampler(job, reference, 1.0);
  ChainCache cache;
  const Samples samples = samples_of(sampler, rows_of(sampler, 1, 100, cache), 1, reference);
  CHECK(samples.samples == 100 * sampler.samples_a_row());
  double first = 0.0;
  for (const UnknownShare& share : samples.shares) {
    CAPTURE(share.unknown.name);
    CHECK(share.of_ratio.total.high >= share.of_ratio.first.low);
    CHECK(share.of_ratio.total.low >= 0.0);
    CHECK(share.of_load.first.value <= share.of_load.total.value + 0.1);
    first += share.of_ratio.first.value;
    if (share.unknown.name == "frame.kind") CHECK(share.of_ratio.total.low > 0.0);
    if (share.unknown.name != "shading.bar_depth") continue;
    CHECK(share.of_ratio.first.value == 0.0);
    CHECK(share.of_ratio.total.high == 0.0);
  }
  CHECK(first < 1.25);  // 1 at most, and the noise of a hundred rows
  CHECK(samples.shares.front().of_ratio.first.value >= samples.shares.back().of_ratio.first.value);
  CHECK(samples.strength.first.value > 0.0);
  CHECK(samples.strength.first.value <= samples.strength.total.value);
  CHECK(samples.strength.total.value < 1.0);
  CHECK(std::is_sorted(samples.ratio_at.begin(), samples.ratio_at.end(),
                       [](const SampleQuantile& x, const SampleQuantile& y) { return x.ratio < y.ratio; }));
  CHECK(samples.odds.low > 0.0);
  CHECK(samples.odds.low <= samples.odds.value);
  CHECK(samples.odds.value <= samples.odds.high);
}

TEST_CASE("the strength's share of stress over strength is that of drawn strengths") {
  // Against drawing the strength as an unknown of its own, one more column of Saltelli's.
  const Reference reference = drawing({Draw::Of::air_k, Draw::Of::wind_m_s});
  const Sampler sampler(known_single({}), reference, 1.0);
  ChainCache cache;
  const double m = constant(reference, "weibull_best_m");
  const auto weakness = [&](double u) { return std::pow(-std::log1p(-u), -1.0 / m); };
  std::vector<SampleRow> rows = rows_of(sampler, 3, 200, cache);
  std::vector<SobolRow> drawn;
  for (std::size_t j = 0; j < rows.size(); ++j) {
    RandomStream random(99, j);
    const double of_a = weakness(random.uniform()), of_b = weakness(random.uniform());
    const SobolRow& load = rows[j].load;
    SobolRow& row = drawn.emplace_back(SobolRow{load.a * of_a, load.b * of_b, {}});
    for (double value : load.mixed) row.mixed.push_back(value * of_a);
    row.mixed.push_back(load.a * of_b);
  }
  const std::vector<SobolIndex> indices = sobol_indices(drawn, 3);
  const Samples samples = samples_of(sampler, rows, 3, reference);
  CHECK(samples.strength.first.value == Approx(indices.back().first.value).margin(0.15));
  CHECK(samples.strength.total.value == Approx(indices.back().total.value).margin(0.15));
  for (const UnknownShare& share : samples.shares) {
    const std::size_t column = share.unknown.of == sampler.unknowns()[0].of ? 0 : 1;
    CAPTURE(share.unknown.name);
    CHECK(share.of_load.total.value == Approx(indices[column].total.value).margin(0.05));
  }
}

TEST_CASE("the likely risk leaves out steps that hold next to nothing of it") {
  const Reference& reference = builtin_reference();
  for (const auto& changes : {std::initializer_list<const char*>{},
                              {"shading.overhang_depth=0.6 m", "shading.overhang_height=0.2 m"},
                              {"shading.pattern=half"},
                              {"lite.2.treatment=heat-strengthened", "pane.facing=W"}}) {
    const Case pane = test::complete_double_case(changes);
    ChainCache cache;
    const YearPeaks quick = likely_worst_of_year(pane, pane.after, reference, cache);
    const YearPeaks whole = worst_of_year(pane, pane.after, reference, cache, true);
    for (std::size_t lite = 0; lite < whole.lites.size(); ++lite) {
      CHECK(quick.lites[lite].stress_pa == whole.lites[lite].stress_pa);
      const double risk = -std::log1p(-whole.lites[lite].odds.best);
      CHECK(quick.lites[lite].likely_risk <= risk * (1.0 + 1e-9));
      CHECK(quick.lites[lite].likely_risk == Approx(risk).epsilon(1e-3));
    }
  }
}

TEST_CASE("without the weather no sample is worse than the bad end") {
  const Reference reference =
      drawing({Draw::Of::frame_beam_share, Draw::Of::bottom_colder_k, Draw::Of::film_reflectance});
  for (const Job& job : {test::job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.4"}),
                         test::job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.4",
                                       "glass.panes=2", "site.place=chicago", "pane.facing=SE"})}) {
    const Assessment assessment = assess(job, reference);
    const Sampler sampler(job, reference, assessment.raised_by());
    ChainCache cache;
    for (const SampleRow& row : rows_of(sampler, 5, 8, cache)) {
      CHECK(std::max(row.ratio.a, row.ratio.b) <= assessment.stress_ratio * (1.0 + 1e-9));
      for (double ratio : row.ratio.mixed) CHECK(ratio <= assessment.stress_ratio * (1.0 + 1e-9));
    }
  }
}

TEST_CASE("combinations that cannot be are drawn again and counted, a job of none is refused") {
  // 0.80 passes on 3 mm of clear glass, and on nothing thicker.
  Job job =
      known_single({"film.solar_absorptance=0.12", "film.solar_transmittance=0.80", "film.solar_reflectance=0.08"});
  job.values.erase("film.reference_glass");
  const Sampler sampler(job, builtin_reference(), 1.0);
  ChainCache cache;
  const Samples samples = samples_of(sampler, rows_of(sampler, 1, 6, cache), 1, builtin_reference());
  CHECK(samples.drawn_again > 0);
  const Job never =
      known_single({"film.solar_absorptance=0.01", "film.solar_transmittance=0.98", "film.solar_reflectance=0.01"});
  CHECK_THROWS_AS(Sampler(never, builtin_reference(), 1.0).row(1, 0, cache), BadInput);
}

TEST_CASE("a key that is not known is drawn at its most likely value half of the time, at its others alike") {
  const Reference reference = drawing({});
  const Job job = known_single({"frame.kind=unknown"});  // aluminum, vinyl (most likely) or wood
  const Sampler sampler(job, reference, 1.0);
  REQUIRE(sampler.unknowns().size() == 1);
  ChainCache cache;
  const auto ratio_of = [&](const char* frame) {
    Job known = job;
    settle(known, "frame.kind", std::string(frame));
    return Sampler(known, reference, 1.0).value_at({}, cache).ratio;
  };
  constexpr int places = 40;
  std::array<int, 3> drawn{};
  const std::array<double, 3> ratios{ratio_of("vinyl"), ratio_of("aluminum"), ratio_of("wood")};
  for (int i = 0; i < places; ++i) {
    const double u = (i + 0.5) / places, ratio = sampler.value_at(std::vector{u}, cache).ratio;
    for (std::size_t frame = 0; frame < 3; ++frame) drawn[frame] += ratio == ratios[frame] ? 1 : 0;
  }
  CHECK(drawn == std::array{places / 2, places / 4, places / 4});
}
