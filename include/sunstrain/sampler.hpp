// Draws a job's unknowns, together and again and again, and works the pane each time.
#pragma once

#include <span>

#include "sunstrain/assess.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain {

// One sample of the filmed pane.
struct SampleValue {
  double ratio;  // the worst lite's peak stress over its go line
  // All lites' Weibull risk of the day of their peak, to the power 1/m, by the likely line of reference/constants.toml:
  // a stress held for 3 s along 1 m of edge, in units of the line's scale. It breaks with the probability 1 -
  // exp(-load^m).
  double load;
};

// One row of Saltelli's matrices over a sampler's unknowns.
struct SampleRow {
  SobolRow ratio, load;
  std::size_t drawn_again = 0;  // rows in which some combination cannot be, given up before this one
};

// Draws what a job leaves open, key after key as resolve() has them: a key's most likely value with the chance
// sample_likely_chance (reference constants), its other plausible ones equally; then what reference/samples.toml adds.
// A key that has a meaning only with certain values of others is drawn all the same and then changes nothing. One run
// of the chain a sample.
class Sampler {
 public:
  // raised_by: of the ratio, as Assessment::raised_by() has it of the bad end. The reference is used as long as the
  // sampler is.
  Sampler(const Job& job, const Reference& reference, double raised_by);

  const std::vector<SampledUnknown>& unknowns() const { return unknowns_; }
  // Samples that a row is worked from.
  std::size_t samples_a_row() const { return unknowns_.size() + 2; }
  // Each unknown at the place u, 0 to 1, of its distribution. Throws BadInput where the values cannot be together.
  SampleValue value_at(std::span<const double> u, ChainCache& cache) const;
  // The row of a seed's stream `index`: the same whatever was worked before, and with any cache, which is kept small.
  // Throws BadInput where hardly any combination can be.
  SampleRow row(std::uint64_t seed, std::uint64_t index, ChainCache& cache) const;

 private:
  struct Drawn;
  Drawn draw(std::span<const double> u) const;
  SampleValue value_of(const Drawn& drawn, ChainCache& cache) const;
  std::optional<std::size_t> column_of(const std::string& key, std::optional<Draw::Of> of) const;

  Job job_;
  const Reference& reference_;
  double raised_by_;
  std::vector<SampledUnknown> unknowns_;
};

// Over rows of one sampler and seed; at least one row.
Samples samples_of(const Sampler& sampler, std::span<const SampleRow> rows, std::uint64_t seed,
                   const Reference& reference);

}  // namespace sunstrain
