// The options that commands about whole jobs share.
#pragma once

#include "options.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::cli {

// --set, --json, --rules, --units, --no-color, --width and --help.
void add_answer_options(po::options_description& all);

// --units, --no-color, --width and --help: the last of them.
void add_style_options(po::options_description& all);

// How the answer is to look. --full where the command has it.
TextStyle style_of(const po::variables_map& given);

}  // namespace sunstrain::cli
