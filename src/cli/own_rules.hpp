// --rules FILE: a user's own rules beside the built-in ones, which speak the language of --language.
#pragma once

#include "options.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::cli {

// add_answer_options has it already.
void add_rules_option(po::options_description& all);

// The tables to answer by: the built-in ones, with the rules of the file that was given. Throws BadInput for a file
// that cannot be used.
Reference reference_of(const po::variables_map& given);

}  // namespace sunstrain::cli
