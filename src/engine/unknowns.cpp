#include "unknowns.hpp"

#include <algorithm>
#include <optional>

#include "chain_cache.hpp"

namespace sunstrain::internal {

bool possible(const Job& complete, Run run, const Reference& reference) {
  try {
    build_case(complete, run, reference);
    return true;
  } catch (const BadInput&) {
    return false;
  }
}

namespace {

// A run's job, where its glass of a film sheet is impossible with the first possible one.
std::optional<Job> possible_job(const Job& job, Run run, const Reference& reference) {
  const Resolved taken = resolve(job, run, {}, reference);
  if (possible(taken.job, run, reference)) return taken.job;
  for (const OpenKey& open : taken.open) {
    if (!open.key.ends_with("film.reference_glass")) continue;
    for (const Value& glass : open.candidates) {
      const Job other = resolve(with_value(job, open.key, glass), run, {}, reference).job;
      if (possible(other, run, reference)) return other;
    }
  }
  return std::nullopt;
}

}  // namespace

// A key that was known in part stays one, of a single value: other given keys may hang on it (resolve.hpp).
Job with_value(const Job& job, const std::string& key, const Value& value) {
  Job changed = job;
  if (const auto known = changed.partly.find(key); known != changed.partly.end())
    known->second = {{value}, value, {}};
  else
    settle(changed, key, value);
  return changed;
}

Job middle_job(const Job& job, const Reference& reference) {
  if (const auto middle = possible_job(job, Run::middle, reference)) return *middle;
  return resolve(job, Run::middle, {}, reference).job;  // building it says what is wrong
}

bool can_be(const Job& job, const Reference& reference) {
  return possible_job(job, Run::bad_end, reference) && possible_job(job, Run::middle, reference);
}

void weigh_unknowns(Assessment& a, const Reference& reference, ChainCache& cache) {
  const Resolved bad = resolve(a.job, Run::bad_end, a.choice, reference);
  for (const OpenKey& open : bad.open) {
    UnknownTaken taken{open.key, bad.job.values.at(open.key), open.middle, open.why, false, a.stress_ratio, {}};
    if (taken.taken_bad != open.middle) {
      const auto ratio = ratio_if_possible(with_value(a.job, open.key, open.middle), a.choice, reference, cache);
      taken.ratio_at_middle = ratio ? a.raised_by() * *ratio : a.stress_ratio;
      taken.decided = a.figures == Verdict::caution && a.stress_ratio > 1.0 && taken.ratio_at_middle <= 1.0;
    }
    a.unknowns.push_back(std::move(taken));
  }
  std::stable_sort(a.unknowns.begin(), a.unknowns.end(),
                   [](const UnknownTaken& x, const UnknownTaken& y) { return x.ratio_at_middle < y.ratio_at_middle; });
}

void try_readings(Assessment& a, const Reference& reference, ChainCache& cache) {
  const Resolved bad = resolve(a.job, Run::bad_end, a.choice, reference);
  const auto asked = [&](const UnknownTaken& unknown) {
    const bool first = &unknown == &a.unknowns.front() && unknown.ratio_at_middle < a.stress_ratio;
    return first || std::any_of(a.open_rules.begin(), a.open_rules.end(),
                                [&](const OpenRule& open) { return open.key == unknown.key; });
  };
  for (UnknownTaken& unknown : a.unknowns) {
    if (!asked(unknown)) continue;
    const auto open =
        std::find_if(bad.open.begin(), bad.open.end(), [&](const OpenKey& o) { return o.key == unknown.key; });
    for (const Value& value : open->candidates) {
      const Job known = with_value(a.job, unknown.key, value);
      if (!ratio_if_possible(known, a.choice, reference, cache)) continue;
      const Assessment reading = assess_as_taken(known, a.choice, reference, cache);
      unknown.readings.push_back({value, reading.verdict, reading.stress_ratio});
    }
  }
}

}  // namespace sunstrain::internal
