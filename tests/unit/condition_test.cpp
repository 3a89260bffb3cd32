#include "sunstrain/condition.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "sunstrain/reference.hpp"

using namespace sunstrain;
using Kind = Condition::Kind;

namespace {

Condition word(Kind kind, const char* fact, std::vector<std::string> words) {
  return {.kind = kind, .fact = fact, .words = std::move(words), .limit = 0.0, .parts = {}};
}
Condition number(Kind kind, const char* fact, double limit) {
  return {.kind = kind, .fact = fact, .words = {}, .limit = limit, .parts = {}};
}
Condition group(Kind kind, std::vector<Condition> parts) {
  return {.kind = kind, .fact = "", .words = {}, .limit = 0.0, .parts = std::move(parts)};
}
Condition is(const char* fact, const char* value) { return word(Kind::is, fact, {value}); }

const Facts one_lite{{"glass.panes", "1"}, {"lite.1.kind", "float"}, {"frame.bite", 0.0127}, {"frame.kind", "wood"}};

}  // namespace

TEST_CASE("a test on a word says yes, no or cannot tell", "[condition]") {
  CHECK(holds({}, {}) == Truth::yes);
  CHECK(holds(is("frame.kind", "wood"), one_lite) == Truth::yes);
  CHECK(holds(is("frame.kind", "vinyl"), one_lite) == Truth::no);
  CHECK(holds(is("frame.color", "white"), one_lite) == Truth::cannot_tell);
  CHECK(holds(word(Kind::is, "frame.kind", {"vinyl", "wood"}), one_lite) == Truth::yes);
  CHECK(holds(word(Kind::is_not, "frame.kind", {"wood"}), one_lite) == Truth::no);
  CHECK(holds(word(Kind::is_not, "frame.kind", {"vinyl"}), one_lite) == Truth::yes);
  CHECK(holds(word(Kind::is_not, "frame.color", {"white"}), one_lite) == Truth::cannot_tell);
}

TEST_CASE("a limit itself is met by at_least and at_most only", "[condition]") {
  const double at = 0.0127;
  CHECK(holds(number(Kind::at_least, "frame.bite", at), one_lite) == Truth::yes);
  CHECK(holds(number(Kind::at_most, "frame.bite", at), one_lite) == Truth::yes);
  CHECK(holds(number(Kind::above, "frame.bite", at), one_lite) == Truth::no);
  CHECK(holds(number(Kind::below, "frame.bite", at), one_lite) == Truth::no);
  CHECK(holds(number(Kind::above, "frame.bite", 0.0126), one_lite) == Truth::yes);
  CHECK(holds(number(Kind::below, "frame.bite", 0.0128), one_lite) == Truth::yes);
  CHECK(holds(number(Kind::below, "inside.gap", 0.05), one_lite) == Truth::cannot_tell);
}

TEST_CASE("known and not_known always have an answer", "[condition]") {
  CHECK(holds(word(Kind::known, "frame.kind", {}), one_lite) == Truth::yes);
  CHECK(holds(word(Kind::known, "frame.color", {}), one_lite) == Truth::no);
  CHECK(holds(word(Kind::not_known, "frame.kind", {}), one_lite) == Truth::no);
  CHECK(holds(word(Kind::not_known, "frame.color", {}), one_lite) == Truth::yes);
}

TEST_CASE("groups follow Kleene's tables", "[condition]") {
  const Condition yes = is("frame.kind", "wood"), no = is("frame.kind", "vinyl"), unknown = is("frame.color", "white");
  const Truth t = Truth::yes, f = Truth::no, u = Truth::cannot_tell;
  const Condition parts[3] = {yes, no, unknown};
  // Kleene 1952, strong logic of indeterminacy: rows and columns yes, no, unknown.
  const Truth conjunction[3][3] = {{t, f, u}, {f, f, f}, {u, f, u}};
  const Truth disjunction[3][3] = {{t, t, t}, {t, f, u}, {t, u, u}};
  const Truth neither[3][3] = {{f, f, f}, {f, t, u}, {f, u, u}};
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {
      CAPTURE(i, j);
      CHECK(holds(group(Kind::all, {parts[i], parts[j]}), one_lite) == conjunction[i][j]);
      CHECK(holds(group(Kind::any, {parts[i], parts[j]}), one_lite) == disjunction[i][j]);
      CHECK(holds(group(Kind::none, {parts[i], parts[j]}), one_lite) == neither[i][j]);
    }
  }
  CHECK(holds(group(Kind::all, {}), {}) == Truth::yes);
  CHECK(holds(group(Kind::any, {}), {}) == Truth::no);
  CHECK(holds(group(Kind::none, {}), {}) == Truth::yes);
  CHECK(holds(group(Kind::all, {yes, group(Kind::none, {no, group(Kind::all, {yes, unknown})})}), one_lite) == u);
}

