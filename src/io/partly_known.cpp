// What a text says of a key that is known in part: "5 to 7 mm", "none or low-e-soft", "low-e".
#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain {

namespace {

using Kind = JobKey::Kind;
using Words = std::vector<std::string>;

constexpr std::size_t most_alternatives = 8;

bool takes_several(Kind kind) { return kind != Kind::text && kind != Kind::date; }

Words split(std::string_view text, std::string_view between) {
  const std::string low = lower_case(text);
  Words parts;
  std::size_t from = 0;
  for (std::size_t at; (at = low.find(between, from)) != std::string::npos; from = at + between.size())
    parts.emplace_back(trimmed(text.substr(from, at - from)));
  parts.emplace_back(trimmed(text.substr(from)));
  return parts;
}

// "4, 5 or 6 mm" as well as "4 or 5 or 6 mm".
Words alternatives(std::string_view text) {
  Words parts;
  for (const std::string& part : split(text, " or ")) {
    for (std::string& piece : split(part, ", ")) parts.push_back(std::move(piece));
  }
  return parts;
}

// "5 to 7 mm": a part without a unit has that of the last one.
void share_unit(Words& parts) {
  const std::string& last = parts.back();
  const std::size_t digit = last.find_last_of("0123456789");
  if (digit == std::string::npos || digit + 1 == last.size()) return;
  const std::string unit = last.substr(digit + 1);
  for (std::string& part : parts) {
    if (bare_number(part)) part += unit;
  }
}

Value one_value(const JobKey& key, std::string_view text) {
  const std::optional<Value> value = parse_value(key, text);
  if (!value) throw BadInput("\"unknown\" stands alone: leave it out, or name what it may be");
  return *value;
}

// "low-e" stands for every choice "low-e-...", where there are several.
std::vector<Value> family(const JobKey& key, std::string_view word) {
  const std::string start = lower_case(word) + "-";
  std::vector<Value> members;
  for (const std::string& choice : key.choices) {
    if (key.kind == Kind::choice && lower_case(choice) == lower_case(word)) return {};
    if (key.kind == Kind::choice && choice.starts_with(start)) members.emplace_back(choice);
  }
  return members.size() > 1 ? members : std::vector<Value>{};
}

PartlyKnown between(const JobKey& key, Words ends) {
  constexpr double turn_rad = 2.0 * std::numbers::pi;
  constexpr int steps = 4;  // the ends and places between, the middle among them
  if (ends.size() != 2) throw BadInput("a range has two ends, such as \"5 to 7 mm\"");
  share_unit(ends);
  const double least = std::get<double>(one_value(key, ends.front()));
  double most = std::get<double>(one_value(key, ends.back()));
  const bool circle = key.kind == Kind::angle && key.choices.size() > 2;  // "NW to NE" goes through north
  if (circle && most < least) most += turn_rad;
  if (most <= least)
    throw BadInput(say("a range goes from the least to the most: {} to {}", ends.back(), ends.front()));
  PartlyKnown known{{}, {}, std::pair(least, most)};
  for (int i = 0; i <= steps; ++i) {
    const double value = i == steps ? most : least + (most - least) * i / steps;
    known.values.emplace_back(value > key.maximum && circle ? value - turn_rad : value);
  }
  known.likely = known.values[steps / 2];
  return known;
}

PartlyKnown one_of(const JobKey& key, Words parts) {
  share_unit(parts);
  PartlyKnown known;
  for (const std::string& part : parts) {
    std::vector<Value> values = family(key, part);
    if (values.empty()) values.push_back(one_value(key, part));
    for (Value& value : values) {
      if (std::find(known.values.begin(), known.values.end(), value) != known.values.end())
        throw BadInput(say("{} is named twice", quoted(part)));
      known.values.push_back(std::move(value));
    }
  }
  if (known.values.size() > most_alternatives)
    throw BadInput(say("names {} values; {} at most", known.values.size(), most_alternatives));
  known.likely = known.values.front();
  return known;
}

}  // namespace

std::optional<PartlyKnown> parse_partly(const JobKey& key, std::string_view text) {
  text = trimmed(text);
  if (!takes_several(key.kind)) return std::nullopt;
  Words ends = key.kind == Kind::choice ? Words{} : split(text, " to "), parts = alternatives(text);
  const bool range = ends.size() > 1, several = split(text, " or ").size() > 1;
  if (range && several) throw BadInput("is a range and alternatives at once: write one of them");
  if (range) return between(key, std::move(ends));
  if (several || !family(key, text).empty()) return one_of(key, several ? std::move(parts) : Words{std::string(text)});
  return std::nullopt;
}

}  // namespace sunstrain
