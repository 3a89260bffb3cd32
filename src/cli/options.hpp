// Options as every subcommand reads them: no abbreviations, every value checked, one line for whatever is wrong.
#pragma once

#include <boost/program_options.hpp>
#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain::cli {

namespace po = boost::program_options;

// What was given; --language goes with every command. Throws BadInput naming the option. `positional` is the option
// that takes the bare words, or null.
po::variables_map read_options(const Words& words, const po::options_description& options, const char* positional,
                               const char* command);

// The options as a help page lists them.
std::string option_list(const po::options_description& options, const Language& language);

// Every text given for an option that may be repeated, or bare.
using Texts = std::vector<std::string>;
Texts texts_of(const po::variables_map& given, const char* name);

// The text given for an option, or `otherwise`.
std::string text_of(const po::variables_map& given, const char* name, const std::string& otherwise);

// The same where only some words are allowed; `otherwise` need not be among them.
std::string word_among(const po::variables_map& given, const char* name, const std::vector<std::string>& allowed,
                       const std::string& otherwise);

// The day given for an option ("2025-02-21"); nothing where it was left out.
std::optional<std::string> day_given(const po::variables_map& given, const char* name);

// The language asked for, as it was typed: English when it was not.
std::string language_of(const po::variables_map& given);

// A whole number in a range.
int whole_number(const po::variables_map& given, const char* name, int least, int most, int otherwise);

// --threads; the sentence says what is worked at once.
void add_threads_option(po::options_description& all, const char* sentence);
// As many as it says; all cores when it was left out.
std::size_t threads_of(const po::variables_map& given);

// A job key's way of reading a text with its unit, for an option that is none. Range in SI, inclusive.
JobKey quantity_key(JobKey::Kind kind, const char* unit, double minimum, double maximum, const char* sentence);

// The number given for an option, SI, or `otherwise`.
double number_of(const po::variables_map& given, const char* name, const JobKey& key, double otherwise);

Units units_of(const po::variables_map& given);

}  // namespace sunstrain::cli
