#include "sunstrain/first_look.hpp"

#include <algorithm>

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

}  // namespace

std::optional<Assessment> first_look(const Job& job, const Facts& before, const Reference& reference,
                                     ChainCache& cache) {
  for (const Choice& choice : {choice_as(before, job, reference), Choice{}}) {
    if (internal::ratio_if_possible(job, choice, reference, cache))
      return internal::assess_as_taken(job, choice, reference, cache);
  }
  return std::nullopt;
}

}  // namespace sunstrain
