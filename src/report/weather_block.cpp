#include "weather_block.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "words.hpp"

namespace sunstrain::report {
namespace {

std::string date_text(const Language& language, int month, int day) {
  return tell(language, "{} {}", day, month_word(language, month));
}

std::size_t worst_lite(const WeatherRun& run) {
  const auto worst = std::max_element(run.lites.begin(), run.lites.end(), [](const YearLite& a, const YearLite& b) {
    return a.stress_ratio < b.stress_ratio;
  });
  return static_cast<std::size_t>(worst - run.lites.begin());
}

std::string hours(const Language& language, double h) {
  return h > 0.0 && h < 1.0 ? tell(language, "under 1 h") : fmt::format("{:.0f} h", h);
}

// The sixteenth power makes these figures wild: two digits, and no more than "over".
std::string fatigue(const Language& language, double h) {
  if (h < 0.01) return tell(language, "next to none");
  return h < 10000.0 ? fmt::format("{:.2g} h", h) : tell(language, "over 10000 h");
}

std::string in_full(const WeatherAnswer& w, const YearLite& before, const YearLite& after, const Language& language,
                    int width) {
  std::string block;
  const auto list = [&](const YearLite& lite) {
    std::string text;
    for (const YearDay& day : lite.worst_days)
      text += fmt::format("{}{} ({:.2f})", text.empty() ? "" : ", ", date_text(language, day.month, day.day),
                          day.stress_ratio);
    return text.empty() ? tell(language, "none to speak of") : text;
  };
  block += figure_row("  " + tell(language, "fatigue, as hours at the go line"),
                      fatigue(language, before.hours_at_line), fatigue(language, after.hours_at_line), width);
  const auto say = [&](const std::string& text) { block += labeled("", text, 2, width); };
  say(tell(language, "worst days, no film: {}", list(before)));
  say(tell(language, "worst days, with film: {}", list(after)));
  say(tell(language, "odds of a break, no film, 1 / 10 / 25 such years: {}; {}; {}", odds_text(language, before.odds_1),
           odds_text(language, before.odds_10), odds_text(language, before.odds_25)));
  say(tell(language, "odds of a break, with film, 1 / 10 / 25 such years: {}; {}; {}",
           odds_text(language, after.odds_1), odds_text(language, after.odds_10), odds_text(language, after.odds_25)));
  for (const std::string& remark : w.remarks) say(tell(language, "about the file: {}", remark));
  return block;
}

}  // namespace

std::string weather_block(const Assessment& a, const Language& language, const TextStyle& style) {
  if (!a.weather) return "";
  const WeatherAnswer& w = *a.weather;
  const std::size_t index = worst_lite(w.after);
  const YearLite &before = w.before.lites[index], &after = w.after.lites[index];
  std::string block = figure_row(tell(language, "The year of {} ({:.0f} h)", w.source, w.hours),
                                 tell(language, "no film"), tell(language, "with film"), style.width);
  block +=
      figure_row("  " + tell(language, "worst {}, {}, {}", date_text(language, after.month, after.day),
                             format_hour(after.local_hour), sheet_name(language, a, index)),
                 fmt::format("{:.2f}", before.stress_ratio), fmt::format("{:.2f}", after.stress_ratio), style.width);
  for (std::size_t i = 0; i < year_ratios.size(); ++i) {
    if (!style.full && year_ratios[i] != 0.75 && year_ratios[i] != 1.0) continue;
    block += figure_row("  " + tell(language, "at {:.2f} of the go line or more", year_ratios[i]),
                        hours(language, before.hours[i]), hours(language, after.hours[i]), style.width);
  }
  if (style.full)
    block += in_full(w, before, after, language, style.width);
  else if (!w.remarks.empty())
    block += labeled("",
                     w.remarks.size() == 1 ? tell(language, "a remark about the file: see --full")
                                           : tell(language, "{} remarks about the file: see --full", w.remarks.size()),
                     2, style.width);
  return block;
}

}  // namespace sunstrain::report
