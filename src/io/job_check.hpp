// The parts of check_job.
#pragma once

#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// The film has one usable set of figures, and they can be.
void check_film(const Job& job, const Reference& reference);

}  // namespace sunstrain
