// Whatever rules a user adds, no answer gets better than without them, and nothing of the figures moves.
#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

// A condition drawn at random, up to three levels deep.
std::string condition(std::mt19937& random, int depth) {
  const auto pick = [&](int count) { return static_cast<int>(random() % static_cast<unsigned>(count)); };
  if (depth > 0 && pick(2) == 0) {
    const std::string parts = condition(random, depth - 1) + ", " + condition(random, depth - 1);
    return std::string("{ ") + std::array{"all", "any", "none"}[static_cast<std::size_t>(pick(3))] + " = [" + parts +
           "] }";
  }
  static constexpr std::array tests{
      R"({ fact = "frame.kind", is = "vinyl" })",
      R"({ fact = "frame.kind", is_not = "wood" })",
      R"({ fact = "frame.kind", known = false })",
      R"({ fact = "lite.*.tint", among = ["gray", "green"] })",
      R"({ fact = "pane.height", above = "1.2 m" })",
      R"({ fact = "history.years_in_place", at_least = "5 years" })",
      R"({ fact = "figure.filmed_absorbed", at_most = 0.5 })",
      R"({ fact = "figure.stress_added_pa", below = 3e6 })",
      R"({ fact = "figure.over_line_without_film", is = "yes" })",
  };
  return tests[static_cast<std::size_t>(pick(static_cast<int>(tests.size())))];
}

std::string rules(std::mt19937& random, int count) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    const char* severity = std::array{"note", "ask", "refer"}[random() % 3];
    text += "[[rule]]\nid = \"Q" + std::to_string(i) + "\"\nseverity = \"" + severity +
            "\"\ntext = \"t\"\nwhen = " + condition(random, 3) + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("with any own rules the verdict is never better than without, and the figures are the same", "[slow]") {
  std::mt19937 random(7);
  int stricter = 0;
  for (const auto& changes : std::initializer_list<std::initializer_list<const char*>>{
           {"film.solar_transmittance=0.75"},
           {"film.solar_transmittance=0.75", "frame.kind=unknown"},
           {"film.solar_transmittance=0.70", "lite.2.tint=gray", "site.place=houston"},
           {"film.solar_transmittance=0.75", "edge.finish=damaged"},
           {"film.solar_transmittance=0.20"}}) {
    const Job job = test::complete_double(changes);
    const Assessment plain = assess(job, builtin_reference());
    for (int round = 0; round < 6; ++round) {
      const std::string text = rules(random, 1 + round % 3);
      CAPTURE(text);
      const Assessment own = assess(job, with_own_rules(builtin_reference(), "own.toml", text));
      CHECK(own.verdict >= plain.verdict);
      CHECK(own.guidance >= plain.guidance);
      CHECK(own.figures == plain.figures);
      CHECK(own.stress_ratio == plain.stress_ratio);
      std::vector<std::string> kept;
      for (const Rule& rule : own.rules)
        if (!rule.users_own) kept.push_back(rule.id);
      std::vector<std::string> before;
      for (const Rule& rule : plain.rules) before.push_back(rule.id);
      CHECK(kept == before);
      if (own.verdict > plain.verdict) ++stricter;
    }
  }
  CHECK(stricter > 0);
}
