// What samples of a job's unknowns come to (sampler.hpp draws them): how far the answer spreads, how likely a break is,
// and how much of the spread each unknown owns.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/reference.hpp"
#include "sunstrain/sobol.hpp"

namespace sunstrain {

// Something that samples draw: an open key of the job, or a row of reference/samples.toml.
struct SampledUnknown {
  std::string name;            // the key, or the row's name
  std::string asks;            // the job key whose question finds it out; empty: nobody can know it beforehand
  std::optional<Draw::Of> of;  // nothing: a key
};

struct SampleQuantile {
  double share, ratio;  // so many of the samples lie at that ratio or below
};

struct UnknownShare {
  SampledUnknown unknown;
  SobolIndex of_ratio;
  SobolIndex of_load;  // of stress over strength, see Samples::strength
};

struct Samples {
  std::size_t rows = 0, samples = 0;  // samples = rows x samples a row
  std::size_t drawn_again = 0;        // rows in which something could not be
  std::uint64_t seed = 0;
  bool stopped = false;                  // before all rows that were asked for
  std::vector<SampleQuantile> ratio_at;  // of 5, 25, 50, 75 and 95 %
  Estimate over_line;                    // share of the samples with a ratio over 1
  Estimate odds;                         // of a break on the day of the peak: the mean over the samples
  std::vector<UnknownShare> shares;      // largest first index of the ratio first
  // A pane breaks where its load (sampler.hpp) passes the edge's own strength T in the same unit, Weibull with exponent
  // m and scale 1. Both are independent, so that the variance of load / T follows from the moments of each: no T need
  // be drawn. The strength's share of it.
  SobolIndex strength;
};

}  // namespace sunstrain
