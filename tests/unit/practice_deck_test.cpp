// The deck to practice with, against the engine: what its lessons say of the figures holds, and it is a fair deck.
#include "sunstrain/io/practice_deck.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "sunstrain/drivers.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

const Deck& deck() { return builtin_deck(); }

struct Worked {
  Assessment answer;
  std::vector<Decider> deciders;
};

Worked worked(const Job& job) {
  ChainCache cache;
  Assessment answer = assess(job, reference(), cache);
  answer.drivers = drivers_of(answer, reference(), cache);
  std::vector<Decider> deciders = deciders_of(answer, deck(), reference());
  return {std::move(answer), std::move(deciders)};
}

// Worked once for all tests.
const std::vector<Worked>& all_worked() {
  static const std::vector<Worked> all = [] {
    std::vector<Worked> out;
    for (const Scenario& scenario : deck().scenarios) out.push_back(worked(scenario.job));
    return out;
  }();
  return all;
}

std::string name_of(const Decider& decider) {
  if (const auto* rule = std::get_if<Rule>(&decider.what)) return rule->id;
  if (const auto* open = std::get_if<OpenRule>(&decider.what)) return open->rule.id + " " + open->key;
  return std::get<Driver>(decider.what).key;
}

const std::string topic_row = "not_asked = [\"pane.width\"]\n[[topic]]\nid = \"t\"\nname = \"n\"\nagain = \"a\"\n";
const std::string drill_row =
    "[[drill]]\nid = \"d\"\ntitle = \"t\"\ntopic = \"t\"\nsee = \"s\"\nask = \"a\"\nright = \"r\"\nwrong = [\"1\", "
    "\"2\", \"3\"]\nproves = \"p\"\nproves_not = \"n\"\nsource = \"common practice, no source\"\ncertainty = \"common "
    "practice\"\n";
const std::string window_job =
    "'''\npane = { width = \"1 m\", height = \"1 m\" }\nfilm = { solar_absorptance = 0.3 }\n'''";

std::string window_row(const std::string& job, const std::string& claims, const std::string& topic = "t") {
  return "[[scenario]]\nid = \"w\"\ntitle = \"t\"\ntopic = \"" + topic + "\"\nsee = \"s\"\njob = " + job + "\n" +
         claims + "\nlesson = \"l\"\nsource = \"s\"\ncertainty = \"judgement\"\n";
}

std::string deck_refusal(const std::string& rows) {
  return refusal([&] { load_deck("deck.toml", topic_row + rows, reference()); });
}

}  // namespace

TEST_CASE("Practice: the deck is large enough, and every mistake has a window", "[practice]") {
  CHECK(deck().scenarios.size() >= 40);
  CHECK(deck().drills.size() >= 12);
  std::set<std::string> with_window, with_anything;
  for (const Scenario& scenario : deck().scenarios) with_window.insert(scenario.topic);
  for (const Drill& drill : deck().drills)
    CHECK(std::set<std::string>(drill.wrong.begin(), drill.wrong.end()).size() == 3);
  // The mistakes that beginners make: common practice, no source.
  constexpr std::array<const char*, 18> mistakes{
      "no-mark",        "spots",           "darkness",    "mirror",         "half-cover",        "season",
      "unit-thickness", "inner-only",      "no-fog",      "film-fogged-it", "chip-in-tolerance", "who-agrees",
      "deep-in-wall",   "blind-part-down", "crack-found", "one-crack",      "adding-shares",     "makers-no"};
  for (const char* mistake : mistakes) {
    INFO(mistake);
    CHECK(with_window.contains(mistake));
  }
  for (const PracticeTopic& topic : deck().topics) {
    INFO(topic.id);
    CHECK(with_window.contains(topic.id));
  }
}

TEST_CASE("Practice: what each lesson claims, the engine says", "[practice][slow]") {
  for (std::size_t i = 0; i < deck().scenarios.size(); ++i) {
    const Scenario& scenario = deck().scenarios[i];
    const Assessment& answer = all_worked()[i].answer;
    INFO(scenario.id);
    for (const Claim& claim : scenario.claims) {
      INFO("claim " << static_cast<int>(claim.says) << " " << claim.rule);
      CHECK(claim_holds(claim, answer));
    }
    for (const Comparison& comparison : scenario.compare) {
      ChainCache cache;
      const Assessment other = assess_briefly(comparison.job, reference(), cache);
      for (const Claim& claim : comparison.claims) {
        INFO(comparison.say << ": " << answer.stress_ratio << " -> " << other.stress_ratio << ", claim "
                            << static_cast<int>(claim.says));
        CHECK(claim_holds(claim, answer, &other));
      }
    }
  }
}

