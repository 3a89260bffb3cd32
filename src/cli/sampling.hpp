// Samples of what a job leaves open, drawn on several threads.
#pragma once

#include <optional>

#include "options.hpp"
#include "sunstrain/sampler.hpp"

namespace sunstrain::cli {

// --samples, --seed and --threads.
void add_sampling_options(po::options_description& all);

struct Sampling {
  std::size_t samples;
  std::uint64_t seed;
  std::size_t threads;
};
// Nothing where no samples are asked for. Throws BadInput for --seed or --threads without them.
std::optional<Sampling> sampling_of(const po::variables_map& given);

// Whole rows of samples, as many as fit into the number asked for; the same for any number of threads. At Ctrl-C, which
// from here on ends no program, those that are done; nothing where there is none yet. Throws BadInput where the job
// takes more samples than asked for.
std::optional<Samples> draw_samples(const Assessment& assessment, const Reference& reference, const Sampling& sampling);

}  // namespace sunstrain::cli
