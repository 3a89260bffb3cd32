// Internal: the tables of a record.
#pragma once

#include <string>
#include <vector>

namespace sunstrain::record {

// Of the file's header: what tells a record from other SQLite files, and its form. "snst".
inline constexpr int application_id = 0x736e7374, form = 1;

struct TableText {
  const char *name, *sql;
};
// Tables and triggers, in the order in which they are made.
const std::vector<TableText>& table_texts();

}  // namespace sunstrain::record
