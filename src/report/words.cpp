#include "words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "sunstrain/job_keys.hpp"

namespace sunstrain::report {

std::string verdict_word(Verdict verdict) {
  return verdict == Verdict::go ? "go" : verdict == Verdict::caution ? "caution" : "refer";
}

std::string verdict_words(const Language& language, Verdict verdict) { return told(language, verdict_word(verdict)); }

double shown_stress(double stress_pa, Units units) {
  constexpr double pa_per_psi = 6894.757, pa_per_mpa = 1e6;
  return stress_pa / (units == Units::inch ? pa_per_psi : pa_per_mpa);
}

std::string stress_unit(Units units) { return units == Units::inch ? "psi" : "MPa"; }

std::string stress_number(double stress_pa, Units units) {
  const double shown = shown_stress(stress_pa, units);
  return units == Units::inch ? fmt::format("{:.0f}", std::round(shown / 10.0) * 10.0) : fmt::format("{:.1f}", shown);
}

std::string stress_text(double stress_pa, Units units) {
  return stress_number(stress_pa, units) + " " + stress_unit(units);
}

std::string percent_text(double fraction) { return fmt::format("{:.0f} %", fraction * 100.0); }

std::string month_word(const Language& language, int month) {
  static constexpr std::array months{"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};
  return told(language, months.at(static_cast<std::size_t>(month - 1)));
}

std::string moment_text(const Language& language, const Moment& moment) {
  const std::string month = month_word(language, moment.month), hour = format_hour(moment.local_hour);
  return moment.day == DayKind::cold_clear ? tell(language, "cold clear {}, {}", month, hour)
                                           : tell(language, "hot clear {}, {}", month, hour);
}

std::string lite_name(const Language& language, std::size_t lite, std::size_t lites) {
  if (lites == 1) return tell(language, "the pane");
  return lite == 0           ? tell(language, "outer lite")
         : lite + 1 == lites ? tell(language, "inner lite")
                             : tell(language, "middle lite");
}

std::string sheet_name(const Language& language, const Assessment& a, std::size_t index) {
  const Sheet& sheet = a.sheets.at(index);
  if (sheet.panel) return index == 0 ? tell(language, "storm panel") : tell(language, "secondary panel");
  const std::string name = lite_name(language, sheet.lite, lites_of(a.sheets));
  if (sheet.plies == 1) return name;
  return sheet.ply == 0 ? tell(language, "{}, outer ply", name) : tell(language, "{}, inner ply", name);
}

std::string side_word(Side side) {
  static constexpr std::array words{"bottom", "right", "top", "left"};
  return words.at(static_cast<std::size_t>(side));
}

std::string end_word(const Language& language, Side side) {
  return side == Side::bottom || side == Side::top ? tell(language, "left") : tell(language, "lower");
}

namespace {

std::string key_words_in_english(std::string_view key) {
  if (key == "unit.build_up") return "build-up of the unit";
  std::string words(key);
  std::replace(words.begin(), words.end(), '.', ' ');
  std::replace(words.begin(), words.end(), '_', ' ');
  for (std::string_view table : {"glass ", "site ", "shading pat"}) {
    if (words.starts_with(table)) words = table == "shading pat" ? "shadow" : words.substr(table.size());
  }
  return words;
}

}  // namespace

// "lite.2.coating" is told by "lite {} coating".
std::string key_words(const Language& language, std::string_view key) {
  const std::string english = key_words_in_english(key);
  const auto digit = std::find_if(english.begin(), english.end(), [](char c) { return c >= '1' && c <= '9'; });
  if (digit == english.end()) return told(language, english);
  const auto at = static_cast<std::size_t>(digit - english.begin());
  return said(saying(english.substr(0, at) + "{}" + english.substr(at + 1), std::string(1, *digit)), language);
}

std::string verdict_capitals(const Language& language, Verdict verdict) {
  static constexpr std::array words{"GO", "CAUTION", "REFER"};
  return told(language, words.at(static_cast<std::size_t>(verdict)));
}

// The outline of a pane: whole, with a nick in its edge, or with an arrow leaving it. Okabe & Ito's colors.
std::string verdict_mark(const Language& language, Verdict verdict, bool color) {
  struct Mark {
    const char *outline, *rgb;
  };
  static constexpr std::array<Mark, 3> marks{{{"[  ]", "0;114;178"}, {"[ v]", "230;159;0"}, {"[  ]->", "204;121;167"}}};
  const Mark& mark = marks.at(static_cast<std::size_t>(verdict));
  const std::string text = fmt::format(" {} {} ", verdict_capitals(language, verdict), mark.outline);
  return color ? fmt::format("\x1b[30;48;2;{}m{}\x1b[0m", mark.rgb, text) : text;
}

std::size_t verdict_mark_width(const Language& language) {
  std::size_t widest = 0;
  for (const Verdict verdict : {Verdict::go, Verdict::caution, Verdict::refer})
    widest = std::max(widest, columns(verdict_mark(language, verdict, false)));
  return widest;
}

std::string odds_text(const Language& language, double probability) {
  if (probability < 1e-6) return tell(language, "under 1 in a million");
  if (probability >= 0.5) return tell(language, "more likely than not");
  const double one_in = 1.0 / probability;
  const double step = std::pow(10.0, std::floor(std::log10(one_in)) - 1.0);  // two figures
  return tell(language, "1 in {:.0f}", std::max(2.0, std::round(one_in / step) * step));
}

std::string odds_text(const Language& language, const Odds& odds) {
  const std::string low = odds_text(language, odds.low), high = odds_text(language, odds.high);
  return low == high ? low : tell(language, "{} to {}", low, high);
}

double shown_warmth(double kelvin, Units units) {
  const double celsius = kelvin - 273.15;
  return units == Units::inch ? celsius * 1.8 + 32.0 : celsius;
}

std::string warmth_text(double kelvin, int digits, Units units) {
  return fmt::format("{:.{}f} {}", shown_warmth(kelvin, units), digits, units == Units::inch ? "F" : "C");
}

std::string value_text(const Reference& reference, const std::string& key, const Value& value, Units units) {
  const JobKey* row = find_job_key(reference.job_keys, key);
  if (row == nullptr) return "?";
  const std::string text = format_value(*row, value, units);
  const bool word = std::find(row->choices.begin(), row->choices.end(), text) != row->choices.end();
  if (word) return word_told(reference.language, row->name, text);
  if (row->kind != JobKey::Kind::years) return text;
  const std::string number = text.substr(0, text.find(' '));
  return number == "1" ? tell(reference.language, "{} year", number) : tell(reference.language, "{} years", number);
}

std::string value_text(const Reference& reference, const std::string& key, const PartlyKnown& known, Units units) {
  const auto text = [&](const Value& value) { return value_text(reference, key, value, units); };
  if (known.range) return tell(reference.language, "{} to {}", text(known.values.front()), text(known.values.back()));
  std::string words;
  for (const Value& value : known.values)
    words = words.empty() ? text(value) : tell(reference.language, "{} or {}", words, text(value));
  return words;
}

std::string open_rule_text(const OpenRule& open, const Reference& reference, Units units) {
  const Language& language = reference.language;
  return tell(language, "if {} is {}, {}: {}", key_words(language, open.key),
              value_text(reference, open.key, open.value, units), rule_name(language, open.rule), open.rule.text);
}

RuleIds rule_ids(const std::vector<Rule>& fired, const std::vector<OpenRule>& open) {
  RuleIds ids;
  const auto say = [&](const Rule& rule) { (rule.users_own ? ids.own : ids.built_in).push_back(rule.id); };
  for (const Rule& rule : fired) say(rule);
  for (const OpenRule& one : open) say(one.rule);
  return ids;
}

std::string rule_words(const Language& language, const Rule& rule) {
  return rule.users_own ? tell(language, "your rule {}", rule.id) : tell(language, "rule {}", rule.id);
}

std::string rule_name(const Language& language, const Rule& rule) {
  return rule.users_own ? rule_words(language, rule) : rule.id;
}

std::string tables_words(const Reference& reference) {
  std::string text = tell(reference.language, "Tables {}", reference.version);
  if (const auto& own = reference.own_rules)
    text += tell(reference.language, "; your rules {} ({}, {})", own->file, own->count, own->version);
  return text;
}

std::string slope_text(const Language& language, const JobKey& key, double slope, Units units) {
  const bool inch = units == Units::inch;
  const auto per = [&](double step, const std::string& words) {
    return tell(language, "{:+.3f} per {}", slope * step, words);
  };
  switch (key.kind) {
    case JobKey::Kind::length:
      return inch ? per(0.0254, "1 in") : per(0.01, "10 mm");
    case JobKey::Kind::thickness:
      return inch ? per(0.0254 / 16.0, "1/16 in") : per(0.001, "1 mm");
    case JobKey::Kind::temperature:
    case JobKey::Kind::difference:
      return inch ? per(1.0 / 1.8, "1 F") : per(1.0, "1 K");
    case JobKey::Kind::fraction:
      return per(0.01, "1 %");
    case JobKey::Kind::angle:
      return per(10.0 * std::numbers::pi / 180.0, "10 deg");
    default:
      return per(1.0, key.unit.empty() || key.unit == "-" ? "1" : "1 " + key.unit);
  }
}

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string figure_row(const std::string& label, const std::string& before, const std::string& after, int width) {
  const std::size_t column = 13, labels = static_cast<std::size_t>(width) - 2 * column;
  if (columns(label) + 1 > labels) return label + "\n" + figure_row("", before, after, width);
  return fmt::format("{:<{}}{:>{}}{:>{}}\n", label, labels, before, column, after, column);
}

std::string named_row(const std::string& name, std::size_t margin, const std::string& figures, int width) {
  const std::size_t left = static_cast<std::size_t>(width) - columns(figures);
  if (margin + columns(name) < left) return name + std::string(left - margin - columns(name), ' ') + figures + "\n";
  const std::string lines = labeled("", name, static_cast<int>(margin), width);
  return lines.substr(margin) + std::string(left, ' ') + figures + "\n";
}

std::string labeled(std::string_view label, std::string_view text, int indent, int width) {
  const auto margin = static_cast<std::size_t>(indent), limit = static_cast<std::size_t>(width);
  std::string out(label), line_start(margin, ' ');
  const std::size_t least = label.empty() ? 0 : columns(label) + 1;  // a blank after a label
  std::size_t used = std::max(margin, least);
  out.append(used - columns(label), ' ');
  bool first_word = true;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find(' ', from), text.size());
    const std::string_view word = text.substr(from, to - from);
    from = to + 1;
    if (word.empty()) continue;
    if (!first_word && used + 1 + columns(word) > limit) {
      out += "\n" + line_start;
      used = margin;
      first_word = true;
    }
    if (!first_word) {
      out += ' ';
      ++used;
    }
    out += word;
    used += columns(word);
    first_word = false;
  }
  return out + "\n";
}

}  // namespace sunstrain::report
