// Internal: what could be done about a pane that is not go, tried on the engine.
#pragma once

#include <functional>
#include <optional>

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// The value that a row tries in place of what was taken; nothing where that is the same, or none that the key may have.
std::optional<Value> tried_for(const DriverRow& row, const Value& taken, const JobKey& key);

// Something about a pane that can be mended, and the value that its key then has.
struct Mend {
  const DriverRow* row;
  Value value;
};

// Of what a job says is there, the film left aside; `complete` is the job as a run took it.
std::vector<Mend> mends_of(const Job& job, const Job& complete, const Reference& reference);

Job with_mend(Job job, const Mend& mend);

// The ratio of a job with the unknowns as the assessment took them; nothing where the job cannot be.
using RatioOf = std::function<std::optional<double>(const Job&)>;

std::vector<Help> helps_for(const Assessment& assessment, const Reference& reference, const RatioOf& ratio_of);

}  // namespace sunstrain::internal
