#include "sunstrain/drivers.hpp"

#include <algorithm>
#include <cmath>

#include "film_strength.hpp"
#include "helps.hpp"
#include "sunstrain/job_keys.hpp"
#include "unknowns.hpp"

namespace sunstrain {
namespace {

using Act = DriverRow::Act;

constexpr double least_effect = 0.0005;  // of the ratio, which is printed to a hundredth

// What the bad end took for the key: of the film its sheet's absorptance, however the sheet states it.
std::optional<Value> taken_for(const Job& bad_end, const std::string& key) {
  if (key == internal::film_absorptance) {
    if (const auto stated = internal::stated_absorptance(bad_end)) return *stated;
    return std::nullopt;
  }
  const auto found = bad_end.values.find(key);
  return found == bad_end.values.end() ? std::nullopt : std::optional<Value>(found->second);
}

// Tries values on the pane of an assessment.
class Trial {
 public:
  Trial(const Assessment& a, const Reference& reference, ChainCache& cache)
      : a_(a), reference_(reference), cache_(cache) {}

  std::optional<Driver> driver(const DriverRow& row, const std::string& key) {
    const std::optional<Value> taken = taken_for(a_.bad_end, key);
    if (!taken) return std::nullopt;
    const std::optional<Value> tried = internal::tried_for(row, *taken, *find_job_key(reference_.job_keys, key));
    if (!tried) return std::nullopt;
    const std::optional<double> ratio = ratio_with(key, *tried);
    if (!ratio) return std::nullopt;
    Driver driver{key, row.act, *taken, *tried, *ratio, {}, row.words, row.how};
    if (!row.to) driver.slope = (*ratio - a_.stress_ratio) / row.step;
    return driver;
  }

 private:
  // Nothing where no pane is like that.
  std::optional<double> ratio_with(const std::string& key, const Value& value) {
    const Job job = key == internal::film_absorptance ? internal::with_absorptance(a_.job, std::get<double>(value))
                                                      : internal::with_value(a_.job, key, value);
    const auto ratio = internal::ratio_if_possible(job, a_.choice, reference_, cache_);
    return ratio ? std::optional(a_.raised_by() * *ratio) : std::nullopt;
  }

  const Assessment& a_;
  const Reference& reference_;
  ChainCache& cache_;
};

// Of a key that the job leaves open the rows that find out speak, of one that it settles the others; the film may
// always be another.
bool speaks(const DriverRow& row, const std::string& key, const Assessment& a) {
  const bool open = !a.job.values.contains(key);
  return key == internal::film_absorptance || (row.act == Act::find_out) == open;
}

Driver not_known(const UnknownTaken& unknown, const Reference& reference) {
  const JobKey* key = find_job_key(reference.job_keys, unknown.key);
  return {unknown.key, Act::find_out, unknown.taken_bad, unknown.taken_middle, unknown.ratio_at_middle, {},
          "",          key->question};
}

}  // namespace

std::vector<Driver> drivers_of(const Assessment& a, const Reference& reference, ChainCache& cache) {
  std::vector<Driver> drivers;
  Trial trial(a, reference, cache);
  for (const DriverRow& row : reference.drivers) {
    for (const std::string& key : concrete_keys(row.key)) {
      if (!speaks(row, key, a)) continue;
      if (auto driver = trial.driver(row, key)) drivers.push_back(std::move(*driver));
    }
  }
  for (const UnknownTaken& unknown : a.unknowns) {
    const bool spoken =
        std::any_of(drivers.begin(), drivers.end(), [&](const Driver& driver) { return driver.key == unknown.key; });
    if (!spoken && unknown.taken_bad != unknown.taken_middle) drivers.push_back(not_known(unknown, reference));
  }
  const auto effect = [&](const Driver& driver) { return std::abs(driver.stress_ratio - a.stress_ratio); };
  std::erase_if(drivers, [&](const Driver& driver) { return effect(driver) < least_effect; });
  std::stable_sort(drivers.begin(), drivers.end(),
                   [&](const Driver& x, const Driver& y) { return effect(x) > effect(y); });
  return drivers;
}

}  // namespace sunstrain
