// Internal: what could be done about a pane that is not go, tried on the engine.
#pragma once

#include "sunstrain/assess.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::internal {

std::vector<Help> helps_for(const Assessment& assessment, const Choice& choice, const Reference& reference,
                            ChainCache& cache);

}  // namespace sunstrain::internal
