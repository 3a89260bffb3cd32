// The tables of reference/ as text turned into a Reference. Every column and key must be known, every row
// must carry its source; anything else is a BadInput that names file, row and key.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// File name -> text. Needs glass_solar.csv, glass.toml, frames.toml, gases.toml, shades.toml, grounds.toml,
// places.csv, constants.toml, hand_methods.toml, job_keys.toml, rules.toml and drivers.toml; other files are not this
// function's and are left alone. Reference::version is a fingerprint of all the texts.
Reference load_reference(const std::map<std::string, std::string>& files);

// Rules in the form of reference/rules.toml. `file` is used in messages only.
std::vector<Rule> load_rules(const std::string& file, std::string_view text, const std::vector<JobKey>& job_keys,
                             bool users_own);

// The tables that the program was built with; written by reference/embed.cmake.
const std::map<std::string, std::string>& embedded_reference_files();

// load_reference(embedded_reference_files()), done once.
const Reference& builtin_reference();

}  // namespace sunstrain