TEST_CASE("Practice: every verdict is common, and no one thing decides most windows", "[practice][slow]") {
  std::map<Verdict, int> verdicts;
  std::map<std::string, int> deciders;
  for (const Worked& one : all_worked()) {
    ++verdicts[one.answer.verdict];
    for (const Decider& decider : one.deciders)
      if (decider.right) ++deciders[name_of(decider)];
  }
  for (const Verdict verdict : {Verdict::go, Verdict::caution, Verdict::refer}) CHECK(verdicts[verdict] >= 10);
  CHECK(deciders.size() >= 25);
  for (const auto& [name, count] : deciders) {
    INFO(name << " decides " << count);
    CHECK(4 * count <= static_cast<int>(deck().scenarios.size()));
  }
}

TEST_CASE("Practice: every window has a right answer among others that are not", "[practice][slow]") {
  for (std::size_t i = 0; i < deck().scenarios.size(); ++i) {
    INFO(deck().scenarios[i].id);
    RandomStream random(7, i);
    const std::vector<Decider> list = offered(all_worked()[i].deciders, 5, random);
    const auto right = std::count_if(list.begin(), list.end(), [](const Decider& one) { return one.right; });
    CHECK(list.size() >= 3);
    CHECK(right >= 1);
    CHECK(right < static_cast<int>(list.size()));
    std::set<std::string> names;
    for (const Decider& one : list) names.insert(name_of(one));
    CHECK(names.size() == list.size());
  }
}

TEST_CASE("Practice: a deck that cannot be is refused in one line", "[practice]") {
  const std::string claim = "claims = [\"rule W2\"]";
  CHECK(deck_refusal(window_row(window_job, claim) + drill_row).empty());
  CHECK(says(deck_refusal(window_row("'''\npane = { width = \"1 m\" }\n'''", claim) + drill_row),
             {"deck.toml, scenario 1 (w)", "pane.height"}));
  CHECK(says(deck_refusal(window_row(window_job, "claims = [\"rule Z9\"]") + drill_row), {"Z9", "rule and its id"}));
  CHECK(says(deck_refusal(window_row(window_job, "claims = [\"ratio higher\"]") + drill_row), {"cold clear day"}));
  CHECK(says(deck_refusal(window_row(window_job, "") + drill_row), {"a test can hold the lesson to"}));
  CHECK(says(deck_refusal(window_row(window_job, claim, "u") + drill_row), {"topic", "none of the topics"}));
  const std::string compare = "compare = [{ say = \"x\", set = [\"pane.widht=2 m\"], claims = [\"ratio higher\"] }]";
  CHECK(says(deck_refusal(window_row(window_job, compare) + drill_row), {"pane.width"}));
  CHECK(says(deck_refusal(window_row(window_job, claim) + window_row(window_job, claim) + drill_row), {"twice"}));
  std::string two = drill_row;
  two.replace(two.find(", \"3\""), 5, "");
  CHECK(says(deck_refusal(window_row(window_job, claim) + two), {"three answers"}));
}

TEST_CASE("Practice: a trainer's job file is a window", "[practice]") {
  const char* toml =
      "[job]\nname = \"Our own\"\nnote = \"As one sees it.\"\n[pane]\nwidth = \"1 m\"\nheight = \"1 m\"\n[film]\n"
      "solar_absorptance = 0.3\n";
  const Scenario own = scenario_of_job("crew/our window.toml", toml, reference());
  CHECK(own.id == "our window");
  CHECK(own.title == "Our own");
  CHECK(own.see == "As one sees it.");
  CHECK(own.topic.empty());
  CHECK(scenario_of_job("a.toml", "[pane]\nwidth = \"1 m\"\nheight = \"1 m\"\n[film]\nsolar_absorptance = 0.3\n",
                        reference())
            .title == "a");
  CHECK(says(refusal([&] { scenario_of_job("b.toml", "[pane]\nwidth = \"1 m\"\n", reference()); }),
             {"b.toml", "height"}));
  CHECK(says(refusal([&] { scenario_of_job("c.toml", std::string("weather = \"x.epw\"\n") + toml, reference()); }),
             {"c.toml: weather"}));
}
