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
// places.csv, constants.toml, hand_methods.toml, job_keys.toml, rules.toml, drivers.toml, samples.toml and
// warmth_scale.csv; other files are not this function's and are left alone. Reference::version is a fingerprint of all
// the data.
Reference load_reference(const std::map<std::string, std::string>& files);

// Every table but texts.csv, which says the same in other words.
bool is_data(const std::string& file);

// Rules in the form of reference/rules.toml. `file` is used in messages only.
std::vector<Rule> load_rules(const std::string& file, std::string_view text, const std::vector<JobKey>& job_keys);

// The tables with a user's own rules beside the built-in ones, which all stay: an answer can only get stricter. The
// file has the form of reference/rules.toml; mechanism, training, source and certainty may be left out. Throws BadInput
// in one line with file, rule, key and what is allowed: also an id that a built-in rule has, an id or a text that is
// not one plain line.
Reference with_own_rules(Reference reference, const std::string& file, std::string_view text);

// The tables that the program was built with; written by reference/embed.cmake.
const std::map<std::string, std::string>& embedded_reference_files();

// load_reference(embedded_reference_files()), done once.
const Reference& builtin_reference();

// The languages that sentences are told in: the columns of reference/texts.csv, English first.
std::vector<std::string> languages();

// Throws BadInput that names the languages for one that is none of them.
Language load_language(const std::string& code);

// builtin_reference() with its sentences in a language, in which reports are then told too. Names, keys, the words of
// choices and all figures stay. Throws as load_language.
Reference builtin_reference_in(const std::string& code);

}  // namespace sunstrain
