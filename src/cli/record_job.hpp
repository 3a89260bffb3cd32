// A job and its answer as a record keeps them: what is about people apart from the rest.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/record/store.hpp"

namespace sunstrain::cli {

// The job without keys that may name a person or where one lives (JobKey::personal), and those keys with their texts.
Job without_personal(Job job, const Reference& reference);
std::vector<record::Apart> personal_texts(const Job& job, const Reference& reference);

// {"values": {key: number or word}, "partly": {key: {"values", "likely", "range"}}}: reads back to the last bit.
std::string job_json(const Job& job);
// The same back. Throws BadInput, `source` before it, for a key that the key table no longer has.
Job job_of_json(const std::string& text, const std::string& source, const Reference& reference);

// What `check --json` says of it on one line, without personal keys and names of files.
std::string result_json(Assessment answer, const Reference& reference);

// The file name under which a record keeps the user's own rules.
inline constexpr const char* own_rules_kept_as = "own rules";

// {"version": ..., "files": {"constants.toml": SHA-256, ...}}
std::string tables_json(const Reference& reference);

}  // namespace sunstrain::cli
