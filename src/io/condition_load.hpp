// Conditions of reference/job_keys.toml, reference/rules.toml and a user's own rules:
//   { fact = "lite.*.kind", is = "wired" }        is, is_not, among: a word or a list of words
//   { fact = "frame.bite", above = "12.7 mm" }    at_least, above, at_most, below: as a job gives the key
//   { fact = "frame.bite", known = false }        whether the job gives it
//   { all = [ ... ] }  { any = [ ... ] }  { none = [ ... ] }
#pragma once

#include <string>
#include <vector>

#include "data_node.hpp"

namespace sunstrain {

// The key of `keys`, or the figure of the assessment, that `fact` names ("lite.2.tint" and "lite.*.tint" alike); null
// when there is none.
const JobKey* fact_description(const std::string& fact, const std::vector<JobKey>& keys);

bool holds_number(JobKey::Kind kind);

// A value as a table states it for `key`: a word out of its choices, or a number (with its unit)
// within its range. Throws BadInput that starts with `where`.
Value load_value(const DataNode& node, const JobKey& key, const std::string& where);

// Facts, words and units are checked against `keys`, so that no condition can fail for a misspelling.
Condition load_condition(const DataNode& node, const std::vector<JobKey>& keys, const std::string& where);

// The condition under a row's key; always where the row has none.
Condition optional_condition(DataRow& row, const char* name, const std::vector<JobKey>& keys);

}  // namespace sunstrain
