// The parts of check_job.
#pragma once

#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// The film has one usable set of figures, and they can be.
void check_film(const Job& job, const Reference& reference);

// A part of the pane that is otherwise than the rest (a half-drawn blind, a sign): one at most, and it can lie there.
void check_parts(const Job& job);

}  // namespace sunstrain
