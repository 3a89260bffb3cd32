#include "parts.hpp"

#include <fmt/format.h>

#include "../report/words.hpp"

namespace sunstrain::paper {
namespace {
constexpr double pa_per_mpa = 1e6, pa_per_psi = 6894.757;
}

double shown_warmth(double kelvin, Units units) {
  const double celsius = kelvin - 273.15;
  return units == Units::inch ? 1.8 * celsius + 32.0 : celsius;
}

std::string warmth_unit(Units units) { return units == Units::inch ? "\u00B0F" : "\u00B0C"; }

std::string warmth_words(double kelvin, int digits, Units units) {
  return fmt::format("{:.{}f} {}", shown_warmth(kelvin, units), digits, warmth_unit(units));
}

double shown_stress(double pa, Units units) { return pa / (units == Units::inch ? pa_per_psi : pa_per_mpa); }

std::string stress_unit(Units units) { return units == Units::inch ? "psi" : "MPa"; }

std::string share_words(double ratio) { return fmt::format("{:.2f}", ratio); }

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
