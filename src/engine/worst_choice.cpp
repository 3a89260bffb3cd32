// The worst plausible values together: a climb over the unknowns on a scout's rough ratios, then the last of the way on
// close ones.
#include <algorithm>
#include <set>
#include <utility>

#include "chain_cache.hpp"
#include "scout.hpp"
#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

// A choice with one key changed.
struct Change {
  std::string key;
  std::size_t candidate;
  Choice choice;
};

// The choice with each other candidate of a key.
std::vector<Change> changes_of(const Choice& choice, const OpenKey& open) {
  const auto taken = choice.find(open.key);
  const std::size_t now = taken == choice.end() ? 0 : taken->second;
  std::vector<Change> changes;
  for (std::size_t i = 0; i < open.candidates.size(); ++i) {
    if (i == now) continue;
    changes.push_back({open.key, i, choice});
    changes.back().choice[open.key] = i;
  }
  return changes;
}

class Climb {
 public:
  Climb(const Job& job, const Reference& reference, ChainCache& cache, Scout& scout)
      : job_(job), reference_(reference), cache_(cache), scout_(scout), worst_(scout.about(job, {})) {}

  Choice top() {
    constexpr int most_rounds = 8;
    singly("");
    for (int round = 0; round < most_rounds && (over_a_hinge() || by_two()); ++round) singly("");
    for (int round = 0; round < most_rounds && closely(); ++round) {
    }
    return choice_;
  }

 private:
  static constexpr double near = 0.9;  // of the worst: as bad as either of two changes must be that are tried together

  // Key by key, until no single change makes it worse; `held` stays as it is.
  void singly(const std::string& held) {
    constexpr int sweeps = 4;
    std::string last_change;  // it ends when the round comes back to the key that changed last
    for (int sweep = 0; sweep < sweeps; ++sweep) {
      for (const OpenKey& open : opened(choice_)) {
        if (open.key == held) continue;
        if (sweep > 0 && open.key == last_change) return;
        for (Change& other : changes_of(choice_, open))
          if (take_if_worse(scout_.about(job_, other.choice), other.choice)) last_change = open.key;
      }
      if (last_change.empty()) return;
    }
  }

  // A key is a hinge where another value of it opens other keys, or leaves them other candidates. Such a value may be
  // the worst only with the rest climbed anew.
  bool over_a_hinge() {
    const std::vector<OpenKey> open = opened(choice_);
    rivals_.clear();
    for (const OpenKey& key : open) {
      for (const Change& other : changes_of(choice_, key)) {
        if (!hinges(key.key, open, opened(other.choice))) continue;
        Climb anew = *this;
        anew.choice_ = other.choice;
        anew.worst_ = scout_.about(job_, other.choice);
        anew.singly(key.key);
        if (take_if_worse(anew.worst_, anew.choice_)) return true;
        rivals_.push_back(anew.choice_);
      }
    }
    return false;
  }

  // The worst change of two keys at once, of those that are nearly as bad with either alone.
  bool by_two() {
    if (!worst_) return false;
    const double before = *worst_;
    for (const Choice& both : pairs_of(changes_about(near))) take_if_worse(scout_.about(job_, both), both);
    return *worst_ > before;
  }

  // What is about as bad looked at closely, and what then still is, exactly. True where it found worse.
  bool closely() {
    constexpr double nearly = 0.985, very_nearly = 0.997;
    if (!worst_) return false;
    scout_.focus(job_, choice_);
    worst_ = scout_.about(job_, choice_);
    const Choice from = choice_;
    std::vector<Choice> others = pairs_of(changes_about(near));
    others.insert(others.end(), rivals_.begin(), rivals_.end());
    for (Change& change : changes_about(nearly)) others.push_back(std::move(change.choice));
    std::set<double> seen{*worst_};  // a change that changes nothing, or nothing more
    for (const Choice& other : others) {
      const std::optional<double> about = scout_.about(job_, other);
      if (!about || *about < nearly * *worst_ || !seen.insert(*about).second) continue;
      const std::optional<double> now = scout_.closely(job_, choice_), ratio = scout_.closely(job_, other);
      if (!ratio || (now && *ratio < very_nearly * *now)) continue;
      if (exactly(other) <= exactly(choice_)) continue;
      choice_ = other;
      worst_ = about;
    }
    return choice_ != from;
  }

