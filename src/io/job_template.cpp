#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "job_lines.hpp"
#include "job_words.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "tell.hpp"

namespace sunstrain {

namespace {

using Kind = JobKey::Kind;

// The film needs one of several sets of figures; the template fills in the shortest.
constexpr std::string_view example_of_film = "film.solar_absorptance";

std::string allowed(const JobKey& row, const Language& language) {
  if (row.kind == Kind::choice) return " " + tell(language, "One of: {}.", joined(row.choices));
  if (row.kind == Kind::text || row.kind == Kind::date) return "";
  return " " + tell(language, "{} to {}.", format_in_unit(row.kind, row.minimum, row.unit),
                    format_in_unit(row.kind, row.maximum, row.unit));
}

std::string left_out(const JobKey& row, const Language& language) {
  if (row.required) return " " + tell(language, "Required.");
  if (row.taken.empty()) return "";
  if (row.taken.size() > 1) return " " + tell(language, "Left out: taken at its worst for what else is known.");
  std::vector<std::string> words;
  for (const Value& value : row.taken.front().bad) {
    const double* number = std::get_if<double>(&value);
    words.push_back(number != nullptr ? format_in_unit(row.kind, *number, row.unit)
                                      : format_value(row, value, Units::metric));
  }
  return " " + (words.size() > 1 ? tell(language, "Left out: {}, the worst kept.", joined(words))
                                 : tell(language, "Left out: {}.", joined(words)));
}

std::string entry(const JobKey& row, const Language& language) {
  std::string out = "\n" + comment(row.sentence + allowed(row, language) + left_out(row, language));
  if (!row.refused.empty()) out += comment(tell(language, "By itself not enough: {}.", row.refused));
  if (!row.question.empty()) out += comment(tell(language, "How to find out: {}", row.question));
  const bool filled = row.required || row.name == example_of_film;
  return out + fmt::format("{}{} = {}\n", filled ? "" : "#", name_in_table(row.name), example_value(row));
}

std::string table_text(const std::string& table, const Reference& reference) {
  std::string out = table.empty() ? "" : fmt::format("\n[{}]\n", table);
  const bool next_lite = table.compare(0, 5, "lite.") == 0 && table != "lite.1";
  if (next_lite)
    out += comment(tell(reference.language, "A unit of several lites: this one has the keys of [lite.1], and"));
  for (const JobKey& row : reference.job_keys) {
    if (table_of(row.name) == table) out += entry(row, reference.language);
  }
  return out;
}

std::string film_sets(const Language& language) {
  return comment(
      tell(language,
           "The film, as its sheet has it, one of: solar_absorptance; solar_transmittance and solar_reflectance; "
           "these three; shgc and solar_transmittance. Solar figures, never the visible ones."));
}

}  // namespace

std::string key_template(const Reference& reference, const std::string& opening) {
  std::string out = comment(opening);
  std::vector<std::string> tables{""};  // keys in no table come before the first
  for (const JobKey& row : reference.job_keys) {
    const std::string table = table_of(row.name);
    if (std::find(tables.begin(), tables.end(), table) == tables.end()) tables.push_back(table);
  }
  for (const std::string& table : tables) {
    std::string text = table_text(table, reference);
    if (table == "film") text.insert(text.find("]\n") + 2, film_sets(reference.language));
    out += text;
  }
  return out;
}

std::string job_template(const Reference& reference) {
  return key_template(
      reference,
      tell(reference.language,
           "A pane and its film. Take the # off every line that you know and write what you see; \"unknown\" is the "
           "same as left out. Lengths need their unit: 37 1/4 in, 3 ft 1 in, 946 mm. Shares are 0.45 or \"45 %\". "
           "Known in part: \"5 to 7 mm\", or \"none or low-e-soft\" with the likeliest first. "
           "Surfaces, lites and cavities are counted from outdoors."));
}

}  // namespace sunstrain
