// What the actions of `sunstrain record` have in common.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "../io/tell.hpp"
#include "options.hpp"
#include "sunstrain/record/store.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::cli {

// --record; and --json, --width for those that print.
void add_record_option(po::options_description& all);
void add_print_options(po::options_description& all);

// The file of --record. Throws BadInput where it was left out.
std::string record_path(const po::variables_map& given);

// The only bare word, a number of an entry. Throws BadInput.
std::int64_t entry_number(const po::variables_map& given, const char* command);
std::int64_t number_among_entries(const std::string& text, const char* what);

// This moment, UTC, as an entry has it: "2026-02-17T09:30:00Z".
std::string utc_now();

// "1a2b3c4d 5e6f..." of 64 digits: eight groups that a person can copy off paper; and back, blanks or not.
std::string grouped(const std::string& hash);
std::string ungrouped(const std::string& typed, const char* option);

// A printed answer: its language, and lines of a label and a text.
struct Paper {
  Reference reference;  // in that language
  int width = 80;
  const Language& language() const { return reference.language; }
  std::string line(const std::string& label, const std::string& text) const;
  // What goes onto paper to hold the record against later.
  std::string head(const record::Head& head) const;
  // The safety note, last.
  std::string note() const;
};
Paper paper_of(const po::variables_map& given);

// Text outside the chain under a field's name; empty where there is none.
std::string field_of(const std::vector<record::Store::Kept>& fields, const std::string& name);

Outcome record_add(const Words& words);
Outcome record_list(const Words& words);
Outcome record_show(const Words& words);
Outcome record_find(const Words& words);
Outcome record_verify(const Words& words);
Outcome record_export(const Words& words);
Outcome record_rerun(const Words& words);
Outcome record_erase(const Words& words);

po::options_description record_add_options();
po::options_description record_list_options();
po::options_description record_show_options();
po::options_description record_find_options();
po::options_description record_verify_options();
po::options_description record_export_options();
po::options_description record_rerun_options();
po::options_description record_erase_options();

}  // namespace sunstrain::cli