  double exactly(const Choice& choice) const { return bad_end_ratio(job_, choice, reference_, cache_); }

  // Of readings between which a rough ratio cannot tell the earlier stays: a change may shut out others.
  bool take_if_worse(const std::optional<double>& ratio, const Choice& choice) {
    constexpr double can_tell = 1.002;
    if (!ratio || (worst_ && *ratio <= can_tell * *worst_)) return false;
    worst_ = ratio;
    choice_ = choice;
    return true;
  }

  // The changes of one key that stand within a share of the worst.
  std::vector<Change> changes_about(double share) {
    std::vector<Change> found;
    for (const OpenKey& key : opened(choice_)) {
      for (Change& other : changes_of(choice_, key)) {
        const std::optional<double> ratio = scout_.about(job_, other.choice);
        if (ratio && *ratio >= share * *worst_) found.push_back(std::move(other));
      }
    }
    return found;
  }

  // Every two changes of different keys at once.
  static std::vector<Choice> pairs_of(const std::vector<Change>& changes) {
    std::vector<Choice> pairs;
    for (std::size_t i = 0; i < changes.size(); ++i) {
      for (std::size_t j = i + 1; j < changes.size(); ++j) {
        if (changes[i].key == changes[j].key) continue;
        pairs.push_back(changes[i].choice);
        pairs.back()[changes[j].key] = changes[j].candidate;
      }
    }
    return pairs;
  }

  static bool hinges(const std::string& key, const std::vector<OpenKey>& before, const std::vector<OpenKey>& after) {
    return !std::equal(before.begin(), before.end(), after.begin(), after.end(),
                       [&](const OpenKey& x, const OpenKey& y) {
                         return x.key == y.key && (x.key == key || x.candidates == y.candidates);
                       });
  }

  std::vector<OpenKey> opened(const Choice& choice) const {
    return resolve(job_, Run::bad_end, choice, reference_).open;
  }

  const Job& job_;
  const Reference& reference_;
  ChainCache& cache_;
  Scout& scout_;
  Choice choice_;
  std::optional<double> worst_;  // about; nothing: no pane is like that
  std::vector<Choice> rivals_;   // where the climbs over a hinge ended
};

bool same_facts(const Job& a, const Job& b) {
  const auto same = [](const auto& x, const auto& y) {
    return x.first == y.first && x.second.values == y.second.values && x.second.likely == y.second.likely;
  };
  return a.values == b.values && std::equal(a.partly.begin(), a.partly.end(), b.partly.begin(), b.partly.end(), same);
}

}  // namespace

double bad_end_ratio(const Job& job, const Choice& choice, const Reference& reference, ChainCache& cache) {
  const Job complete = resolve(job, Run::bad_end, choice, reference).job;
  auto& known = cache.store().bad_end_ratios;
  if (const auto found = known.find(complete.values); found != known.end()) return found->second;
  const Case pane = build_case(complete, Run::bad_end, reference);
  const YearPeaks peaks = worst_of_year(pane, pane.after, reference, cache, false);
  double worst = 0.0;
  for (std::size_t lite = 0; lite < peaks.lites.size(); ++lite) {
    worst = std::max(worst, peaks.lites[lite].stress_pa / allowable_stress(pane.strengths[lite], reference).go_pa);
  }
  return known[complete.values] = worst;
}

std::optional<double> ratio_if_possible(const Job& job, const Choice& choice, const Reference& reference,
                                        ChainCache& cache) {
  try {
    return bad_end_ratio(job, choice, reference, cache);
  } catch (const BadInput&) {
    return std::nullopt;
  }
}

Choice worst_choice(const Job& job, const Reference& reference, ChainCache& cache) {
  auto& last = cache.store().last_sought;
  if (last && same_facts(last->job, job)) return last->worst;
  Scout scout(reference, cache);
  const Choice worst = Climb(job, reference, cache, scout).top();
  if (!scout.about(job, worst)) bad_end_ratio(job, worst, reference, cache);  // says what is wrong
  last = {job, worst};
  return worst;
}

}  // namespace sunstrain::internal
