#include "helps.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "film_strength.hpp"
#include "sunstrain/job_keys.hpp"
#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

std::optional<Help> lighter_film(const Assessment& a, const Reference& reference, const RatioOf& ratio_of) {
  constexpr int least = 10;  // about what clear glass with a clear film absorbs
  const auto stated = stated_absorptance(a.bad_end);
  if (!stated) return std::nullopt;
  Job job = a.job;  // the film may get lighter, its sheet's glass stays the one that was taken
  settle(job, "film.reference_glass", a.bad_end.values.at("film.reference_glass"));
  const auto ratio = [&](int percent) { return ratio_of(with_absorptance(job, 0.01 * percent)); };
  const auto stays = [&](int percent) {
    const auto found = ratio(percent);  // nothing: not with the other unknowns as they are taken, no film to advise
    return found && a.raised_by() * *found <= 1.0;
  };
  const int lighter = static_cast<int>(std::ceil(*stated * 100.0 - 1e-6)) - 1;
  const Percents possible = possible_percents(job, reference);
  const auto highest = highest_percent({std::max(least, possible.least), std::min(lighter, possible.most)}, stays);
  if (!highest) return std::nullopt;
  return Help{"", 0.01 * *highest, a.raised_by() * *ratio(*highest)};
}

}  // namespace

std::optional<Value> tried_for(const DriverRow& row, const Value& taken, const JobKey& key) {
  if (row.to) return *row.to == taken ? std::nullopt : row.to;
  const double moved = std::get<double>(taken) + row.step;
  return moved < key.minimum || moved > key.maximum ? std::nullopt : std::optional<Value>(moved);
}

std::vector<Mend> mends_of(const Job& job, const Job& complete, const Reference& reference) {
  std::vector<Mend> apply;
  for (const DriverRow& row : reference.drivers) {
    const auto taken = complete.values.find(row.key);
    if (row.act != DriverRow::Act::can_do || row.key == film_absorptance || !speaks_of(job, row.key) ||
        taken == complete.values.end())
      continue;
    if (auto value = tried_for(row, taken->second, *find_job_key(reference.job_keys, row.key)))
      apply.push_back({&row, std::move(*value)});
  }
  return apply;
}

Job with_mend(Job job, const Mend& mend) {
  settle(job, mend.row->key, mend.value);
  return job;
}

std::vector<Help> helps_for(const Assessment& a, const Reference& reference, const RatioOf& ratio_of) {
  std::vector<Help> helps;
  for (const Mend& mend : mends_of(a.job, a.bad_end, reference)) {
    const auto found = ratio_of(with_mend(a.job, mend));
    if (!found) continue;
    const double ratio = a.raised_by() * *found;
    if (ratio < 0.98 * a.stress_ratio) helps.push_back({mend.row->words, {}, ratio});
  }
  if (const auto lighter = lighter_film(a, reference, ratio_of)) helps.push_back(*lighter);
  return helps;
}

}  // namespace sunstrain::internal
