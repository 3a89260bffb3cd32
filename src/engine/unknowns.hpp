// Internal: the worst plausible values together, and what each unknown did to the answer.
#pragma once

#include <optional>

#include "sunstrain/assess.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::internal {

// The candidates of the open keys with which the pane stands worst. Climbs from the values that the table expects to be
// worst, until no change of one key makes it worse; of a key on which others hang (panes, coating, place) not even with
// all others climbed anew.
Choice worst_choice(const Job& job, const Reference& reference, ChainCache& cache);

// The job with a key that it leaves open at one value.
Job with_value(const Job& job, const std::string& key, const Value& value);

// The job of the middle run. Where the most likely glass of a film sheet is impossible, the first possible one.
Job middle_job(const Job& job, const Reference& reference);

// Whether both runs can take the job: its film is possible on some glass of its sheet.
bool can_be(const Job& job, const Reference& reference);

// Whether a completed job can be a pane.
bool possible(const Job& complete, Run run, const Reference& reference);

// Bad-end ratio with film of a job: worst lite over its go line. Throws BadInput where the job cannot be.
double bad_end_ratio(const Job& job, const Choice& choice, const Reference& reference, ChainCache& cache);

// The same; nothing where the job cannot be: a reading of a data sheet may be impossible.
std::optional<double> ratio_if_possible(const Job& job, const Choice& choice, const Reference& reference,
                                        ChainCache& cache);

// Everything but the look at the unknowns, for given choices.
Assessment assess_as_taken(const Job& job, const Choice& choice, const Reference& reference, ChainCache& cache);

// Fills assessment.unknowns, the one that decided most first.
void weigh_unknowns(Assessment& assessment, const Reference& reference, ChainCache& cache);

// Then what each reading of that one would give.
void try_readings(Assessment& assessment, const Reference& reference, ChainCache& cache);

}  // namespace sunstrain::internal
