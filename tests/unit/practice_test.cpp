// Practice: what decides an answer, what is offered of it, and what a learner's answers come to.
#include "sunstrain/practice.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "sunstrain/drivers.hpp"
#include "sunstrain/io/csv_rows.hpp"
#include "sunstrain/pane_map.hpp"
#include "sunstrain/report/practice_text.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

Driver driver(const char* key, double ratio) { return {key, DriverRow::Act::given, 1.0, 2.0, ratio, {}, "", ""}; }

Rule rule(const char* id, Severity severity) {
  Rule out;
  out.id = id;
  out.severity = severity;
  return out;
}

// A pane at a ratio of 1 with these verdicts.
Assessment at_one(Verdict figures, Verdict guidance) {
  Assessment a;
  a.figures = figures;
  a.guidance = guidance;
  a.verdict = std::max(figures, guidance);
  a.stress_ratio = 1.0;
  return a;
}

std::string name_of(const Decider& decider) {
  if (const auto* one = std::get_if<Rule>(&decider.what)) return one->id;
  if (const auto* open = std::get_if<OpenRule>(&decider.what)) return open->key;
  return std::get<Driver>(decider.what).key;
}

using Names = std::vector<std::string>;

Names names_of(const std::vector<Decider>& deciders, bool right) {
  Names names;
  for (const Decider& one : deciders)
    if (one.right == right) names.push_back(name_of(one));
  return names;
}

std::vector<Decider> deciders(const Assessment& a, const Names& not_asked = {}) {
  Deck deck;
  deck.not_asked = not_asked;
  return deciders_of(a, deck, reference());
}

}  // namespace

TEST_CASE("Practice: where guidance is stricter than the figures its rules decide", "[practice]") {
  Assessment a = at_one(Verdict::caution, Verdict::refer);
  a.rules = {rule("W1", Severity::refer), rule("X3", Severity::refer), rule("H1", Severity::ask),
             rule("D1", Severity::note)};
  a.drivers = {driver("frame.kind", 0.4), driver("frame.bite", 0.9), driver("unit.spacer", 0.95)};
  CHECK(names_of(deciders(a), true) == Names{"W1", "X3"});
  // A note comes behind the second input, so that it is among those offered.
  CHECK(names_of(deciders(a), false) == Names{"H1", "frame.kind", "frame.bite", "D1", "unit.spacer"});
}

TEST_CASE("Practice: where the figures decide it is the largest effect, and what comes near to it", "[practice]") {
  Assessment a = at_one(Verdict::refer, Verdict::caution);
  a.rules = {rule("H1", Severity::ask)};
  // Effects 0.5, 0.4 (80 % of it, the share of reference/constants.toml) and 0.39; the second makes it worse.
  a.drivers = {driver("frame.kind", 0.5), driver("pane.facing", 1.41), driver("frame.bite", 0.61)};
  CHECK(constant(reference(), "practice_alike_share") == 0.8);
  CHECK(names_of(deciders(a), true) == Names{"frame.kind", "pane.facing"});
  CHECK(names_of(deciders(a), false) == Names{"H1", "frame.bite"});
  // What is not asked about is no measure for the others either.
  CHECK(names_of(deciders(a, {"frame.kind"}), true) == Names{"pane.facing", "frame.bite"});
}

TEST_CASE("Practice: of a caution both count, rules that ask and inputs, and what is not known and decided",
          "[practice]") {
  Assessment a = at_one(Verdict::caution, Verdict::caution);
  a.rules = {rule("H1", Severity::ask)};
  OpenRule open{rule("H7", Severity::ask), "lite.1.kind", std::string("laminated")};
  a.open_rules = {open};
  a.drivers = {driver("frame.kind", 0.2), driver("lite.1.coating", 0.9), driver("lite.1.kind", 0.1)};
  UnknownTaken unknown;
  unknown.key = "lite.1.coating";
  unknown.decided = true;
  a.unknowns = {unknown};
  // The key of the open rule is not offered a second time as an input.
  CHECK(names_of(deciders(a), true) == Names{"H1", "lite.1.kind", "frame.kind", "lite.1.coating"});
  a.verdict = Verdict::go;
  a.figures = a.guidance = Verdict::go;
  CHECK(names_of(deciders(a), true) == Names{"frame.kind"});
}

