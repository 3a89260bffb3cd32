// The worst plausible values together: a climb over the unknowns.
#include <algorithm>
#include <utility>

#include "chain_cache.hpp"
#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

class Climb {
 public:
  Climb(const Job& job, const Reference& reference, ChainCache& cache)
      : job_(job), reference_(reference), cache_(cache), worst_(ratio_if_possible(job, {}, reference, cache)) {}

  Choice top() {
    constexpr int most_rounds = 8;
    singly("");
    for (int round = 0; round < most_rounds && (over_a_hinge() || by_two()); ++round) singly("");
    if (!worst_) bad_end_ratio(job_, choice_, reference_, cache_);  // says what is wrong
    return choice_;
  }

 private:
  // Key by key, until no single change makes it worse; `held` stays as it is.
  void singly(const std::string& held) {
    constexpr int sweeps = 4;
    std::string last_change;  // it ends when the round comes back to the key that changed last
    for (int sweep = 0; sweep < sweeps; ++sweep) {
      for (const OpenKey& open : opened(choice_)) {
        if (open.key == held) continue;
        if (sweep > 0 && open.key == last_change) return;
        for (Choice& other : changes_of(open)) {
          const std::optional<double> ratio = ratio_if_possible(job_, other, reference_, cache_);
          if (!ratio || (worst_ && *ratio <= *worst_)) continue;
          worst_ = ratio;
          choice_ = std::move(other);
          last_change = open.key;
        }
      }
      if (last_change.empty()) return;
    }
  }

  // A key is a hinge where another value of it opens other keys, or leaves them other candidates. Such a value may be
  // the worst only with the rest climbed anew.
  bool over_a_hinge() {
    const std::vector<OpenKey> open = opened(choice_);
    for (const OpenKey& key : open) {
      for (const Choice& other : changes_of(key)) {
        if (!hinges(key.key, open, opened(other))) continue;
        Climb anew = *this;
        anew.choice_ = other;
        anew.worst_ = ratio_if_possible(job_, other, reference_, cache_);
        anew.singly(key.key);
        if (!anew.worst_ || (worst_ && *anew.worst_ <= *worst_)) continue;
        worst_ = anew.worst_;
        choice_ = anew.choice_;
        return true;
      }
    }
    return false;
  }

  // The worst change of two keys at once, of those that are nearly as bad with either alone.
  bool by_two() {
    constexpr double near = 0.9;
    if (!worst_) return false;
    std::vector<std::pair<std::string, std::size_t>> changes;
    for (const OpenKey& key : opened(choice_)) {
      for (const Choice& other : changes_of(key)) {
        const std::optional<double> ratio = ratio_if_possible(job_, other, reference_, cache_);
        if (ratio && *ratio >= near * *worst_) changes.emplace_back(key.key, other.at(key.key));
      }
    }
    const double before = *worst_;
    const Choice from = choice_;
    for (std::size_t i = 0; i < changes.size(); ++i) {
      for (std::size_t j = i + 1; j < changes.size(); ++j) {
        if (changes[i].first == changes[j].first) continue;
        Choice both = from;
        both[changes[i].first] = changes[i].second;
        both[changes[j].first] = changes[j].second;
        const std::optional<double> ratio = ratio_if_possible(job_, both, reference_, cache_);
        if (!ratio || *ratio <= *worst_) continue;
        worst_ = ratio;
        choice_ = std::move(both);
      }
    }
    return *worst_ > before;
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

  // The present choice with each other candidate of a key.
  std::vector<Choice> changes_of(const OpenKey& open) const {
    const auto taken = choice_.find(open.key);
    const std::size_t now = taken == choice_.end() ? 0 : taken->second;
    std::vector<Choice> changes;
    for (std::size_t i = 0; i < open.candidates.size(); ++i) {
      if (i == now) continue;
      changes.push_back(choice_);
      changes.back()[open.key] = i;
    }
    return changes;
  }

  const Job& job_;
  const Reference& reference_;
  ChainCache& cache_;
  Choice choice_;
  std::optional<double> worst_;  // nothing: no pane is like that
};

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
  return Climb(job, reference, cache).top();
}

}  // namespace sunstrain::internal
