// What was not known, and how it is taken: fills the absent keys of a job from the `taken` rows of
// reference/job_keys.toml.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "sunstrain/case.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// A key that was absent and has a meaning for this job.
struct OpenKey {
  std::string key;
  std::vector<Value> candidates;  // plausible values, worst-expected first
  Value middle;
  std::string why;
};

// Which candidate is taken for a key at the bad end; absent: the first.
using Choice = std::map<std::string, std::size_t>;

struct Resolved {
  Job job;
  std::vector<OpenKey> open;
};

// Fills every absent key that applies. Keys are taken in the table's order, each seeing what came before it.
Resolved resolve(const Job& job, Run run, const Choice& choice, const Reference& reference);

}  // namespace sunstrain
