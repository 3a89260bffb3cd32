// Finding a key's row in the key table, and reading its conditions for the lite in hand.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// The row that describes `key`: the row of that very name ("lite.2.coating_surface"), else the row of
// its pattern ("lite.*.tint"). Null when there is none.
const JobKey* find_job_key(const std::vector<JobKey>& keys, std::string_view key);

// A row's condition as it stands for one lite or cavity: for_key(c, "lite.2.tint") reads a fact
// "lite.*.thickness" as "lite.2.thickness". Facts of other tables keep their star (any of them).
// Apply it to `applies` and to `when` of every row whose name has a star.
Condition for_key(Condition condition, std::string_view key);

// Whether the key has a meaning beside these facts: `applies` of its row, read for this key, and a lite
// or cavity that the panes leave room for. Cannot tell when it hangs on something not known.
Truth key_applies(const JobKey& row, std::string_view key, const Facts& facts);

// The keys that a row's name stands for: itself, or one a lite or cavity; "lite.*.tint" -> "lite.1.tint" and so on up
// to three panes.
std::vector<std::string> concrete_keys(const std::string& name);

// The number of a lite or cavity key ("cavity.2.gas" -> 2); 0 for other keys.
int instance_number(std::string_view key);

}  // namespace sunstrain
