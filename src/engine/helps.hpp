// Internal: what could be done about a pane that is not go, tried on the engine.
#pragma once

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// The rows of reference/drivers.toml that mend something which a job says is there; `complete` is the job as a run took
// it.
std::vector<const DriverRow*> mends_of(const Job& job, const Job& complete, const Reference& reference);

Job with_mend(Job job, const DriverRow& mend);

std::vector<Help> helps_for(const Assessment& assessment, const Choice& choice, const Reference& reference,
                            ChainCache& cache);

}  // namespace sunstrain::internal
