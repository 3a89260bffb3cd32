// Internal: what lasting shadows would bring.
#pragma once

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// Of an assessment that has its lites and its run at the bad end.
ShadowAnswer shadow_answer(const Assessment& assessment, const Reference& reference, ChainCache& cache);

}  // namespace sunstrain::internal
