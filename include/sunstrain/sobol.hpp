// How much of an outcome's spread each of several independent unknowns owns: Sobol's indices from random samples, by
// Saltelli's scheme. Knows nothing of panes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <random>
#include <span>
#include <vector>

namespace sunstrain {

// Random numbers that are the same everywhere: the C++ standard fixes std::mt19937_64 and std::seed_seq to the last
// bit, but not the distributions, which are therefore our own. Each stream of a seed runs by itself, so that work may
// be cut among any number of threads.
class RandomStream {
 public:
  RandomStream(std::uint64_t seed, std::uint64_t stream);
  // 0 <= u < 1, in steps of 2^-53.
  double uniform();
  // One of 0 .. end - 1; end at least 1, below 2^32.
  std::size_t below(std::size_t end);

 private:
  std::mt19937_64 engine_;
};

// A function f of k independent unknowns at one row of Saltelli's matrices: at row A, at row B, and at A with its
// unknown i taken from B, for every i. A and B are drawn independently, so that every one of the k + 2 is a fair
// sample.
struct SobolRow {
  double a = 0.0, b = 0.0;
  std::vector<double> mixed;  // one an unknown
};

// A with its unknown i taken from B; of i = a.size() A itself, of a.size() + 1 B.
std::vector<double> mixed_row(std::span<const double> a, std::span<const double> b, std::size_t i);

// A figure estimated from samples, and the interval that it lies in 95 times of 100.
struct Estimate {
  double value = 0.0, low = 0.0, high = 0.0;
};

// Any statistic of independent rows and its interval: the percentiles of what it gives when as many rows are drawn from
// the rows with replacement, again and again (B. Efron, The jackknife, the bootstrap and other resampling plans, SIAM
// 1982, chapter 10: percentile method). `statistic` is called with how often each row counts, which sum to `rows`, and
// gives any number of figures. rows at least 1. A figure that is not a number for a resampling leaves that one out.
std::vector<Estimate> estimates(std::size_t rows, std::uint64_t seed,
                                const std::function<std::vector<double>(std::span<const double>)>& statistic);

// Share of the variance of f: `first`, V(E(f | x_i)) / V(f), by which it would shrink on the average if unknown i alone
// were known; `total`, E(V(f | all but x_i)) / V(f), which would stay if all but i were known. 0 where f does not vary.
struct SobolIndex {
  Estimate first, total;
};

// Over rows with as many unknowns each, at least one row. first by A. Saltelli et al., Computer Physics Communications
// 181 (2010) 259-270, table 2, estimator (b): V_i = 1/N sum f(B)_j (f(AB_i)_j - f(A)_j), with the mean of f taken off
// f(B), which changes no expectation and makes it quieter; total by M. J. W. Jansen, Computer Physics Communications
// 117 (1999) 35-43, (f) of the same table: 1/(2N) sum (f(A)_j - f(AB_i)_j)^2. V(f) from the rows of A and B together.
std::vector<SobolIndex> sobol_indices(std::span<const SobolRow> rows, std::uint64_t seed);

}  // namespace sunstrain
