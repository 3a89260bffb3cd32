// What must hold of edge strength whatever the numbers are: on the real tables, over histories drawn at
// random with a fixed seed.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/strength.hpp"

using namespace sunstrain;

namespace {

struct RandomLite {
  std::mt19937 engine{20240607};
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine); }
  template <class Row>
  const std::string& name_of(const std::vector<Row>& rows) {
    return rows[std::uniform_int_distribution<std::size_t>(0, rows.size() - 1)(engine)].name;
  }

  EdgeHistory history() {
    const int points = std::uniform_int_distribution<int>(1, 12)(engine);
    const int steps = std::uniform_int_distribution<int>(1, 24)(engine);
    // From faint to far above any window's stress: mean peaks from 1 to 100 MPa.
    const double peak_pa = 1e6 * std::pow(100.0, between(0.0, 1.0));
    EdgeHistory h{.step_s = between(60.0, 3600.0), .point_length_m = {}, .stress_pa = {}};
    for (int p = 0; p < points; ++p) h.point_length_m.push_back(between(0.01, 0.5));
    h.stress_pa.assign(static_cast<std::size_t>(steps), std::vector<double>(h.point_length_m.size()));
    for (auto& step : h.stress_pa) {
      for (double& stress_pa : step) stress_pa = between(-0.5 * peak_pa, peak_pa);
    }
    return h;
  }

  EdgeDescription edge(const Reference& r) {
    return {name_of(r.treatments), name_of(r.glass_kinds), between(0.002, 0.025), name_of(r.edge_finishes),
            name_of(r.edge_finishes)};
  }
};

// Odds near 0 and 1 are compared as they stand; the allowance is rounding only.
bool no_worse(const Odds& better, const Odds& worse) {
  const double rounding = 1.0 + 1e-12;
  return better.low <= worse.low * rounding && better.best <= worse.best * rounding &&
         better.high <= worse.high * rounding;
}

constexpr int draws = 400;

}  // namespace

TEST_CASE("the odds are ordered and are probabilities", "[strength][property]") {
  const Reference& reference = builtin_reference();
  RandomLite draw;
  for (int i = 0; i < draws; ++i) {
    const EdgeDescription edge = draw.edge(reference);
    CAPTURE(i, edge.treatment, edge.glass_kind, edge.finish_bad, edge.finish_middle, edge.thickness_m);
    const Odds odds = breakage_odds(draw.history(), edge, reference);
    CHECK(0.0 <= odds.low);
    CHECK(odds.low <= odds.best);
    CHECK(odds.best <= odds.high);
    CHECK(odds.high <= 1.0);
  }
}

TEST_CASE("a better edge never worsens the lines or the odds", "[strength][property]") {
  const Reference& reference = builtin_reference();
  RandomLite draw;
  for (int i = 0; i < draws; ++i) {
    const EdgeHistory history = draw.history();
    const EdgeDescription edge = draw.edge(reference);
    for (const EdgeFinish& from : reference.edge_finishes) {
      for (const EdgeFinish& to : reference.edge_finishes) {
        if (to.allowable_factor < from.allowable_factor || to.odds_factor < from.odds_factor) continue;
        CAPTURE(i, from.name, to.name, edge.treatment, edge.glass_kind);
        EdgeDescription worse = edge, better = edge;
        worse.finish_bad = worse.finish_middle = from.name;
        better.finish_bad = better.finish_middle = to.name;
        const AllowableStress low = allowable_stress(worse, reference), high = allowable_stress(better, reference);
        CHECK(high.go_pa >= low.go_pa);
        CHECK(high.refer_pa >= low.refer_pa);
        if (i % 20 == 0)
          CHECK(no_worse(breakage_odds(history, better, reference), breakage_odds(history, worse, reference)));
      }
    }
  }
}

TEST_CASE("the finishes stand in one order for the lines and for the odds", "[strength][property]") {
  // So that every pair of finishes is compared above, and "better" means the same for both.
  const Reference& reference = builtin_reference();
  for (const EdgeFinish& a : reference.edge_finishes) {
    for (const EdgeFinish& b : reference.edge_finishes) {
      CAPTURE(a.name, b.name);
      CHECK((a.allowable_factor < b.allowable_factor) == (a.odds_factor < b.odds_factor));
    }
  }
}

TEST_CASE("heat treatment never worsens, thicker and weaker glass never betters", "[strength][property]") {
  const Reference& reference = builtin_reference();
  RandomLite draw;
  for (int i = 0; i < draws; ++i) {
    const EdgeHistory history = draw.history();
    const EdgeDescription edge = draw.edge(reference);
    CAPTURE(i, edge.treatment, edge.glass_kind, edge.thickness_m);
    const auto compare = [&](const EdgeDescription& better, const EdgeDescription& worse) {
      CHECK(allowable_stress(better, reference).go_pa >= allowable_stress(worse, reference).go_pa);
      CHECK(no_worse(breakage_odds(history, better, reference), breakage_odds(history, worse, reference)));
    };
    EdgeDescription annealed = edge, tempered = edge, thicker = edge, plain = edge;
    annealed.treatment = "annealed";
    tempered.treatment = "tempered";
    thicker.thickness_m *= 1.5;
    plain.glass_kind = "float";
    compare(edge, annealed);
    compare(tempered, edge);
    compare(edge, thicker);
    compare(plain, edge);
  }
}

TEST_CASE("more stress, a longer day or a longer edge never lowers the odds", "[strength][property]") {
  const Reference& reference = builtin_reference();
  RandomLite draw;
  for (int i = 0; i < draws; ++i) {
    const EdgeDescription edge = draw.edge(reference);
    const EdgeHistory history = draw.history();
    CAPTURE(i, edge.treatment, edge.glass_kind);
    EdgeHistory hotter = history, longer_day = history, longer_edge = history;
    for (auto& step : hotter.stress_pa) {
      for (double& stress_pa : step) stress_pa += draw.between(0.0, 3e6);
    }
    longer_day.stress_pa.insert(longer_day.stress_pa.end(), history.stress_pa.begin(), history.stress_pa.end());
    for (double& length_m : longer_edge.point_length_m) length_m *= 1.5;
    const Odds odds = breakage_odds(history, edge, reference);
    CHECK(no_worse(odds, breakage_odds(hotter, edge, reference)));
    CHECK(no_worse(odds, breakage_odds(longer_day, edge, reference)));
    CHECK(no_worse(odds, breakage_odds(longer_edge, edge, reference)));
  }
}