TEST_CASE("Practice: among those offered there is a right one and a wrong one", "[practice]") {
  std::vector<Decider> all;
  for (const char* key : {"a", "b", "c", "d"}) all.push_back({driver(key, 0.0), true});
  all.push_back({driver("e", 0.0), false});
  std::set<Names> orders;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    RandomStream random(seed, 0);
    const std::vector<Decider> list = offered(all, 5, random);
    CHECK(names_of(list, true).size() == 3);
    CHECK(names_of(list, false) == Names{"e"});
    Names order;
    for (const Decider& one : list) order.push_back(name_of(one));
    orders.insert(order);
  }
  CHECK(orders.size() > 10);
  RandomStream random(1, 0);
  CHECK(offered({}, 5, random).empty());
  all.pop_back();
  CHECK(offered(all, 5, random).size() == 4);
}

TEST_CASE("Practice: an order is one of each, and the seed's", "[practice]") {
  RandomStream one(11, 0), two(11, 0), other(12, 0);
  const std::vector<std::size_t> order = shuffled(50, one);
  CHECK(order == shuffled(50, two));
  CHECK(order != shuffled(50, other));
  CHECK(std::set<std::size_t>(order.begin(), order.end()).size() == 50);
  CHECK(shuffled(0, one).empty());
}

TEST_CASE("Practice: the score counts what was right, which way it was wrong, and by topic", "[practice]") {
  using V = Verdict;
  const std::vector<PracticeResult> results{
      {"a", "season", V::go, V::caution, true},
      {"b", "season", V::refer, V::refer, true},
      {"c", "mirror", V::refer, V::caution, false},
      {"d", "mirror", V::caution, V::caution, false},
      {"e", "spots", {}, {}, true},
      {"f", "mirror", {}, {}, false},
      {"g", "", V::go, V::go, true},
  };
  const PracticeScore score = score_of(results);
  CHECK((score.scenarios == 5 && score.verdicts_right == 3 && score.picks_right == 3));
  CHECK((score.milder == 1 && score.stricter == 1));
  CHECK((score.drills == 2 && score.drills_right == 1));
  REQUIRE(score.topics.size() == 4);
  CHECK((score.topics[0].topic == "mirror" && score.topics[0].asked == 3 && score.topics[0].right == 0));
  CHECK((score.topics[1].topic == "season" && score.topics[1].asked == 2 && score.topics[1].right == 1));
  CHECK((score.topics[2].topic == "spots" && score.topics[3].topic.empty()));
  const std::string text =
      score_text(score, Deck{{{"mirror", "Mirrors", "Look at mirrors."}, {"spots", "Spots", "Look."}}, {}, {}, {}}, {});
  CHECK(says(text,
             {"Milder than the answer: 1", "Stricter than the answer: 1", "Look at mirrors.", "not a qualification"}));
  CHECK(text.find("Look.") == std::string::npos);
  CHECK(says(score_text(score_of({}), {}, {}), {"Nothing was answered", "not a qualification"}));
}

TEST_CASE("Practice: a verdict is a word, its start or its number", "[practice]") {
  CHECK(verdict_answered(" GO ") == Verdict::go);
  CHECK(verdict_answered("c") == Verdict::caution);
  CHECK(verdict_answered("3") == Verdict::refer);
  for (const char* wrong : {"", "4", "0", "gone", "x", "go caution", "12"}) CHECK(!verdict_answered(wrong));
}

TEST_CASE("Practice: a cell that starts like a formula is text", "[practice]") {
  for (const char* cell : {"=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx", "\nx"})
    CHECK(inert_cell(cell) == "'" + std::string(cell));
  for (const char* cell : {"", "a=b", "1", "'=1", " =1"}) CHECK(inert_cell(cell) == cell);
}

TEST_CASE("Practice: the map of a pane is that of the worst hour", "[practice]") {
  const Job job = sound({"glass.panes=1", "shading.pattern=half", "film.solar_absorptance=0.4", "inside.shade=none"});
  const Assessment a = assess(job, reference());
  const LiteFigures& worst = a.lites[a.governing_lite].after;
  const PaneMap map = pane_map(a, reference(), 41, 41);
  REQUIRE(map.columns == 43);
  REQUIRE(map.kelvin.size() == 43 * 43);
  // In the sun the middle is as warm as the answer says, in the shade it is cooler; at the cut edge it is the edge's.
  const double left = map.at(21, 10), right = map.at(21, 32);
  const std::size_t sunny = left > right ? 10 : 32;
  CHECK(map.at(21, sunny) == Approx(worst.center_k).margin(0.3));
  CHECK(std::abs(left - right) > 3.0);
  CHECK(map.at(42, sunny) == Approx(worst.edge_k).margin(0.3));
  CHECK(map.at(0, sunny) < map.at(1, sunny));
  CHECK(map.at(1, sunny) < map.at(21, sunny));
  CHECK(map.side == worst.side);
  CHECK((map.along >= 0.0 && map.along <= 1.0));
}
