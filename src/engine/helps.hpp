// Internal: what could be done about a pane that is not go, tried on the engine.
#pragma once

#include "sunstrain/assess.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::internal {

// One thing about a pane that can be mended.
struct Mend {
  Help::Kind kind;
  const char *key, *mended;
};

// Those that a job, completed as a run took it, leaves to be mended.
std::vector<Mend> mends_of(const Job& complete);

Job with_mend(Job job, const Mend& mend);

std::vector<Help> helps_for(const Assessment& assessment, const Choice& choice, const Reference& reference,
                            ChainCache& cache);

}  // namespace sunstrain::internal
