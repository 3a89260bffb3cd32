#include "full_answer.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "sunstrain/job_keys.hpp"
#include "words.hpp"

namespace sunstrain::report {
namespace {

// Three columns of figures behind a label, as wide as the page allows.
struct Rows {
  int width;
  std::string operator()(const std::string& label, const std::string& before, const std::string& after,
                         const std::string& change) const {
    const int labels = width >= 76 ? 30 : 23, figures = std::min(14, (width - 2 - labels) / 3);
    std::string line =
        fmt::format("  {:<{}}{:>{}}{:>{}}{:>{}}", label, labels, before, figures, after, figures, change, figures);
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
  }
};

std::string degrees(double kelvin, Units units) { return warmth_text(kelvin, 1, units); }

std::string lite_block(const Assessment& a, std::size_t index, const Language& language, const TextStyle& style) {
  const Units units = style.units;
  const Rows row{style.width};
  const LiteFigures &b = a.lites[index].before, &f = a.lites[index].after;
  const auto kelvin = [&](double x) {
    return units == Units::inch ? fmt::format("{:+.1f} F", x * 1.8) : fmt::format("{:+.1f} K", x);
  };
  const auto change_pa = [&](double x) { return (x >= 0 ? "+" : "-") + stress_text(std::abs(x), units); };
  std::string block = a.sheets[index].panel
                          ? tell(language, "The {}", sheet_name(language, a, index))
                          : tell(language, "Lite {} ({})", a.sheets[index].lite + 1, sheet_name(language, a, index));
  block = "\n" + block + "\n";
  block += row("", tell(language, "no film"), tell(language, "with film"), tell(language, "difference"));
  block +=
      row(tell(language, "takes up of the sun"), percent_text(b.absorbed_fraction), percent_text(f.absorbed_fraction),
          fmt::format("{:+.0f} %", 100 * (f.absorbed_fraction - b.absorbed_fraction)));
  block += row(tell(language, "middle, at the peak"), degrees(b.center_k, units), degrees(f.center_k, units),
               kelvin(f.center_k - b.center_k));
  block += row(tell(language, "edge, at the peak"), degrees(b.edge_k, units), degrees(f.edge_k, units),
               kelvin(f.edge_k - b.edge_k));
  block += row(tell(language, "edge stress, bad end"), stress_text(b.peak_stress_pa, units),
               stress_text(f.peak_stress_pa, units), change_pa(f.peak_stress_pa - b.peak_stress_pa));
  block +=
      row(tell(language, "edge stress, middle run"), stress_text(b.peak_stress_middle_pa, units),
          stress_text(f.peak_stress_middle_pa, units), change_pa(f.peak_stress_middle_pa - b.peak_stress_middle_pa));
  block += row(tell(language, "go line / refer line"), "", stress_text(f.allowable_pa, units),
               stress_text(f.refer_pa, units));
  block += row(tell(language, "share of the go line"), fmt::format("{:.2f}", b.stress_ratio),
               fmt::format("{:.2f}", f.stress_ratio), "");
  const auto say = [&](const std::string& text) { block += labeled("", text, 2, style.width); };
  say(tell(language, "worst hour, no film: {}; with film: {}", moment_text(language, b.when),
           moment_text(language, f.when)));
  say(tell(language, "peak on the {} edge, {} from its {} end", told(language, side_word(f.side)),
           format_length(f.position_m, units), end_word(language, f.side)));
  say(tell(language, "odds of a break, no film: {}", odds_text(language, b.odds)));
  say(tell(language, "odds of a break, with film: {}", odds_text(language, f.odds)));
  return block;
}

std::string glazing_block(const Assessment& a, const Language& language, const TextStyle& style) {
  const Rows row{style.width};
  const auto line = [&](const std::string& label, double b, double f) {
    return row(label, fmt::format("{:.2f}", b), fmt::format("{:.2f}", f), fmt::format("{:+.2f}", f - b));
  };
  return "\n" + tell(language, "The whole glazing") + "\n" +
         row("", tell(language, "no film"), tell(language, "with film"), tell(language, "difference")) +
         line(tell(language, "lets through of the sun"), a.before.solar_transmittance, a.after.solar_transmittance) +
         line(tell(language, "throws back of the sun"), a.before.solar_reflectance, a.after.solar_reflectance) +
         line(tell(language, "SHGC (summer)"), a.before.shgc, a.after.shgc) +
         line(tell(language, "U, EN 673 (W/m2K)"), a.before.u_value_w_m2k, a.after.u_value_w_m2k);
}

std::string driver_text(const Driver& driver, const Reference& reference, Units units) {
  const auto text = [&](const Value& value) { return value_text(reference, driver.key, value, units); };
  const JobKey* key = find_job_key(reference.job_keys, driver.key);
  const Language& language = reference.language;
  std::string line = tell(language, "{} {}; with {}: {:.2f}", key_words(language, driver.key), text(driver.taken),
                          text(driver.tried), driver.stress_ratio);
  if (driver.slope) line += fmt::format(" ({})", slope_text(language, *key, *driver.slope, units));
  if (driver.how.empty()) return line;
  return driver.act == DriverRow::Act::can_do ? tell(language, "{}. To do: {}", line, driver.how)
                                              : tell(language, "{}. Find out: {}", line, driver.how);
}

std::string drivers_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  if (a.drivers.empty()) return "";
  std::string block =
      "\n" + tell(reference.language, "What drives it (now {:.2f}), most first, each changed alone", a.stress_ratio) +
      "\n";
  for (const Driver& driver : a.drivers) {
    std::string line = labeled("", driver_text(driver, reference, style.units), 4, style.width);
    block += line.erase(0, 2);  // the first line stands out by two columns
  }
  return block;
}

std::string unknowns_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  if (a.unknowns.empty()) return "";
  const Language& language = reference.language;
  std::string block = "\n" + tell(language, "Not known: as taken at the bad end and in the middle") + "\n";
  for (const UnknownTaken& u : a.unknowns) {
    const std::string effect = u.taken_bad == u.taken_middle
                                   ? ""
                                   : tell(language, "; at its middle value {:.2f}", u.ratio_at_middle) +
                                         (u.decided ? tell(language, ", decided") : "");
    block += labeled("",
                     fmt::format("{}: {} / {} ({}){}", key_words(language, u.key),
                                 value_text(reference, u.key, u.taken_bad, style.units),
                                 value_text(reference, u.key, u.taken_middle, style.units), u.why, effect),
                     2, style.width);
  }
  return block;
}

std::string notes_block(const Assessment& a, const Language& language, const TextStyle& style) {
  std::string block;
  for (const Rule& rule : a.rules) {
    if (rule.severity == Severity::note)
      block += labeled("", rule_name(language, rule) + ": " + rule.text, 2, style.width);
  }
  return block.empty() ? "" : "\n" + tell(language, "On the day, and for the papers") + "\n" + block;
}

}  // namespace

std::string full_answer(const Assessment& a, const Reference& reference, const TextStyle& style) {
  const Language& language = reference.language;
  std::string text;
  for (std::size_t lite = 0; lite < a.lites.size(); ++lite) text += lite_block(a, lite, language, style);
  text +=
      labeled("",
              tell(language,
                   "Odds: on one worst-case day; an upper estimate, not a prediction for this pane. Ordinary unfilmed "
                   "coated units carry as much on every clear winter day and do not break at that rate."),
              2, style.width);
  text += glazing_block(a, language, style);
  text += drivers_block(a, reference, style);
  text += unknowns_block(a, reference, style);
  text += notes_block(a, language, style);
  text +=
      labeled("", tell(language, "{}. Times are local standard time.", tables_words(reference)), 2, style.width) + "\n";
  return text;
}

}  // namespace sunstrain::report
