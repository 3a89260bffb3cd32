#include "sampling.hpp"

#include <fmt/format.h>

#include <memory>

#include "../io/say.hpp"
#include "in_order.hpp"
#include "progress.hpp"
#include "shared_caches.hpp"

namespace sunstrain::cli {
namespace {

constexpr int most_samples = 1000000;
constexpr std::size_t least_rows = 30;  // fewer say nothing of their own spread

}  // namespace

void add_sampling_options(po::options_description& all) {
  all.add_options()("samples", po::value<std::string>()->value_name("N"),
                    "also draw N samples of what is not known: how far the answer spreads, the odds, and what to "
                    "find out first")("seed", po::value<std::string>()->value_name("S"),
                                      "of the samples; another one draws others. 1 when left out");
  add_threads_option(all,
                     worded("samples worked at once; all cores when left out. The output is the same for any number"));
}

std::optional<Sampling> sampling_of(const po::variables_map& given) {
  if (given.count("samples") == 0) {
    for (const char* option : {"seed", "threads"})
      if (given.count(option) > 0) throw BadInput(say("--{}: goes with --samples", option));
    return std::nullopt;
  }
  constexpr int most_seed = 2000000000;
  return Sampling{static_cast<std::size_t>(whole_number(given, "samples", 1, most_samples, 0)),
                  static_cast<std::uint64_t>(whole_number(given, "seed", 0, most_seed, 1)), threads_of(given)};
}

std::optional<Samples> draw_samples(const Assessment& assessment, const Reference& reference, const Sampling& sampling,
                                    const CtrlC& stop) {
  const Sampler sampler(assessment.job, reference, assessment.raised_by());
  const std::size_t least = least_rows * sampler.samples_a_row();
  if (sampling.samples < least) {
    throw BadInput(say("--samples = {}: {} draws {} unknowns, in rows of {}; allowed: {} to {}", sampling.samples,
                       assessment.job.source, sampler.unknowns().size(), sampler.samples_a_row(), least, most_samples));
  }
  const std::size_t asked = sampling.samples / sampler.samples_a_row();
  Progress progress(told(reference.language, "rows of samples"), asked);
  SharedCaches caches;
  std::uint64_t drawn = 0;
  std::vector<SampleRow> rows;
  const auto next = [&]() -> std::optional<std::uint64_t> {
    if (drawn == asked || stop.pressed()) return std::nullopt;
    return drawn++;
  };
  const auto work = [&](std::uint64_t index) {
    std::unique_ptr<ChainCache> cache = caches.borrow();
    SampleRow row = sampler.row(sampling.seed, index, *cache);
    caches.give_back(std::move(cache));
    return row;
  };
  InOrder<std::uint64_t, SampleRow>(next, work, [&](SampleRow row) {
    rows.push_back(std::move(row));
    progress.done(rows.size());
  }).run(sampling.threads);
  if (rows.empty()) return std::nullopt;
  Samples samples = samples_of(sampler, rows, sampling.seed, reference);
  samples.stopped = rows.size() < asked;
  return samples;
}

}  // namespace sunstrain::cli
