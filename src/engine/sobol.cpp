#include "sunstrain/sobol.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sunstrain {
namespace {

std::uint32_t low_half(std::uint64_t x) { return static_cast<std::uint32_t>(x & 0xFFFFFFFFu); }
std::uint32_t high_half(std::uint64_t x) { return static_cast<std::uint32_t>(x >> 32); }

std::mt19937_64 engine_of(std::uint64_t seed, std::uint64_t stream) {
  std::seed_seq words{low_half(seed), high_half(seed), low_half(stream), high_half(stream)};
  return std::mt19937_64(words);
}

// Of ascending values, between two of them where the share falls between.
double percentile(const std::vector<double>& ascending, double share) {
  const double at = share * static_cast<double>(ascending.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, ascending.size() - 1);
  return ascending[below] + (at - static_cast<double>(below)) * (ascending[above] - ascending[below]);
}

// The mean and variance of f over the rows of A and B, each counted as often as its weight says.
struct Spread {
  double mean, variance;
};
Spread spread_of(std::span<const SobolRow> rows, std::span<const double> weights) {
  double sum = 0.0, count = 0.0;
  for (std::size_t j = 0; j < rows.size(); ++j) {
    sum += weights[j] * (rows[j].a + rows[j].b);
    count += 2.0 * weights[j];
  }
  const double mean = sum / count;
  double squares = 0.0;
  for (std::size_t j = 0; j < rows.size(); ++j) {
    const double a = rows[j].a - mean, b = rows[j].b - mean;
    squares += weights[j] * (a * a + b * b);
  }
  return {mean, squares / count};
}

// first and total of every unknown, one after the other.
std::vector<double> shares_of(std::span<const SobolRow> rows, std::span<const double> weights) {
  const Spread f = spread_of(rows, weights);
  const std::size_t unknowns = rows.front().mixed.size();
  std::vector<double> shares(2 * unknowns, 0.0);
  double count = 0.0;
  for (std::size_t j = 0; j < rows.size(); ++j) {
    const SobolRow& row = rows[j];
    count += weights[j];
    if (weights[j] == 0.0) continue;
    for (std::size_t i = 0; i < unknowns; ++i) {
      const double change = row.mixed[i] - row.a;
      shares[2 * i] += weights[j] * (row.b - f.mean) * change;
      shares[2 * i + 1] += weights[j] * 0.5 * change * change;
    }
  }
  for (double& share : shares) share = f.variance > 0.0 ? share / count / f.variance : 0.0;
  return shares;
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed, std::uint64_t stream) : engine_(engine_of(seed, stream)) {}

double RandomStream::uniform() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }

// The upper half of a product with 32 random bits: of 2^32 draws one number comes up at most one time more than
// another.
std::size_t RandomStream::below(std::size_t end) {
  return static_cast<std::size_t>(((engine_() >> 32) * static_cast<std::uint64_t>(end)) >> 32);
}

std::vector<double> mixed_row(std::span<const double> a, std::span<const double> b, std::size_t i) {
  if (a.size() != b.size() || i > a.size() + 1) throw std::invalid_argument("rows of Saltelli's matrices do not match");
  if (i == a.size() + 1) return {b.begin(), b.end()};
  std::vector<double> row(a.begin(), a.end());
  if (i < a.size()) row[i] = b[i];
  return row;
}

std::vector<Estimate> estimates(std::size_t rows, std::uint64_t seed,
                                const std::function<std::vector<double>(std::span<const double>)>& statistic) {
  constexpr int resamplings = 1000;
  constexpr double outside = 0.025;                    // on either side
  constexpr std::uint64_t stream = ~std::uint64_t{0};  // none that a row is drawn from
  if (rows == 0) throw std::invalid_argument("nothing can be estimated from no rows");
  std::vector<double> weights(rows, 1.0);
  const std::vector<double> values = statistic(weights);
  std::vector<std::vector<double>> again(values.size());
  RandomStream random(seed, stream);
  for (int round = 0; round < resamplings; ++round) {
    std::fill(weights.begin(), weights.end(), 0.0);
    for (std::size_t j = 0; j < rows; ++j) weights[random.below(rows)] += 1.0;
    const std::vector<double> resampled = statistic(weights);
    for (std::size_t v = 0; v < values.size(); ++v)
      if (std::isfinite(resampled[v])) again[v].push_back(resampled[v]);
  }
  std::vector<Estimate> result;
  for (std::size_t v = 0; v < values.size(); ++v) {
    std::sort(again[v].begin(), again[v].end());
    const bool any = !again[v].empty();
    result.push_back({values[v], any ? percentile(again[v], outside) : values[v],
                      any ? percentile(again[v], 1.0 - outside) : values[v]});
  }
  return result;
}

std::vector<SobolIndex> sobol_indices(std::span<const SobolRow> rows, std::uint64_t seed) {
  for (const SobolRow& row : rows)
    if (row.mixed.size() != rows.front().mixed.size())
      throw std::invalid_argument("every row needs a value for each unknown");
  const std::vector<Estimate> shares =
      estimates(rows.size(), seed, [&](std::span<const double> weights) { return shares_of(rows, weights); });
  std::vector<SobolIndex> indices;
  for (std::size_t i = 0; i + 1 < shares.size(); i += 2) indices.push_back({shares[i], shares[i + 1]});
  return indices;
}

}  // namespace sunstrain
