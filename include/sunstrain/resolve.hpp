// What was not known, and how it is taken: settles the keys of a job that are known in part, then fills the absent ones
// from the `taken` rows of reference/job_keys.toml.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "sunstrain/case.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// A key that was absent, or known in part, and has a meaning for this job.
struct OpenKey {
  std::string key;
  std::vector<Value> candidates;  // plausible values, worst-expected first; of a key known in part as it gives them
  Value middle;
  std::string why;
};

// Which candidate is taken for a key at the bad end; absent: the first.
using Choice = std::map<std::string, std::size_t>;

struct Resolved {
  Job job;
  std::vector<OpenKey> open;
};

// How an open key is taken: one of its candidates, or any value of its range.
using Pick = std::function<Value(const OpenKey&)>;

// The job with each key that is known in part at one of its values (in the middle run the likely one), and without the
// given keys that have no meaning beside those. A job without such keys comes back as it is.
Job with_parts_settled(const Job& job, Run run, const Choice& choice, const Reference& reference);
Job with_parts_settled(const Job& job, const Pick& pick, const Reference& reference);

// The same, and every absent key that applies filled. Keys are taken in the table's order, each seeing what came before
// it; those known in part come first.
Resolved resolve(const Job& job, Run run, const Choice& choice, const Reference& reference);
Resolved resolve(const Job& job, const Pick& pick, const Reference& reference);

}  // namespace sunstrain
