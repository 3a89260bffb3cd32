// What drives an answer: its inputs in the order of their effect, each with its slope and what can be done about it.
#pragma once

#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain {

// Every row of reference/drivers.toml that this pane has a meaning for, and every key that is not known and is taken
// otherwise at the bad end than in the middle; those of the largest effect first, those without any left out. A row
// that finds out speaks only where the job leaves its key open. With film; changes on the engine itself, each alone.
// `assessment` as `assess` returned it, `reference` the same, `cache` any, best the one of the assessment. Throws as
// `assess`.
std::vector<Driver> drivers_of(const Assessment& assessment, const Reference& reference, ChainCache& cache);

}  // namespace sunstrain
