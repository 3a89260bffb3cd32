// The deck to practice with (reference/practice.toml), and what a trainer adds to it.
#pragma once

#include <string>
#include <string_view>

#include "sunstrain/practice.hpp"

namespace sunstrain {

// Every scenario's job must be one that `check` would take, every topic, rule and claim be known, ids be unlike. Throws
// BadInput that names file, row and what is wrong.
Deck load_deck(const std::string& file, std::string_view text, const Reference& reference);

// The one that the program was built with, of builtin_reference().
const Deck& builtin_deck();

// The same with its sentences in a language.
Deck builtin_deck_in(const Language& language);

// A trainer's scenario: a plain job file. job.name is its title, job.note what is seen; without them the file's name,
// and nothing. `name` is the file's, for messages; its last part without the ending is the id. Throws BadInput as
// read_job_toml and check_job do, and where the job names a weather file.
Scenario scenario_of_job(const std::string& name, std::string_view toml, const Reference& reference);

}  // namespace sunstrain
