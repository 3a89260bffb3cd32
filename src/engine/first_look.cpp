#include "sunstrain/first_look.hpp"

#include <algorithm>
#include <utility>

#include "helps.hpp"
#include "scout.hpp"
#include "unknowns.hpp"
#include "verdict_bounds.hpp"

namespace sunstrain {
namespace {

// The candidates that stand in `before`; of the others the first.
Choice choice_as(const Facts& before, const Job& job, const Reference& reference) {
  Choice choice;
  const Pick as_before = [&](const OpenKey& open) {
    const auto taken = before.find(open.key);
    auto found = open.candidates.begin();
    if (taken != before.end()) found = std::find(found, open.candidates.end(), taken->second);
    if (found == open.candidates.end()) found = open.candidates.begin();
    choice[open.key] = static_cast<std::size_t>(found - open.candidates.begin());
    return *found;
  };
  resolve(job, as_before, reference);
  return choice;
}

// What the job has more than the one before, it has as a value that was plausible for it.
bool narrows(const Job& job, const AssessedBefore& before, const Reference& reference) {
  if (before.job.values.empty() || !job.partly.empty() || !before.job.partly.empty()) return false;
  const auto known_before = [&](const auto& fact) {
    const auto found = job.values.find(fact.first);
    return found != job.values.end() && found->second == fact.second;
  };
  if (!std::all_of(before.job.values.begin(), before.job.values.end(), known_before)) return false;
  const Choice choice = choice_as(before.bad_end, before.job, reference);
  const std::vector<OpenKey> open = resolve(before.job, Run::bad_end, choice, reference).open;
  return std::all_of(job.values.begin(), job.values.end(), [&](const auto& fact) {
    if (before.job.values.contains(fact.first)) return true;
    const auto key = std::find_if(open.begin(), open.end(), [&](const OpenKey& one) { return one.key == fact.first; });
    return key != open.end() && std::count(key->candidates.begin(), key->candidates.end(), fact.second) > 0;
  });
}

FirstLook look_at(Assessment a, const AssessedBefore& before, const Reference& reference, ChainCache& cache) {
  // Half: no shadow is known to raise the stress so much more by the plane at one reading than at another.
  constexpr double far_under = 0.5;
  internal::Scout scout(reference, cache);
  const auto closely = [&](const Job& other) { return scout.closely(other, a.choice); };
  if (a.figures != Verdict::go) a.helps = internal::helps_for(a, reference, closely);
  for (const OpenKey& open : resolve(a.job, Run::bad_end, a.choice, reference).open)
    a.unknowns.push_back({open.key, a.bad_end.values.at(open.key), open.middle, open.why, false, a.stress_ratio, {}});
  const bool ratio_stays_under = before.stress_ratio <= far_under && narrows(a.job, before, reference);
  const internal::VerdictBounds bounds = internal::verdict_bounds(a, ratio_stays_under, reference);
  return {std::move(a), bounds.at_least, bounds.at_most};
}

}  // namespace

std::optional<FirstLook> first_look(const Job& job, const AssessedBefore& before, const Reference& reference,
                                    ChainCache& cache) {
  for (const Choice& choice : {choice_as(before.bad_end, job, reference), Choice{}}) {
    if (internal::possible(resolve(job, Run::bad_end, choice, reference).job, Run::bad_end, reference))
      return look_at(internal::assess_as_taken(job, choice, reference, cache), before, reference, cache);
  }
  return std::nullopt;
}

}  // namespace sunstrain
