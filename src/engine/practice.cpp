#include "sunstrain/practice.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "film_strength.hpp"

namespace sunstrain {
namespace {

constexpr double alike_ratio = 0.02;  // ratios are printed to a hundredth

double effect_of(const Driver& driver, const Assessment& a) { return std::abs(driver.stress_ratio - a.stress_ratio); }

bool brings(const Rule& rule, Verdict verdict) { return verdict_of(rule.severity) == verdict; }

// The rules that speak, but for notes; of one that hangs on what is open also its key is thereby named.
std::vector<Decider> rule_deciders(const Assessment& a, std::vector<std::string>& named_keys) {
  const bool counts = a.verdict != Verdict::go && a.guidance == a.verdict;
  std::vector<Decider> found;
  for (const Rule& rule : a.rules)
    if (rule.severity != Severity::note) found.push_back({rule, counts && brings(rule, a.verdict)});
  for (const OpenRule& open : a.open_rules) {
    if (open.rule.severity == Severity::note) continue;
    named_keys.push_back(open.key);
    found.push_back({open, counts && a.verdict == Verdict::caution});
  }
  return found;
}

bool decided(const Assessment& a, const std::string& key) {
  return std::any_of(a.unknowns.begin(), a.unknowns.end(),
                     [&](const UnknownTaken& unknown) { return unknown.decided && unknown.key == key; });
}

std::vector<Decider> input_deciders(const Assessment& a, const Deck& deck, const Reference& reference,
                                    const std::vector<std::string>& named_keys) {
  const auto skipped = [&](const std::string& key) {
    const auto is = [&](const std::string& name) { return name == key; };
    return std::any_of(deck.not_asked.begin(), deck.not_asked.end(), is) ||
           std::any_of(named_keys.begin(), named_keys.end(), is);
  };
  const bool counts = a.figures == a.verdict;
  const double alike = constant(reference, "practice_alike_share");
  double largest = 0.0;
  std::vector<Decider> found;
  for (const Driver& driver : a.drivers) {
    if (skipped(driver.key)) continue;
    const double effect = effect_of(driver, a);
    largest = std::max(largest, effect);
    found.push_back(
        {driver, counts && (effect >= alike * largest || (a.verdict == Verdict::caution && decided(a, driver.key)))});
  }
  return found;
}

template <class Item>
void shuffle(std::vector<Item>& items, RandomStream& random) {
  for (std::size_t left = items.size(); left > 1; --left) std::swap(items[left - 1], items[random.below(left)]);
}

double ratio_change(const Assessment& scenario, const Assessment& other) {
  return other.stress_ratio - scenario.stress_ratio;
}

bool speaks(const Assessment& a, const std::string& id) {
  return std::any_of(a.rules.begin(), a.rules.end(), [&](const Rule& rule) { return rule.id == id; }) ||
         std::any_of(a.open_rules.begin(), a.open_rules.end(),
                     [&](const OpenRule& open) { return open.rule.id == id; });
}

// Of the lite on which the film lies the worst of what it takes up; the sheet's share beside the bare lite's.
bool shares_do_not_add(const Assessment& a) {
  const auto sheet = internal::stated_absorptance(a.bad_end);
  if (!sheet) return false;
  double before = 0.0, after = 0.0, added = 0.0;
  for (const LiteResult& lite : a.lites) {
    const double more = lite.after.absorbed_fraction - lite.before.absorbed_fraction;
    if (more < added) continue;
    added = more;
    before = lite.before.absorbed_fraction;
    after = lite.after.absorbed_fraction;
  }
  return after <= before + *sheet - alike_ratio;
}

bool comparison_holds(Claim::Says says, const Assessment& scenario, const Assessment& other) {
  using Says = Claim::Says;
  const double change = ratio_change(scenario, other);
  switch (says) {
    case Says::ratio_higher:
      return change >= alike_ratio;
    case Says::ratio_lower:
      return change <= -alike_ratio;
    case Says::ratio_alike:
      return std::abs(change) < alike_ratio;
    case Says::verdict_better:
      return other.verdict < scenario.verdict;
    case Says::verdict_worse:
      return other.verdict > scenario.verdict;
    case Says::verdict_same:
      return other.verdict == scenario.verdict;
    default:
      throw std::logic_error("a claim about one answer was asked of two");
  }
}

}  // namespace

std::vector<Decider> deciders_of(const Assessment& a, const Deck& deck, const Reference& reference) {
  constexpr std::size_t before_note = 2;  // of the inputs that did not decide
  std::vector<std::string> named_keys;
  std::vector<Decider> all = rule_deciders(a, named_keys);
  std::vector<Decider> notes;
  for (const Rule& rule : a.rules)
    if (rule.severity == Severity::note) notes.push_back({rule, false});
  std::size_t wrong = 0;
  const auto take_note = [&] {
    if (notes.empty()) return;
    all.push_back(notes.back());
    notes.pop_back();
  };
  for (const Decider& input : input_deciders(a, deck, reference, named_keys)) {
    if (!input.right && wrong++ == before_note) take_note();
    all.push_back(input);
  }
  all.insert(all.end(), notes.rbegin(), notes.rend());
  std::stable_partition(all.begin(), all.end(), [](const Decider& one) { return one.right; });
  return all;
}

std::vector<Decider> offered(const std::vector<Decider>& deciders, std::size_t most, RandomStream& random) {
  const auto wrong = std::find_if(deciders.begin(), deciders.end(), [](const Decider& one) { return !one.right; });
  const auto rights = static_cast<std::size_t>(wrong - deciders.begin());
  const std::size_t room_for_right = wrong == deciders.end() ? most : (most + 1) / 2;
  std::vector<Decider> out(deciders.begin(),
                           deciders.begin() + static_cast<std::ptrdiff_t>(std::min(rights, room_for_right)));
  for (auto one = wrong; one != deciders.end() && out.size() < most; ++one) out.push_back(*one);
  shuffle(out, random);
  return out;
}

std::vector<std::size_t> shuffled(std::size_t count, RandomStream& random) {
  std::vector<std::size_t> order(count);
  for (std::size_t i = 0; i < count; ++i) order[i] = i;
  shuffle(order, random);
  return order;
}

bool claim_holds(const Claim& claim, const Assessment& scenario, const Assessment* comparison) {
  if (comparison != nullptr) return comparison_holds(claim.says, scenario, *comparison);
  const LiteFigures& worst = scenario.lites[scenario.governing_lite].after;
  switch (claim.says) {
    case Claim::Says::rule:
      return speaks(scenario, claim.rule);
    case Claim::Says::cold_clear_day:
      return worst.when.day == DayKind::cold_clear;
    case Claim::Says::outer_lite:
      return scenario.lites.size() > 1 && scenario.governing_lite == 0;
    case Claim::Says::shares_do_not_add:
      return shares_do_not_add(scenario);
    case Claim::Says::film_adds_little:
      return scenario.film_adds_little;
    default:
      throw std::logic_error("a claim about two answers was asked of one");
  }
}

PracticeScore score_of(std::span<const PracticeResult> results) {
  PracticeScore score;
  for (const PracticeResult& result : results) {
    if (result.verdict) {
      ++score.scenarios;
      score.verdicts_right += result.answered == result.verdict ? 1 : 0;
      score.picks_right += result.picked_right ? 1 : 0;
      score.milder += result.answered < result.verdict ? 1 : 0;
      score.stricter += result.answered > result.verdict ? 1 : 0;
    } else {
      ++score.drills;
      score.drills_right += result.picked_right ? 1 : 0;
    }
    auto topic = std::find_if(score.topics.begin(), score.topics.end(),
                              [&](const TopicScore& one) { return one.topic == result.topic; });
    if (topic == score.topics.end()) topic = score.topics.insert(topic, {result.topic});
    ++topic->asked;
    topic->right += result.right() ? 1 : 0;
  }
  // By the share that is right: r1/a1 < r2/a2.
  std::stable_sort(score.topics.begin(), score.topics.end(),
                   [](const TopicScore& x, const TopicScore& y) { return x.right * y.asked < y.right * x.asked; });
  return score;
}

}  // namespace sunstrain
