// Rows with a `name`, such as the program's commands.
#pragma once

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

namespace sunstrain::cli {

// The row of that name; null: there is none.
template <class Rows>
auto row_named(const Rows& rows, std::string_view name) {
  const auto found = std::find_if(std::begin(rows), std::end(rows), [&](const auto& row) { return row.name == name; });
  return found == std::end(rows) ? nullptr : &*found;
}

template <class Rows>
std::vector<std::string> names_of(const Rows& rows) {
  std::vector<std::string> names;
  for (const auto& row : rows) names.emplace_back(row.name);
  return names;
}

}  // namespace sunstrain::cli
