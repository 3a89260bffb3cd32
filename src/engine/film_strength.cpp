#include "film_strength.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

#include "unknowns.hpp"

namespace sunstrain::internal {

Job with_absorptance(const Job& job, double absorptance) {
  Job other = job;
  for (const char* key : {"film.solar_transmittance", "film.shgc", "film.solar_reflectance_film_side"})
    forget(other, key);
  settle(other, film_absorptance, absorptance);
  return other;
}

std::optional<double> stated_absorptance(const Job& job) {
  if (const auto a = number_of(job, film_absorptance)) return a;
  const auto t = number_of(job, "film.solar_transmittance"), r = number_of(job, "film.solar_reflectance");
  if (t && r) return 1.0 - *t - *r;
  return std::nullopt;
}

Percents possible_percents(const Job& job, const Reference& reference) {
  const auto can = [&](int percent) { return can_be(with_absorptance(job, 0.01 * percent), reference); };
  Percents range{0, 100};
  while (range.least <= range.most && !can(range.least)) ++range.least;
  while (range.least < range.most && !can(range.most)) --range.most;
  return range;
}

std::optional<int> highest_percent(Percents range, const std::function<bool(int)>& stays) {
  if (range.least > range.most || !stays(range.least)) return std::nullopt;
  std::vector<int> darker(static_cast<std::size_t>(range.most - range.least));
  std::iota(darker.begin(), darker.end(), range.least + 1);
  const auto first_beyond = std::partition_point(darker.begin(), darker.end(), stays);
  return range.least + static_cast<int>(first_beyond - darker.begin());
}

std::optional<Percents> staying_percents(Percents range, const std::function<bool(int)>& stays) {
  int found = range.least;
  while (found <= range.most && !stays(found)) found += staying_step;
  const auto most = highest_percent({found, range.most}, stays);
  if (!most) return std::nullopt;
  while (found > range.least && stays(found - 1)) --found;
  return Percents{found, *most};
}

}  // namespace sunstrain::internal
