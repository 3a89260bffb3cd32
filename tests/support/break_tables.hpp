// Reports on cracked panes for tests.
#pragma once

#include "job_text.hpp"
#include "sunstrain/io/break_report.hpp"

namespace break_report {

using namespace sunstrain;

inline const BreakTables& tables() {
  static const BreakTables all = builtin_break_tables();
  return all;
}

// "origin.first_fork=150 mm" and so on, checked.
inline Observations seen(const std::vector<std::string>& settings) {
  Observations all{"crack.toml", {}};
  for (const std::string& setting : settings) set_key(all, setting, tables().form);
  check_break_report(all, tables());
  return all;
}

inline BreakReading read(const std::vector<std::string>& settings) { return read_break(seen(settings), tables()); }

inline std::vector<std::string> names_of(const std::vector<Clue>& clues) {
  std::vector<std::string> names;
  for (const Clue& clue : clues) names.push_back(clue.name);
  return names;
}

inline std::vector<std::string> bands_of(const BreakStress& stress) {
  std::vector<std::string> names;
  for (const std::size_t band : stress.bands) names.push_back(tables().bands[band].name);
  return names;
}

inline const StressSign& sign_named(const std::string& name) { return row_named(tables().signs, name); }

// As the program has them, to be read again with something changed.
inline const std::string& text_of(const std::string& file) { return embedded_reference_files().at(file); }

}  // namespace break_report
