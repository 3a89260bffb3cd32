#include "parts.hpp"

#include <fmt/format.h>

#include "../report/words.hpp"

namespace sunstrain::paper {

std::string warmth_unit(Units units) { return units == Units::inch ? "\u00B0F" : "\u00B0C"; }

std::string warmth_words(double kelvin, int digits, Units units) {
  return fmt::format("{:.{}f} {}", shown_warmth(kelvin, units), digits, warmth_unit(units));
}

std::string share_words(double ratio) { return fmt::format("{:.2f}", ratio); }

void add_typed(Named& rows, const std::string& name, const std::string& value) {
  if (!value.empty()) rows.emplace_back(name, typed(value));
}

std::string pane_name(const SheetPane& pane, const Language& language) {
  if (!pane.label.empty()) return pane.label;
  if (const auto name = word_of(pane.answer.job, "job.name")) return *name;
  return pane.answer.job.source == "options" ? tell(language, "one pane") : pane.answer.job.source;
}

std::string size_words(const Job& job, Units units, const Language& language) {
  return tell(language, "{} wide, {} high", format_length(*number_of(job, "pane.width"), units),
              format_length(*number_of(job, "pane.height"), units));
}

}  // namespace sunstrain::paper