TEST_CASE("a star asks whether any lite meets the test", "[condition]") {
  const Condition wired = is("lite.*.kind", "wired");
  CHECK(holds(wired, one_lite) == Truth::no);
  CHECK(holds(wired, {{"glass.panes", "2"}, {"lite.1.kind", "float"}}) == Truth::cannot_tell);
  CHECK(holds(wired, {{"glass.panes", 2.0}, {"lite.1.kind", "float"}}) == Truth::cannot_tell);
  CHECK(holds(wired, {{"glass.panes", "2"}, {"lite.2.kind", "wired"}}) == Truth::yes);
  CHECK(holds(wired, {{"glass.panes", "2"}, {"lite.1.kind", "float"}, {"lite.2.kind", "float"}}) == Truth::no);
  // Panes not counted: another lite may be there.
  CHECK(holds(wired, {{"lite.1.kind", "float"}}) == Truth::cannot_tell);
  CHECK(holds(wired, {{"lite.1.kind", "wired"}}) == Truth::yes);
  CHECK(holds(wired, {}) == Truth::cannot_tell);
}

TEST_CASE("a unit has one cavity less than it has panes", "[condition]") {
  const Condition argon = is("cavity.*.gas", "argon");
  CHECK(holds(argon, {{"glass.panes", "1"}}) == Truth::no);
  CHECK(holds(argon, {{"glass.panes", "2"}, {"cavity.1.gas", "air"}}) == Truth::no);
  CHECK(holds(argon, {{"glass.panes", "3"}, {"cavity.1.gas", "air"}}) == Truth::cannot_tell);
  CHECK(holds(argon, {{"glass.panes", "3"}, {"cavity.2.gas", "argon"}}) == Truth::yes);
}

TEST_CASE("known with a star", "[condition]") {
  const Condition known = word(Kind::known, "lite.*.tint", {}), not_known = word(Kind::not_known, "lite.*.tint", {});
  const Facts first{{"glass.panes", "2"}, {"lite.1.tint", "clear"}};
  CHECK(holds(known, first) == Truth::yes);
  CHECK(holds(not_known, first) == Truth::yes);  // of lite 2
  CHECK(holds(not_known, {{"glass.panes", "1"}, {"lite.1.tint", "clear"}}) == Truth::no);
  CHECK(holds(known, {}) == Truth::no);
  CHECK(holds(not_known, {}) == Truth::yes);
  CHECK(holds(not_known, {{"lite.1.kind", "float"}}) == Truth::yes);
}

TEST_CASE("a number compared with words is a fault of the tables", "[condition]") {
  CHECK_THROWS_AS(holds(is("frame.bite", "deep"), one_lite), std::logic_error);
  CHECK_THROWS_AS(holds(number(Kind::above, "frame.kind", 1.0), one_lite), std::logic_error);
}

TEST_CASE("key_pattern puts a star where a count stands", "[job]") {
  CHECK(key_pattern("lite.2.tint") == "lite.*.tint");
  CHECK(key_pattern("lite.12.tint") == "lite.*.tint");
  CHECK(key_pattern("pane.width") == "pane.width");
  CHECK(key_pattern("lite.0.tint") == "lite.0.tint");
  CHECK(key_pattern("lite.01.tint") == "lite.01.tint");
  CHECK(key_pattern("lite.1a.tint") == "lite.1a.tint");
  CHECK(key_pattern("lite..tint") == "lite..tint");
  CHECK(key_pattern("") == "");
}

TEST_CASE("number_of and word_of tell absent from wrong", "[job]") {
  const Job job{.source = "test", .values = {{"pane.width", 0.9}, {"frame.kind", "wood"}}};
  CHECK(number_of(job, "pane.width") == 0.9);
  CHECK(word_of(job, "frame.kind") == "wood");
  CHECK_FALSE(number_of(job, "pane.height").has_value());
  CHECK_FALSE(word_of(job, "frame.color").has_value());
  CHECK_THROWS_AS(number_of(job, "frame.kind"), std::logic_error);
  CHECK_THROWS_AS(word_of(job, "pane.width"), std::logic_error);
}

TEST_CASE("constants and rows are found by name", "[reference]") {
  Reference reference;
  reference.constants["fatigue_n"] = {16.0, "-", "", {}};
  reference.glass_kinds = {{"float", 1.0, {}}, {"wired", 0.55, {}}};
  CHECK(constant(reference, "fatigue_n") == 16.0);
  CHECK_THROWS_AS(constant(reference, "fatigue"), std::out_of_range);
  CHECK_THROWS_WITH(constant(reference, "fatigue"), Catch::Contains("fatigue"));
  CHECK(row_named(reference.glass_kinds, "wired").allowable_factor == 0.55);
  CHECK_THROWS_WITH(row_named(reference.glass_kinds, "opal"), Catch::Contains("float, wired"));
}
