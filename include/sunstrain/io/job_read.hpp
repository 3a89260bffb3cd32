// A job from TOML or from options, checked against the key table before the engine sees it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// The keys of a job file: `[pane] width = "37 1/4 in"`, lites as `[lite.1]`. "unknown" counts as left out; a range
// ("5 to 7 mm") or alternatives ("none or low-e-soft") become a key that is known in part.
// Throws BadInput with source, line, key, value and what is allowed. Single values only: whether they fit
// one another is for check_job, after the options have had their say.
Job read_job_toml(std::string_view text, std::string source_name, const Reference& reference);

// The same file as keys and texts, by name, for who goes on editing it: set_value makes the same job of them. Throws
// BadInput as read_job_toml.
using KeyTexts = std::vector<std::pair<std::string, std::string>>;
KeyTexts job_texts(std::string_view text, std::string source_name, const Reference& reference);

// Keys and texts as a job file: a table for each table of keys, in the key table's order. job_texts reads it back.
// Throws BadInput for a key that is none.
std::string job_file_text(const KeyTexts& texts, const Reference& reference);

// One option "film.solar_absorptance=0.5" over whatever the job holds; "film.shgc=unknown" takes it out.
void set_key(Job& job, std::string_view assignment, const Reference& reference);

// The same for a key and a text; `where` opens the message of a BadInput: "schedule.csv, row 3".
void set_value(Job& job, std::string_view key, std::string_view text, std::string_view where,
               const Reference& reference);

// What a text says for a key, in SI; nothing for "unknown". Throws BadInput without source, key and value.
std::optional<Value> parse_value(const JobKey& key, std::string_view text);

// The same of a text that says several things: a range of a number with its ends and three places between, in SI
// ("5 to 7 mm": a unit behind the last holds for the others); alternatives, the likeliest first ("none or low-e-soft");
// the common start of several choices ("low-e"). Nothing where it says one thing or none. Throws BadInput as above.
std::optional<PartlyKnown> parse_partly(const JobKey& key, std::string_view text);

// What is required is there, the film has a usable set of figures that can be, every key has a meaning
// beside the others, every surface is one that the glazing has. Throws BadInput for the first that is not.
void check_job(const Job& job, const Reference& reference);

// A file to start from of any table of keys, under what `opening` says.
std::string key_template(const Reference& reference, const std::string& opening);

// A job file to start from, made from the key table: required keys filled with examples, the rest as comments.
std::string job_template(const Reference& reference);

// A path as a file names it: a relative one from where that file lies. Without a file as it stands.
std::string path_beside(const std::string& named, const std::string& file);

// A whole text file. Throws BadInput with path and reason: missing, a directory, unreadable, larger than
// max_bytes, empty, not UTF-8 text.
std::string read_text_file(const std::string& path, std::size_t max_bytes = 10'000'000);

// Whether the bytes are UTF-8 (RFC 3629); a zero byte is.
bool is_utf8(std::string_view bytes);

// Throws BadInput where `text` is no UTF-8 text: a zero byte, or a byte sequence that means nothing.
void require_text(std::string_view text, std::string_view source_name);

}  // namespace sunstrain
