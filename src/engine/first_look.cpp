#include "sunstrain/first_look.hpp"

#include <algorithm>
#include <utility>

#include "helps.hpp"
#include "rule_facts.hpp"
#include "scout.hpp"
#include "sunstrain/rules.hpp"
#include "unknowns.hpp"

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

Verdict least_of(const Assessment& a, const Reference& reference) {
  const Case middle = build_case(a.middle, Run::middle, reference);
  const Facts facts = internal::middle_facts(a.middle, middle, reference);
  const auto fired = fired_rules(reference.rules, facts, internal::said_of(a.job, reference));
  Verdict least = verdict_of(worst_severity(fired));
  if (a.stress_ratio > 1.0) least = std::max(least, Verdict::caution);
  // Where the number of panes is open, another reading may pair the two runs' lites otherwise.
  if (a.figures == Verdict::refer && a.job.values.contains("glass.panes")) least = Verdict::refer;
  return least;
}

FirstLook look_at(Assessment a, const Reference& reference, ChainCache& cache) {
  internal::Scout scout(reference, cache);
  const auto closely = [&](const Job& other) { return scout.closely(other, a.choice); };
  if (a.figures != Verdict::go) a.helps = internal::helps_for(a, reference, closely);
  bool nothing_open = true;
  for (const OpenKey& open : resolve(a.job, Run::bad_end, a.choice, reference).open) {
    nothing_open = nothing_open && open.candidates.size() == 1;
    a.unknowns.push_back({open.key, a.bad_end.values.at(open.key), open.middle, open.why, false, a.stress_ratio, {}});
  }
  const Verdict least = nothing_open ? a.verdict : least_of(a, reference);
  const Verdict most = nothing_open ? a.verdict : Verdict::refer;
  return {std::move(a), least, most};
}

}  // namespace

std::optional<FirstLook> first_look(const Job& job, const Facts& before, const Reference& reference,
                                    ChainCache& cache) {
  for (const Choice& choice : {choice_as(before, job, reference), Choice{}}) {
    if (internal::possible(resolve(job, Run::bad_end, choice, reference).job, Run::bad_end, reference))
      return look_at(internal::assess_as_taken(job, choice, reference, cache), reference, cache);
  }
  return std::nullopt;
}

}  // namespace sunstrain
