// The one-screen answer: verdict and what to do, the figures, why, what was not known, what would help.
#include "sunstrain/report/text_answer.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "full_answer.hpp"
#include "samples_block.hpp"
#include "sealed_text.hpp"
#include "sunstrain/report/reasons.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/report/to_do.hpp"
#include "weather_block.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

std::string headline(const Assessment& a, const Language& language, const TextStyle& style) {
  const std::string word = verdict_mark(language, a.verdict, false);
  std::string title = word_of(a.job, "job.name").value_or("");
  const auto film = word_of(a.job, "film.name");
  const std::string right = film ? tell(language, "film: {}", *film) : "";
  const std::size_t width = static_cast<std::size_t>(style.width);
  const std::size_t room = width > columns(word) + columns(right) + 3 ? width - columns(word) - columns(right) - 3 : 0;
  if (columns(title) > room) {  // a long name is cut, never the verdict
    std::size_t bytes = 0, seen = 0;
    while (bytes < title.size() && seen + 1 < room) {
      ++bytes;
      while (bytes < title.size() && (static_cast<unsigned char>(title[bytes]) & 0xC0U) == 0x80U) ++bytes;
      ++seen;
    }
    title = room > 1 ? title.substr(0, bytes) + "~" : "";
  }
  const std::size_t used = columns(word) + 1 + columns(title) + columns(right);
  const std::string gap(width > used ? width - used : 1, ' ');
  std::string line = verdict_mark(language, a.verdict, style.color) + " " + title + (right.empty() ? "" : gap + right);
  return line + "\n";
}

std::string readings_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  if (a.verdict != Verdict::caution) return "";
  std::string block;
  for (const UnknownTaken& open : a.unknowns) {
    std::string line;
    for (const Reading& reading : open.readings) {
      line += fmt::format("{}{}: {} ({:.2f})", line.empty() ? "" : ";  ",
                          value_text(reference, open.key, reading.value, style.units),
                          verdict_words(reference.language, reading.verdict), reading.stress_ratio);
    }
    if (!line.empty())
      block +=
          labeled("", (open.decided ? "" : key_words(reference.language, open.key) + " - ") + line, 3, style.width);
  }
  return block;
}

std::string figures_block(const Assessment& a, const Language& language, const TextStyle& style) {
  const LiteResult& lite = a.lites[a.governing_lite];
  const std::string name = sheet_name(language, a, a.governing_lite);
  std::string block = figure_row(tell(language, "Worst: {}", moment_text(language, lite.after.when)),
                                 tell(language, "no film"), tell(language, "with film"), style.width);
  block +=
      figure_row("  " + tell(language, "{}, edge stress", name), stress_text(lite.before.peak_stress_pa, style.units),
                 stress_text(lite.after.peak_stress_pa, style.units), style.width);
  const std::string bears =
      style.width < 70 ? "" : fmt::format(" ({})", stress_text(lite.after.allowable_pa, style.units));
  block += figure_row("  " + tell(language, "share of what the edge bears") + bears,
                      fmt::format("{:.2f}", lite.before.stress_ratio), fmt::format("{:.2f}", lite.after.stress_ratio),
                      style.width);
  return block;
}

std::string why_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  constexpr std::size_t most = 3;
  const std::vector<Reason> reasons = reasons_of(a, reference, style.units);
  std::string block;
  std::size_t shown = 0;
  for (const Reason& reason : reasons) {
    if (reason.kind == "guidance") continue;  // has a line of its own
    if (shown == most && !style.full) break;
    block += labeled(shown == 0 ? tell(reference.language, "Why") : "", reason.text, label_columns, style.width);
    ++shown;
  }
  return block;
}

std::string unknown_text(const UnknownTaken& unknown, const Job& job, const Reference& reference, Units units) {
  const Language& language = reference.language;
  const auto value = [&](const auto& taken) { return value_text(reference, unknown.key, taken, units); };
  const auto known = job.partly.find(unknown.key);
  const std::string given = known == job.partly.end() ? "" : value(known->second) + ", ";
  const std::string taken = tell(language, "taken {}", value(unknown.taken_bad));
  return fmt::format("{} ({}{}{})", key_words(language, unknown.key), given, taken,
                     unknown.decided ? tell(language, ", decided") : "");
}

