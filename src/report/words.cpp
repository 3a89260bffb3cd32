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

std::string stress_text(double stress_pa, Units units) {
  constexpr double pa_per_psi = 6894.757;
  if (units == Units::inch) return fmt::format("{:.0f} psi", std::round(stress_pa / pa_per_psi / 10.0) * 10.0);
  return fmt::format("{:.1f} MPa", stress_pa / 1e6);
}

std::string percent_text(double fraction) { return fmt::format("{:.0f} %", fraction * 100.0); }

std::string month_word(int month) {
  static constexpr std::array months{"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};
  return months.at(static_cast<std::size_t>(month - 1));
}

std::string hour_text(double local_hour) {
  const int minutes = static_cast<int>(std::lround(local_hour * 60.0));
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string moment_text(const Moment& moment) {
  return fmt::format("{} clear {}, {}", moment.day == DayKind::cold_clear ? "cold" : "hot", month_word(moment.month),
                     hour_text(moment.local_hour));
}

std::string lite_name(std::size_t lite, std::size_t lites) {
  if (lites == 1) return "the pane";
  return lite == 0 ? "outer lite" : lite + 1 == lites ? "inner lite" : "middle lite";
}

std::string ply_word(const Sheet& sheet) { return sheet.plies == 1 ? "" : sheet.ply == 0 ? "outer ply" : "inner ply"; }

std::string sheet_name(const Assessment& a, std::size_t index) {
  const Sheet& sheet = a.sheets.at(index);
  if (sheet.panel) return index == 0 ? "storm panel" : "secondary panel";
  const std::string name = lite_name(sheet.lite, lites_of(a.sheets)), ply = ply_word(sheet);
  return ply.empty() ? name : name + ", " + ply;
}

std::string side_word(Side side) {
  static constexpr std::array words{"bottom", "right", "top", "left"};
  return words.at(static_cast<std::size_t>(side));
}

std::string key_words(std::string_view key) {
  if (key == "unit.build_up") return "build-up of the unit";
  std::string words(key);
  std::replace(words.begin(), words.end(), '.', ' ');
  std::replace(words.begin(), words.end(), '_', ' ');
  for (std::string_view table : {"glass ", "site ", "shading pat"}) {
    if (words.starts_with(table)) words = table == "shading pat" ? "shadow" : words.substr(table.size());
  }
  return words;
}

// The outline of a pane: whole, with a nick in its edge, or with an arrow leaving it. Okabe & Ito's colors.
std::string verdict_mark(Verdict verdict, bool color) {
  struct Mark {
    const char *text, *rgb;
  };
  static constexpr std::array<Mark, 3> marks{
      {{" GO [  ] ", "0;114;178"}, {" CAUTION [ v] ", "230;159;0"}, {" REFER [  ]-> ", "204;121;167"}}};
  const Mark& mark = marks.at(static_cast<std::size_t>(verdict));
  return color ? fmt::format("\x1b[30;48;2;{}m{}\x1b[0m", mark.rgb, mark.text) : mark.text;
}

std::string odds_text(double probability) {
  if (probability < 1e-6) return "under 1 in a million";
  if (probability >= 0.5) return "more likely than not";
  const double one_in = 1.0 / probability;
  const double step = std::pow(10.0, std::floor(std::log10(one_in)) - 1.0);  // two figures
  return fmt::format("1 in {:.0f}", std::max(2.0, std::round(one_in / step) * step));
}

std::string odds_text(const Odds& odds) {
  const std::string low = odds_text(odds.low), high = odds_text(odds.high);
  return low == high ? low : low + " to " + high;
}

std::string warmth_text(double kelvin, int digits, Units units) {
  return units == Units::inch ? fmt::format("{:.{}f} F", (kelvin - 273.15) * 1.8 + 32.0, digits)
                              : fmt::format("{:.{}f} C", kelvin - 273.15, digits);
}

std::string value_text(const Reference& reference, const std::string& key, const Value& value, Units units) {
  const JobKey* row = find_job_key(reference.job_keys, key);
  return row == nullptr ? std::string("?") : format_value(*row, value, units);
}

std::string value_text(const Reference& reference, const std::string& key, const PartlyKnown& known, Units units) {
  const auto text = [&](const Value& value) { return value_text(reference, key, value, units); };
  if (known.range) return text(known.values.front()) + " to " + text(known.values.back());
  std::string words;
  for (const Value& value : known.values) words += (words.empty() ? "" : " or ") + text(value);
  return words;
}

std::string open_rule_text(const OpenRule& open, const Reference& reference, Units units) {
  return fmt::format("if {} is {}, {}: {}", key_words(open.key), value_text(reference, open.key, open.value, units),
                     rule_name(open.rule), open.rule.text);
}

RuleIds rule_ids(const std::vector<Rule>& fired, const std::vector<OpenRule>& open) {
  RuleIds ids;
  const auto say = [&](const Rule& rule) { (rule.users_own ? ids.own : ids.built_in).push_back(rule.id); };
  for (const Rule& rule : fired) say(rule);
  for (const OpenRule& one : open) say(one.rule);
  return ids;
}

std::string rule_words(const Rule& rule) { return (rule.users_own ? "your rule " : "rule ") + rule.id; }

std::string rule_name(const Rule& rule) { return (rule.users_own ? "your rule " : "") + rule.id; }

std::string tables_words(const Reference& reference) {
  std::string text = "Tables " + reference.version;
  if (const auto& own = reference.own_rules)
    text += fmt::format("; your rules {} ({}, {})", own->file, own->count, own->version);
  return text;
}

std::string slope_text(const JobKey& key, double slope, Units units) {
  const bool inch = units == Units::inch;
  const auto per = [&](double step, const char* words) { return fmt::format("{:+.3f} per {}", slope * step, words); };
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
      return per(1.0, key.unit.empty() || key.unit == "-" ? "1" : ("1 " + key.unit).c_str());
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
