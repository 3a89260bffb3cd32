// Practice at windows of our own invention: what the right answer to one is, which of several things decides there, and
// what a learner's answers come to. The deck is data (reference/practice.toml) without answers: the engine gives them.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/sobol.hpp"

namespace sunstrain {

// A mistake that is often made.
struct PracticeTopic {
  std::string id;     // "no-mark"
  std::string name;   // the mistake as one says it
  std::string again;  // what to look at again
};

// What a lesson says of the figures, so that a test can hold it to them.
struct Claim {
  enum class Says {
    rule,               // the rule `rule` speaks, or would for one reading of what is open
    cold_clear_day,     // the worst hour with film is on a cold clear day
    outer_lite,         // the worst lite with film is the outdoor one
    shares_do_not_add,  // the filmed lite takes up less than its own share and the sheet's together, by 0.02 and more
    film_adds_little,   // Assessment::film_adds_little
    ratio_higher,       // of a comparison against the scenario: by 0.02 and more
    ratio_lower,
    ratio_alike,  // within 0.02
    verdict_better,
    verdict_worse,
    verdict_same
  };
  Says says = Says::rule;
  std::string rule;
};

// The same window with something changed.
struct Comparison {
  std::string say;  // "with the darker film"
  Job job;
  std::vector<Claim> claims;  // one or more
};

struct Scenario {
  std::string id, title, topic;  // topic: of a PracticeTopic; empty of one that a trainer added
  std::string see;               // what one sees and is told; the job's values stand beside it
  Job job;
  std::vector<Comparison> compare;
  std::vector<Claim> claims;
  std::string lesson;
  Source source;
};

// What is this glass? One of four. Its right answer is knowledge of the trade and no figure, so that it is data.
struct Drill {
  std::string id, title, topic;
  std::string see, ask, right;
  std::vector<std::string> wrong;  // three
  std::string proves, proves_not;  // what the observation shows, and what it does not
  Source source;
};

struct Deck {
  std::vector<PracticeTopic> topics;
  std::vector<Scenario> scenarios;
  std::vector<Drill> drills;
  std::vector<std::string> not_asked;  // job keys that are never offered as what decides
};

// One thing that may decide an answer: a rule that speaks, one that would for a reading of what is open, or an input.
struct Decider {
  std::variant<Rule, OpenRule, Driver> what;
  bool right = false;
};

// Everything that may be offered for this answer: right ones first, then rules that ask or refer, then inputs by their
// effect, with one of the rules that are notes behind the second, the other notes last.
//
// Where guidance is stricter than the figures, the rules decided: right are all that bring the verdict. Else the
// figures decided (a go included): right is the driver of the largest effect on the ratio (drivers.hpp), and every
// other of at least `practice_alike_share` (reference constants) of that effect, and, of a caution, a key that is not
// known and decided (UnknownTaken::decided); rules that bring the same verdict are right beside them. Not offered: keys
// of deck.not_asked, and an open rule's key a second time. `assessment` with its drivers (drivers_of).
std::vector<Decider> deciders_of(const Assessment& assessment, const Deck& deck, const Reference& reference);

// At most `most` (2 and more) of them: right ones first in line, but always a wrong one where there is any; shuffled.
std::vector<Decider> offered(const std::vector<Decider>& deciders, std::size_t most, RandomStream& random);

// 0 .. count - 1, shuffled.
std::vector<std::size_t> shuffled(std::size_t count, RandomStream& random);

// Whether the claim holds of the scenario's answer, or of a comparison's beside it. Throws std::logic_error where a
// claim about two answers has one.
bool claim_holds(const Claim& claim, const Assessment& scenario, const Assessment* comparison = nullptr);

// One item as it was answered.
struct PracticeResult {
  std::string item, topic;
  std::optional<Verdict> answered, verdict;  // of a scenario; nothing of a drill
  bool picked_right = false;                 // what decides; of a drill the answer
  bool right() const { return answered == verdict && picked_right; }
};

struct TopicScore {
  std::string topic;
  int asked = 0, right = 0;  // wholly
};

struct PracticeScore {
  int scenarios = 0, verdicts_right = 0, picks_right = 0;
  int milder = 0, stricter = 0;  // than the answer: a verdict that is milder is the one that breaks glass
  int drills = 0, drills_right = 0;
  std::vector<TopicScore> topics;  // those that came up, the least well answered first, then as they came
};

PracticeScore score_of(std::span<const PracticeResult> results);

}  // namespace sunstrain
