#include "schedule_summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "../io/job_words.hpp"

namespace sunstrain::report {
namespace {

constexpr std::size_t most_worst = 10, not_given = 16;
constexpr std::array<const char*, 17> facings{"N",   "NNE", "NE",  "ENE", "E",   "ESE", "SE",  "SSE",      "S",
                                              "SSW", "SW",  "WSW", "W",   "WNW", "NW",  "NNW", "not given"};

std::size_t facing_of(const Job& job) {
  const std::optional<double> angle = number_of(job, "pane.facing");
  if (!angle) return not_given;
  return static_cast<std::size_t>(std::lround(*angle / (std::numbers::pi / 8.0))) % not_given;
}

// Two figures are all that odds are good for.
std::string two_figures(double value) {
  return value < 10.0 ? fmt::format("{:.2g}", value) : fmt::format("{:.0f}", value);
}
std::string number_text(const Language& language, double value) {
  return value < 0.001 ? tell(language, "under 0.001") : two_figures(value);
}
std::string chance_text(const Language& language, double chance) {
  if (chance < 0.001) return tell(language, "under 0.1 %");
  return chance > 0.99 ? tell(language, "over 99 %") : two_figures(100.0 * chance) + " %";
}

}  // namespace

ScheduleSummary::ScheduleSummary(std::vector<std::string> choice_keys, const Reference& reference)
    : language_(reference.language),
      odd_{constant(reference, "odd_one_least_types"), constant(reference, "odd_one_most_share"),
           constant(reference, "odd_one_common_share")},
      choice_keys_(std::move(choice_keys)),
      words_(choice_keys_.size()) {}

void ScheduleSummary::add(const std::string& label, const Job& job, double quantity, const TypeAnswer& answer) {
  ++types_;
  ++examined_;
  const auto verdict = static_cast<std::size_t>(answer.verdict);
  for (Tally* tally : {&all_, &facing_[facing_of(job)]}) {
    tally->panes += quantity;
    ++tally->types[verdict];
    tally->panes_by_verdict[verdict] += quantity;
    tally->worst_ratio = std::max(tally->worst_ratio, answer.ratio);
  }
  count_words(job, label);
  keep_if_worst({answer.verdict, answer.ratio, label, answer.reason});
  // Panes break each for itself: P(at least one) = 1 - product of (1 - p)^quantity.
  breaks_low_ += quantity * answer.odds.low;
  breaks_high_ += quantity * answer.odds.high;
  log_whole_low_ += quantity * std::log1p(-answer.odds.low);
  log_whole_high_ += quantity * std::log1p(-answer.odds.high);
}

void ScheduleSummary::count_words(const Job& job, const std::string& label) {
  for (std::size_t i = 0; i < choice_keys_.size(); ++i) {
    Word& word = words_[i][word_of(job, choice_keys_[i]).value_or("not given")];
    if (word.types++ == 0) word.first = label;
  }
}

void ScheduleSummary::keep_if_worst(Worst type) {
  if (type.verdict == Verdict::go) return;
  const auto worse = [](const Worst& a, const Worst& b) {
    return std::tie(a.verdict, a.ratio) > std::tie(b.verdict, b.ratio);
  };
  worst_.insert(std::upper_bound(worst_.begin(), worst_.end(), type, worse), std::move(type));
  if (worst_.size() > most_worst) worst_.pop_back();
}

std::vector<std::string> ScheduleSummary::odd_ones() const {
  std::vector<std::string> lines;
  const auto types = static_cast<double>(examined_);
  if (types < odd_.least_types) return lines;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    const auto common = std::max_element(words_[i].begin(), words_[i].end(),
                                         [](const auto& a, const auto& b) { return a.second.types < b.second.types; });
    if (static_cast<double>(common->second.types) < odd_.common_share * types) continue;
    for (const auto& [word, tally] : words_[i]) {
      if (static_cast<double>(tally.types) > std::max(1.0, odd_.most_share * types)) continue;
      const auto told_word = [&](const std::string& one) {
        return word_told(language_, key_pattern(choice_keys_[i]), one);
      };
      const std::string rows =
          tally.types > 1 ? tell(language_, "{} and {} more", tally.first, tally.types - 1) : tally.first;
      lines.push_back(tell(language_, "{} {}: {}; {} of {} types have {}", key_words(language_, choice_keys_[i]),
                           told_word(word), rows, common->second.types, examined_, told_word(common->first)));
    }
  }
  return lines;
}

std::string ScheduleSummary::by_verdict() const {
  std::string text = tell(language_, "By verdict         types     panes") + "\n";
  for (std::size_t v = 0; v < all_.types.size(); ++v) {
    text += named_row("  " + verdict_words(language_, static_cast<Verdict>(v)), 0,
                      fmt::format("{:>7}{:>10.0f}", all_.types[v], all_.panes_by_verdict[v]), 34);
  }
  return text;
}

std::string ScheduleSummary::by_facing() const {
  std::string text = tell(language_, "By facing          types     panes     go  caution  refer   worst ratio") + "\n";
  for (std::size_t i = 0; i < facing_.size(); ++i) {
    const Tally& tally = facing_[i];
    if (tally.panes == 0.0) continue;
    text += fmt::format("  {:<15}{:>7}{:>10.0f}{:>7}{:>9}{:>7}{:>14.2f}\n", told(language_, facings[i]),
                        tally.types[0] + tally.types[1] + tally.types[2], tally.panes, tally.types[0], tally.types[1],
                        tally.types[2], tally.worst_ratio);
  }
  return text;
}

std::string ScheduleSummary::worst_types() const {
  if (worst_.empty()) return "";
  std::string text = tell(language_, "Worst types") + "\n";
  for (const Worst& type : worst_) {
    text += labeled(fmt::format("  {:<8}{:.2f}", verdict_words(language_, type.verdict), type.ratio),
                    fmt::format("{}: {}", type.label, type.reason), 16, 80);
  }
  const std::size_t others = all_.types[1] + all_.types[2] - worst_.size();
  return others == 0 ? text : text + "  " + tell(language_, "and {} more that are no go", others) + "\n";
}

std::string ScheduleSummary::breaks() const {
  return tell(
             language_,
             "Expected breaks on each pane's worst design day, unknowns at their worst: {} to {}\nof {}; the chance of "
             "at least one: {} to {}.",
             number_text(language_, breaks_low_), number_text(language_, breaks_high_),
             panes_text(all_.panes, language_), chance_text(language_, -std::expm1(log_whole_low_)),
             chance_text(language_, -std::expm1(log_whole_high_))) +
         "\n";
}

std::string ScheduleSummary::text(bool has_quantity) const {
  std::string text =
      tell(language_, "{} of {} pane types examined, {}", examined_, types_, panes_text(all_.panes, language_));
  if (!has_quantity) text += tell(language_, " (no column quantity: one of each)");
  if (errors() > 0) text += tell(language_, "; {} could not be: answer.reason says why in its row", errors());
  text += "\n";
  if (examined_ == 0) return text;
  const std::vector<std::string> odd = odd_ones();
  if (!odd.empty()) text += tell(language_, "Odd ones: rightly so, or a slip?") + "\n";
  for (const std::string& line : odd) text += "  " + line + "\n";
  return text + by_verdict() + by_facing() + worst_types() + breaks();
}

}  // namespace sunstrain::report
