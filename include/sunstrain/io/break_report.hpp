// A report on a pane that cracked, from TOML: the observations, and the name of the job file they belong to. Its keys
// are those of reference/break_keys.toml; the tables that read it are reference/break.toml.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sunstrain/breakage.hpp"
#include "sunstrain/given_day.hpp"

namespace sunstrain {

// The tables from their two texts. `language` as it stands in a Reference. Throws BadInput that names file, row and
// key.
BreakTables load_break_tables(std::string_view keys, std::string_view tables);

// The ones that the program was built with, their sentences in a language. Throws as load_language.
BreakTables builtin_break_tables(const std::string& language = "en");

// The keys and values of a report, as a job file has them: "unknown" counts as left out. A job's own tables are
// refused: they belong in the job file. Throws BadInput with source, line, key, value and what is allowed.
Observations read_break_report(std::string_view text, std::string source_name, const BreakTables& tables);

// Every key has a meaning beside the others, and the counts and temperatures go together. Throws BadInput.
void check_break_report(const Observations& seen, const BreakTables& tables);

// The job file that the report names, from where the report lies; nothing where it names none.
std::optional<std::string> job_path_of(const Observations& seen, const std::string& report_file);

// The day as a report gives it; nothing where a part of it is not known, or not as one value.
std::optional<GivenDay> day_of(const Observations& seen);

// A report to start from.
std::string break_template(const BreakTables& tables);

}  // namespace sunstrain
