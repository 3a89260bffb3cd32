#include "samples_block.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "json_parts.hpp"
#include "sunstrain/job_keys.hpp"
#include "words.hpp"

namespace sunstrain::report {
namespace {

using Json = nlohmann::ordered_json;

constexpr double small_share = 0.02;

std::string unknown_words(const Language& language, const SampledUnknown& unknown) {
  return unknown.of ? told(language, unknown.name) : key_words(language, unknown.name);
}

// 123456 -> "123,456"
std::string counted(std::size_t number) {
  std::string digits = std::to_string(number);
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
  return digits;
}

std::string percent_to(const Language& language, const Estimate& share) {
  const std::string low = fmt::format("{:.0f}", 100.0 * share.low), high = fmt::format("{:.0f}", 100.0 * share.high);
  return percent_text(share.value) + (low == high ? "" : tell(language, " ({} to {} %)", low, high));
}

// A share of the spread may come out a little below 0 where it is next to none.
std::string share_text(const Estimate& share) { return percent_text(std::max(0.0, share.value)); }

std::string spread_text(const Language& language, const Samples& s) {
  const auto at = [&](std::size_t i) { return fmt::format("{:.2f}", s.ratio_at[i].ratio); };
  std::string text =
      tell(language, "{} draws of what is not known, in {} rows (seed {}). The share of what the edge bears: ",
           counted(s.samples), counted(s.rows), s.seed);
  text += tell(language, "one in 20 under {}, half under {}, one in 20 over {}; over 1.00 in {} of them.", at(0), at(2),
               at(4), percent_to(language, s.over_line));
  if (s.drawn_again > 0)
    text += tell(language, " {} rows held what cannot be and were drawn again.", counted(s.drawn_again));
  if (s.stopped) text += tell(language, " Stopped early: these are the rows that were done.");
  return text;
}

std::string odds_line(const Language& language, const Samples& s) {
  const std::string low = odds_text(language, s.odds.low), likely = odds_text(language, s.odds.value),
                    high = odds_text(language, s.odds.high);
  std::string odds = likely;
  if (likely != high)
    odds = low != likely ? tell(language, "{} ({} to {})", likely, low, high)
                         : tell(language, "{} (at most {})", likely, high);
  return tell(language, "of a break with film, on the year's worst clear day: {}. An upper estimate.", odds);
}

bool matters(const UnknownShare& share) {
  return share.of_ratio.first.value >= small_share || share.of_ratio.total.value >= small_share;
}

std::string shares_table(const Language& language, const Samples& s, const TextStyle& style) {
  std::string table = figure_row(tell(language, "What makes that share spread"), tell(language, "alone"),
                                 tell(language, "with others"), style.width);
  std::size_t small = 0;
  for (const UnknownShare& share : s.shares) {
    if (matters(share))
      table += figure_row("  " + unknown_words(language, share.unknown), share_text(share.of_ratio.first),
                          share_text(share.of_ratio.total), style.width);
    else
      ++small;
  }
  if (small > 0)
    table += "  " +
             (small > 1 ? tell(language, "{} more, under {} each", small, percent_text(small_share))
                        : tell(language, "{} more, under {}", small, percent_text(small_share))) +
             "\n";
  return table;
}

// The one that owns most by itself, of those that can be found out and own more than chance may feign.
const UnknownShare* first_to_measure(const Samples& s) {
  for (const UnknownShare& share : s.shares)
    if (!share.unknown.asks.empty() && share.of_ratio.first.low > 0.0 && share.of_ratio.first.value >= small_share)
      return &share;
  return nullptr;
}

std::string measure_line(const Samples& s, const Reference& reference) {
  const UnknownShare* share = first_to_measure(s);
  if (share == nullptr) return tell(reference.language, "nothing: what could be found out makes next to none of it.");
  const JobKey* key = find_job_key(reference.job_keys, share->unknown.asks);
  return fmt::format("{}. {}", unknown_words(reference.language, share->unknown), key == nullptr ? "" : key->question);
}

Json json_of(const Estimate& estimate) {
  return {{"value", finite(estimate.value)}, {"low", finite(estimate.low)}, {"high", finite(estimate.high)}};
}

Json json_of(const SobolIndex& index) { return {{"first", json_of(index.first)}, {"total", json_of(index.total)}}; }

}  // namespace

std::string samples_block(const Assessment& a, const Reference& reference, const TextStyle& style) {
  if (!a.samples) return "";
  const Samples& s = *a.samples;
  const Language& language = reference.language;
  std::string block = labeled(tell(language, "Samples"), spread_text(language, s), label_columns, style.width);
  block += labeled(tell(language, "Odds"), odds_line(language, s), label_columns, style.width);
  block += shares_table(language, s, style);
  block += labeled(tell(language, "Measure this first:"), measure_line(s, reference), label_columns, style.width);
  block += labeled(tell(language, "The edge"),
                   tell(language,
                        "its own strength, which nobody can measure in a frame, makes {} of the spread of stress over "
                        "strength (it breaks over 1); what is listed above makes the rest.",
                        share_text(s.strength.total)),
                   label_columns, style.width);
  return block;
}

Json json_of(const std::optional<Samples>& samples, const Reference& reference) {
  if (!samples) return {};
  const Samples& s = *samples;
  const UnknownShare* first = first_to_measure(s);
  const auto share_json = [&](const UnknownShare& share) {
    const JobKey* key = find_job_key(reference.job_keys, share.unknown.asks);
    return Json{{"name", share.unknown.name},
                {"is_key", !share.unknown.of.has_value()},
                {"question", key == nullptr ? Json() : Json(key->question)},
                {"of_ratio", json_of(share.of_ratio)},
                {"of_stress_over_strength", json_of(share.of_load)}};
  };
  return {{"samples", s.samples},
          {"rows", s.rows},
          {"rows_drawn_again", s.drawn_again},
          {"seed", s.seed},
          {"stopped", s.stopped},
          {"stress_ratio_at", list_of(s.ratio_at,
                                      [](const SampleQuantile& q) {
                                        return Json{{"share", q.share}, {"stress_ratio", finite(q.ratio)}};
                                      })},
          {"share_over_line", json_of(s.over_line)},
          {"breakage_probability", json_of(s.odds)},
          {"unknowns", list_of(s.shares, share_json)},
          {"edge_strength", {{"of_stress_over_strength", json_of(s.strength)}}},
          {"measure_first", first == nullptr ? Json() : Json(first->unknown.name)}};
}

}  // namespace sunstrain::report
