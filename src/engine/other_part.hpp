// Internal: a part of the pane that takes up sun or gives off heat otherwise than the rest.
#pragma once

#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// Puts a job's half-drawn blind, sign, sash in front or bare part of the film into the case, whose glazing, film and
// room are made already. check_job has seen to it that there is one at most. Of a half-drawn blind the room keeps the
// open part.
void put_other_part(const Job& job, const Reference& reference, Case& pane);

}  // namespace sunstrain::internal
