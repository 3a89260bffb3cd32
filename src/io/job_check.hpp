// The parts of check_job.
#pragma once

#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// The film has one usable set of figures, and they can be.
void check_film(const Job& job, const Reference& reference);

// The same of a film without a pane, of which keys may be known in part.
void check_film_alone(const Job& film, const Reference& reference);

// Every key has a meaning beside the others: throws BadInput for the first that has none.
void check_keys_apply(const Job& job, const Reference& reference);

// Whether a key that the job speaks of has a meaning in one at least of the jobs that it may stand for.
bool may_apply(const Job& job, const std::string& key, const Reference& reference);

// A sealed unit's overall thickness and build-up go with each other and with what is given of its lites and cavities.
void check_unit(const Job& job, const Reference& reference);

// What lies on the pane or shines onto it can: film up to its gap at the edge, reflected sun, and a part that is
// otherwise than the rest (a half-drawn blind, a sign), one at most.
void check_parts(const Job& job);

}  // namespace sunstrain
