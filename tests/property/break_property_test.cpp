// What must hold of any report on a cracked pane.
#include <catch2/catch.hpp>
#include <random>

#include "sunstrain/job_keys.hpp"
#include "support/break_tables.hpp"

using namespace break_report;

namespace {

using Random = std::mt19937;

std::size_t below(std::size_t count, Random& random) {
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
}

Value any_value(const JobKey& key, Random& random) {
  if (key.kind == JobKey::Kind::choice) return key.choices[below(key.choices.size(), random)];
  if (key.kind == JobKey::Kind::date) return std::string("2025-01-20");
  return std::uniform_real_distribution<double>(key.minimum, key.maximum)(random);
}

// Each key known with that chance, over a crack square to edge and face or over nothing; combinations that a reader
// would refuse too: the rules must bear them.
Observations any_report(double chance, Random& random) {
  Observations seen{"random", {}};
  if (std::bernoulli_distribution(0.5)(random))
    for (const char* key : {"origin.angle_to_edge", "origin.angle_to_face"}) settle(seen, key, 1.5);
  for (const JobKey& key : tables().form.job_keys)
    if (key.about_glass && std::bernoulli_distribution(chance)(random)) settle(seen, key.name, any_value(key, random));
  return seen;
}

std::vector<Clue> any_clues(Random& random) {
  std::vector<Clue> clues;
  for (std::size_t count = below(6, random); count > 0; --count)
    clues.push_back(tables().clues[below(tables().clues.size(), random)]);
  return clues;
}

Clue clue_that(Clue::Speaks speaks, Clue::Weight weight) {
  Clue clue;
  clue.speaks = speaks;
  clue.weight = weight;
  return clue;
}

constexpr int rounds = 2000;

}  // namespace

TEST_CASE("Break property: one more clue never moves the result the other way", "[break]") {
  using S = Clue::Speaks;
  Random random(1);
  std::size_t moved = 0;
  for (int i = 0; i < rounds; ++i) {
    std::vector<Clue> clues = any_clues(random);
    const BreakResult before = result_of(clues, tables());
    const auto weight = static_cast<Clue::Weight>(below(3, random));
    for (const S speaks : {S::for_heat, S::against_heat, S::of_weak_edge, S::of_nothing}) {
      std::vector<Clue> more = clues;
      more.insert(more.begin() + static_cast<std::ptrdiff_t>(below(clues.size() + 1, random)),
                  clue_that(speaks, weight));
      const BreakResult after = result_of(more, tables());
      if (speaks == S::against_heat) CHECK(after <= before);
      if (speaks == S::for_heat) CHECK(after >= before);
      if (speaks == S::of_weak_edge || speaks == S::of_nothing) CHECK(after == before);
      moved += after != before ? 1 : 0;
    }
    std::shuffle(clues.begin(), clues.end(), random);
    CHECK(result_of(clues, tables()) == before);
  }
  CHECK(moved > 100);
}

TEST_CASE("Break property: consistent has none against it, not consistent no strong one for it", "[break]") {
  Random random(2);
  std::array<int, 3> seen_results{};
  for (int i = 0; i < rounds; ++i) {
    const BreakReading reading = read_break(any_report(0.3, random), tables());
    ++seen_results.at(static_cast<std::size_t>(reading.result));
    for (const Clue& clue : reading.clues) {
      const bool against = clue.speaks == Clue::Speaks::against_heat;
      const bool strong_for = clue.speaks == Clue::Speaks::for_heat && clue.weight >= Clue::Weight::strong;
      CHECK_FALSE((reading.result == BreakResult::consistent && against));
      CHECK_FALSE((reading.result == BreakResult::not_consistent && strong_for));
    }
  }
  for (const int count : seen_results) CHECK(count > 10);
}

TEST_CASE("Break property: every observation is told once, known or not", "[break]") {
  Random random(3);
  for (int i = 0; i < 200; ++i) {
    const Observations seen = any_report(0.5, random);
    const BreakReading reading = read_break(seen, tables());
    for (const std::string& key : reading.not_known) CHECK_FALSE(seen.values.contains(key));
    for (const std::string& key : reading.silent) CHECK(seen.values.contains(key));
    for (const JobKey& key : tables().form.job_keys) {
      if (!key.about_glass || speaks_of(seen, key.name)) continue;
      const bool told =
          std::find(reading.not_known.begin(), reading.not_known.end(), key.name) != reading.not_known.end();
      CHECK(told == (key_applies(key, key.name, seen.values) != Truth::no));
    }
  }
}

TEST_CASE("Break property: what would settle it does", "[break]") {
  Random random(4);
  std::size_t tried = 0;
  for (int i = 0; i < 300; ++i) {
    const Observations seen = any_report(0.3, random);
    const BreakReading reading = read_break(seen, tables());
    for (const Settling& one : reading.would_settle) {
      Observations with = seen;
      settle(with, one.key, one.value);
      CHECK(read_break(with, tables()).result == one.result);
      CHECK(one.result != reading.result);
      ++tried;
    }
  }
  CHECK(tried > 300);
}

TEST_CASE("Break property: a fork farther out is never more stress, and no fork over a longer way neither", "[break]") {
  for (const char* name : {"first fork", "no fork"}) {
    const StressSign& sign = sign_named(name);
    StressRange last = stress_from_length(sign, 0.001);
    for (double length = 0.002; length < 5.0; length *= 1.1) {
      const StressRange here = stress_from_length(sign, length);
      CHECK(here.most_pa <= last.most_pa);
      CHECK(here.least_pa <= last.least_pa);
      CHECK(here.least_pa <= here.likely_pa);
      CHECK(here.likely_pa <= here.most_pa);
      last = here;
    }
    CHECK(last.most_pa < 0.5 * stress_from_length(sign, 0.001).most_pa);
  }
}
