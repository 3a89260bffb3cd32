// What rows of samples come to.
#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "sunstrain/sampler.hpp"

namespace sunstrain {
namespace {

constexpr std::array<double, 5> shares_of_samples{0.05, 0.25, 0.50, 0.75, 0.95};

template <class Of>
void each_value(const SobolRow& row, Of of) {
  of(row.a);
  of(row.b);
  for (double value : row.mixed) of(value);
}

// Of a row's samples: they are alike in distribution, whatever they share.
template <class Figure>
double mean_of_row(const SobolRow& row, Figure figure) {
  double sum = 0.0;
  each_value(row, [&](double value) { sum += figure(value); });
  return sum / static_cast<double>(row.mixed.size() + 2);
}

// The value below which a share of the samples lies (the lowest value that has so many at or below it).
std::vector<SampleQuantile> quantiles_of(std::span<const SampleRow> rows) {
  std::vector<double> values;
  for (const SampleRow& row : rows) each_value(row.ratio, [&](double value) { values.push_back(value); });
  std::sort(values.begin(), values.end());
  std::vector<SampleQuantile> quantiles;
  for (double share : shares_of_samples) {
    const auto count = static_cast<std::size_t>(std::ceil(share * static_cast<double>(values.size())));
    quantiles.push_back({share, values[std::max<std::size_t>(count, 1) - 1]});
  }
  return quantiles;
}

Estimate mean_of_rows(std::span<const double> of_row, std::uint64_t seed) {
  return estimates(of_row.size(), seed,
                   [&](std::span<const double> weights) {
                     double sum = 0.0, count = 0.0;
                     for (std::size_t j = 0; j < of_row.size(); ++j) {
                       sum += weights[j] * of_row[j];
                       count += weights[j];
                     }
                     return std::vector<double>{sum / count};
                   })
      .front();
}

// Moments of 1/T, T Weibull with exponent m and scale 1: T^-1 = E^(-1/m) with E exponential.
struct Weakness {
  double mean, mean_square;
  double variance() const { return mean_square - mean * mean; }
};
Weakness weakness_of(double m) { return {std::tgamma(1.0 - 1.0 / m), std::tgamma(1.0 - 2.0 / m)}; }

// Mean and mean square of the loads of A and B.
std::pair<double, double> moments_of(std::span<const SobolRow> loads, std::span<const double> weights) {
  double sum = 0.0, squares = 0.0, count = 0.0;
  for (std::size_t j = 0; j < loads.size(); ++j) {
    sum += weights[j] * (loads[j].a + loads[j].b);
    squares += weights[j] * (loads[j].a * loads[j].a + loads[j].b * loads[j].b);
    count += 2.0 * weights[j];
  }
  return {sum / count, squares / count};
}

// load / T with the two independent: V = E(load^2) E(T^-2) - E(load)^2 E(1/T)^2. Of it the strength alone moves
// E(load)^2 V(1/T), and leaves E(load^2) V(1/T) once all else is known.
SobolIndex strength_share(std::span<const SobolRow> loads, const Weakness& weakness, std::uint64_t seed) {
  const std::vector<Estimate> found = estimates(loads.size(), seed, [&](std::span<const double> weights) {
    const auto [mean, square] = moments_of(loads, weights);
    const double all = square * weakness.mean_square - mean * mean * weakness.mean * weakness.mean;
    const double first = mean * mean * weakness.variance(), total = square * weakness.variance();
    return all > 0.0 ? std::vector<double>{first / all, total / all} : std::vector<double>{0.0, 0.0};
  });
  return {found[0], found[1]};
}

Estimate times(Estimate estimate, double factor) {
  return {estimate.value * factor, estimate.low * factor, estimate.high * factor};
}

// Of the load's variance an unknown's shares are `of_load`; of that of load / T they are smaller.
SobolIndex over_strength(const SobolIndex& of_load, std::pair<double, double> moments, const Weakness& weakness) {
  const auto [mean, square] = moments;
  const double all = square * weakness.mean_square - mean * mean * weakness.mean * weakness.mean;
  if (all <= 0.0) return {};
  const double variance = square - mean * mean;
  return {times(of_load.first, variance * weakness.mean * weakness.mean / all),
          times(of_load.total, variance * weakness.mean_square / all)};
}

}  // namespace

Samples samples_of(const Sampler& sampler, std::span<const SampleRow> rows, std::uint64_t seed,
                   const Reference& reference) {
  if (rows.empty()) throw std::invalid_argument("no rows of samples");
  Samples samples;
  samples.rows = rows.size();
  samples.samples = rows.size() * sampler.samples_a_row();
  samples.seed = seed;
  samples.ratio_at = quantiles_of(rows);
  const double m = constant(reference, "weibull_best_m");
  std::vector<SobolRow> ratios, loads;
  std::vector<double> over, broken;
  for (const SampleRow& row : rows) {
    samples.drawn_again += row.drawn_again;
    ratios.push_back(row.ratio);
    loads.push_back(row.load);
    over.push_back(mean_of_row(row.ratio, [](double ratio) { return ratio > 1.0 ? 1.0 : 0.0; }));
    broken.push_back(mean_of_row(row.load, [&](double load) { return -std::expm1(-std::pow(load, m)); }));
  }
  samples.over_line = mean_of_rows(over, seed);
  samples.odds = mean_of_rows(broken, seed);
  const std::vector<SobolIndex> of_ratio = sobol_indices(ratios, seed), of_load = sobol_indices(loads, seed);
  const Weakness weakness = weakness_of(m);
  const auto moments = moments_of(loads, std::vector<double>(loads.size(), 1.0));
  for (std::size_t i = 0; i < of_ratio.size(); ++i)
    samples.shares.push_back({sampler.unknowns()[i], of_ratio[i], over_strength(of_load[i], moments, weakness)});
  std::stable_sort(samples.shares.begin(), samples.shares.end(), [](const UnknownShare& x, const UnknownShare& y) {
    return x.of_ratio.first.value > y.of_ratio.first.value;
  });
  samples.strength = strength_share(loads, weakness, seed);
  return samples;
}

}  // namespace sunstrain
