// The reference data as tables to read: every row with its values as the files of reference/ give them, its source and
// how that was had. Works on the files themselves, so a new table or column shows without more.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

struct DataTableRow {
  std::string name;
  std::vector<std::pair<std::string, std::string>> values;  // key (with its unit, as in the file) and value
  std::string note;                                         // what it is; may be empty
  Source source;
};

struct DataTable {
  std::string name, file, about;  // "coating", "glass.toml", one sentence
  std::vector<DataTableRow> rows;
};

// Of load_reference's files, in the order of their names. How keys are taken that nobody knows (job_keys.toml) is a
// table too, "unknowns": all judgement, the phrase of each row its source. Throws BadInput as load_reference does.
std::vector<DataTable> data_tables(const std::map<std::string, std::string>& files);

// The table "own-rules" of a file that went into `reference` by with_own_rules.
DataTable own_rules_table(std::string_view text, const Reference& reference);

// "read", "common practice"; as the files write them.
std::string certainty_word(Certainty certainty);

}  // namespace sunstrain