std::string unknown_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  constexpr std::size_t most = 4;
  std::string text;
  std::size_t shown = 0, alike = 0;
  for (const UnknownTaken& unknown : a.unknowns) {
    const bool matters = unknown.taken_bad != unknown.taken_middle;
    if (!matters || shown == most) {
      ++alike;
      continue;
    }
    text += (text.empty() ? "" : ", ") + unknown_text(unknown, a.job, reference, style.units);
    ++shown;
  }
  if (alike > 0) text += (text.empty() ? "" : "; ") + tell(reference.language, "{} more at their usual value", alike);
  return text.empty() ? "" : labeled(tell(reference.language, "Not known"), text, label_columns, style.width);
}

std::string sealed_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  const std::string text = sealed_text(a, reference, style.units);
  return text.empty() ? "" : labeled(tell(reference.language, "Sealed"), text, label_columns, style.width);
}

// Those about which something can be done or found out; --full has them all.
std::string driven_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  constexpr std::size_t most = 2;
  std::string text;
  std::size_t shown = 0;
  for (const Driver& driver : a.drivers) {
    if (driver.act == DriverRow::Act::given || shown == most) continue;
    text += fmt::format("{}{} ({}: {:.2f})", text.empty() ? "" : ", ", key_words(reference.language, driver.key),
                        value_text(reference, driver.key, driver.tried, style.units), driver.stress_ratio);
    ++shown;
  }
  return text.empty() ? "" : labeled(tell(reference.language, "Driven by"), text, label_columns, style.width);
}

std::string help_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  std::string text;
  for (const std::string& help : helps_of(a, reference, style.units)) text += (text.empty() ? "" : "; ") + help;
  return text.empty() ? "" : labeled(tell(reference.language, "Would help"), text, label_columns, style.width);
}

std::string guidance_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  const Language& language = reference.language;
  std::string text =
      tell(language, "{}; figures alone: {}.", verdict_words(language, a.guidance), verdict_words(language, a.figures));
  std::size_t shown = 0, more = 0;
  const auto say = [&](const std::string& rule) {
    if (shown < 2 || style.full)
      text += " " + rule;
    else
      ++more;
    ++shown;
  };
  for (const Rule& rule : a.rules) {
    if (rule.severity != Severity::note) say(fmt::format("{}: {}", rule_name(language, rule), rule.text));
  }
  for (const OpenRule& open : a.open_rules) {
    std::string rule = open_rule_text(open, reference, style.units);
    if (rule.front() >= 'a' && rule.front() <= 'z') rule.front() = static_cast<char>(rule.front() - 'a' + 'A');
    say(rule);
  }
  if (more > 0) text += tell(language, " ({} more, see --full)", more);
  return labeled(tell(language, "Guidance"), text, label_columns, style.width);
}

}  // namespace

std::string text_answer(const Assessment& a, const Reference& reference, const TextStyle& style) {
  std::string text = headline(a, reference.language, style);
  text += labeled("", to_do(a, reference, style.width >= 70), 1, style.width);
  text += readings_block(a, reference, style);
  text += figures_block(a, reference.language, style);
  text += report::weather_block(a, reference.language, style);
  text += why_block(a, reference, style);
  text += driven_block(a, reference, style);
  text += unknown_block(a, reference, style);
  text += report::samples_block(a, reference, style);
  text += sealed_block(a, reference, style);
  text += help_block(a, reference, style);
  text += guidance_block(a, reference, style);
  if (style.full) text += report::full_answer(a, reference, style);
  text += labeled(tell(reference.language, "Note"), safety_note(reference), label_columns, style.width);
  for (std::size_t at; (at = text.find(" \n")) != std::string::npos;) text.erase(at, 1);
  return text;
}

}  // namespace sunstrain
