#include "record_options.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <ctime>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {

void add_record_option(po::options_description& all) {
  all.add_options()("record,r", po::value<std::string>()->value_name("FILE"), "the record; must be named");
}

void add_print_options(po::options_description& all) {
  all.add_options()("json", "as JSON")("width", po::value<std::string>()->value_name("COLUMNS"), "60 to 200");
}

std::string record_path(const po::variables_map& given) {
  if (given.count("record") == 0) throw BadInput("record: name the record with -r FILE");
  return text_of(given, "record", "");
}

std::int64_t number_among_entries(const std::string& text, const char* what) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc() && end == text.data() + text.size() && number >= 1) return number;
  throw BadInput(say("{}: {}: allowed: the number of an entry, from 1", what, sunstrain::quoted(text)));
}

std::int64_t entry_number(const po::variables_map& given, const char* command) {
  const Texts bare = texts_of(given, "number");
  if (bare.size() != 1) throw BadInput(say("{}: name one entry by its number", command));
  return number_among_entries(bare.front(), command);
}

std::string utc_now() { return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr))); }

std::string grouped(const std::string& hash) {
  std::string text;
  for (std::size_t at = 0; at < hash.size(); at += 8) text += (at > 0 ? " " : "") + hash.substr(at, 8);
  return text;
}

std::string ungrouped(const std::string& typed, const char* option) {
  std::string digits = lower_case(typed);
  std::erase_if(digits, [](char c) { return c == ' ' || c == '-'; });
  if (digits.size() == 64 && digits.find_first_not_of("0123456789abcdef") == std::string::npos) return digits;
  throw BadInput(
      say("--{} = {}: allowed: the 64 digits of a printed head, 0 to 9 and a to f", option, sunstrain::quoted(typed)));
}

std::string Paper::line(const std::string& label, const std::string& text) const {
  return report::labeled(label, text, report::label_columns, width);
}

std::string Paper::head(const record::Head& head) const {
  return line(tell(language(), "Head"), tell(language(), "{}, entries: {}", grouped(head.hash), head.entries));
}

std::string Paper::note() const { return line(tell(language(), "Note"), safety_note(reference)); }

Paper paper_of(const po::variables_map& given) {
  return {builtin_reference_in(language_of(given)),
          whole_number(given, "width", least_width, most_width, terminal_width())};
}

std::string field_of(const std::vector<record::Store::Kept>& fields, const std::string& name) {
  const auto it = std::find_if(fields.begin(), fields.end(), [&](const auto& one) { return one.field == name; });
  return it == fields.end() ? "" : it->text;
}

}  // namespace sunstrain::cli
