#include "job_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/frame_u.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain {

namespace {

using Kind = Condition::Kind;

// ---- a condition in words ---------------------------------------------------------------------------

std::string limit_in_words(const Condition& condition, const Reference& reference) {
  const JobKey* row = find_job_key(reference.job_keys, condition.fact);
  return row == nullptr ? fmt::format("{:.4g}", condition.limit)
                        : format_in_unit(row->kind, condition.limit, row->unit);
}

Saying joined_sayings(const std::vector<Saying>& parts, const char* two) {
  Saying all = parts.empty() ? Saying("") : parts.front();
  for (std::size_t i = 1; i < parts.size(); ++i) all = saying(two, all, parts[i]);
  return all;
}

Saying words_with(const std::vector<std::string>& words, const char* two) {
  std::vector<Saying> sayings;
  for (const std::string& word : words) sayings.push_back(part_of_saying(word));
  return joined_sayings(sayings, two);
}

Saying in_words(const Condition& condition, const Reference& reference) {
  constexpr const char *or_text = worded("{} or {}"), *and_text = worded("{} and {}"), *comma = "{}, {}";
  const auto parts = [&](const char* two) {
    std::vector<Saying> words;
    for (const Condition& part : condition.parts) words.push_back(in_words(part, reference));
    return joined_sayings(words, two);
  };
  const auto limit = [&](const char* pattern) {
    return saying(pattern, condition.fact, limit_in_words(condition, reference));
  };
  switch (condition.kind) {
    case Kind::always:
      return "nothing";
    case Kind::is:
      return saying("{} = {}", condition.fact, words_with(condition.words, or_text));
    case Kind::is_not:
      return saying("{} other than {}", condition.fact, words_with(condition.words, and_text));
    case Kind::at_least:
      return limit(worded("{} at least {}"));
    case Kind::above:
      return limit(worded("{} above {}"));
    case Kind::at_most:
      return limit(worded("{} at most {}"));
    case Kind::below:
      return limit(worded("{} below {}"));
    case Kind::known:
      return saying("{} beside it", condition.fact);
    case Kind::not_known:
      return saying("{} left out", condition.fact);
    case Kind::all:
      return parts(and_text);
    case Kind::any:
      return parts(or_text);
    case Kind::none:
      return saying("none of: {}", parts(comma));
  }
  return "";
}

// ---- the checks ---------------------------------------------------------------------------------------

std::string typed(const Value& value, const JobKey& row) {
  const std::string* word = std::get_if<std::string>(&value);
  return word != nullptr ? quoted(*word) : quoted(format_in_unit(row.kind, std::get<double>(value), row.unit));
}

void require_keys(const Job& job, const Reference& reference) {
  for (const JobKey& row : reference.job_keys) {
    if (!row.required || speaks_of(job, row.name)) continue;
    throw BadInput(say("{}: {}: is missing and cannot be left unknown. {} Example: {}", job.source, row.name,
                       Saying(row.sentence), quoted(row.example)));
  }
}

// A lite or cavity of its number is one that there is.
bool has_room(const Job& job, const std::string& key) {
  const std::optional<std::string> panes = word_of(job, "glass.panes");
  const int count = panes ? std::stoi(*panes) : 0, number = instance_number(key);
  const bool lite = key.compare(0, 5, "lite.") == 0;
  return !panes || number <= (lite ? count : count - 1) || (!lite && key.compare(0, 7, "cavity.") != 0);
}

// Whether a given key has a meaning with what the job says, or with any value that an absent key it hangs on is taken
// as: such a key with no value to be taken as is none of it.
bool can_apply(const JobKey& row, const std::string& key, const Job& job, const Reference& reference) {
  const Truth as_said = key_applies(row, key, job.values);
  if (as_said != Truth::cannot_tell) return as_said == Truth::yes;
  const std::set<std::string> hangs_on = facts_of(for_key(row.applies, key));
  const auto with = [&](const Resolved& taken) { return key_applies(row, key, taken.job.values) == Truth::yes; };
  const Resolved first = resolve(job, Run::bad_end, {}, reference);
  if (with(first)) return true;
  for (const OpenKey& open : first.open) {
    if (!hangs_on.contains(open.key)) continue;
    for (std::size_t i = 1; i < open.candidates.size(); ++i)
      if (with(resolve(job, Run::bad_end, {{open.key, i}}, reference))) return true;
  }
  return false;
}

// What the job says of a key, as in a message.
Saying given_as(const Job& job, const std::string& key, const JobKey& row) {
  if (const auto known = job.partly.find(key); known != job.partly.end())
    return saying("{} and more", typed(known->second.values.front(), row));
  return part_of_saying(typed(job.values.at(key), row));
}

bool applies_in_any(const JobKey& row, const std::string& key, const std::vector<Job>& readings,
                    const Reference& reference) {
  return std::any_of(readings.begin(), readings.end(), [&](const Job& reading) {
    return reading.values.contains(key) && can_apply(row, key, reading, reference);
  });
}

// Every key that the job speaks of has a meaning in one at least of the jobs that it may stand for.
void check_applies(const Job& job, const std::string& key, const std::vector<Job>& readings,
                   const Reference& reference) {
  const JobKey* row = find_job_key(reference.job_keys, key);
  if (row == nullptr) throw BadInput(say("{}: {}: {}", job.source, shown(key), no_such_key(key, reference.job_keys)));
  const auto in_any = [&](const auto& holds) { return std::any_of(readings.begin(), readings.end(), holds); };
  if (!in_any([&](const Job& reading) { return has_room(reading, key); }))
    throw BadInput(key.compare(0, 5, "lite.") == 0
                       ? say("{}: {} = {}: there is no such lite with glass.panes = {}", job.source, key,
                             given_as(job, key, *row), *word_of(readings.front(), "glass.panes"))
                       : say("{}: {} = {}: there is no such cavity with glass.panes = {}", job.source, key,
                             given_as(job, key, *row), *word_of(readings.front(), "glass.panes")));
  if (applies_in_any(*row, key, readings, reference)) return;
  throw BadInput(say("{}: {} = {}: has no meaning here; it needs {}", job.source, key, given_as(job, key, *row),
                     in_words(for_key(row->applies, key), reference)));
}

// The jobs that a job with keys known in part stands for: at the likely values, and with each other value of one key.
std::vector<Job> readings_of(const Job& job, const Reference& reference) {
  std::vector<Job> readings{with_parts_settled(job, Run::middle, {}, reference)};
  for (const auto& [key, known] : job.partly) {
    for (const Value& value : known.values) {
      if (value == known.likely) continue;
      Job other = job;
      other.partly[key] = {{value}, value, {}};
      readings.push_back(with_parts_settled(other, Run::middle, {}, reference));
    }
  }
  return readings;
}

// A film goes on a surface that there is.
void check_film_surface(const Job& job, const char* key) {
  const std::optional<std::string> surface = word_of(job, key), panes = word_of(job, "glass.panes");
  if (!surface || !panes) return;
  const int last = 2 * std::stoi(*panes);
  if (std::stoi(*surface) <= last) return;
  throw BadInput(say("{}: {} = \"{}\": with glass.panes = {} the surfaces are 1 to {}, counted from outdoors",
                     job.source, key, *surface, *panes, last));
}

// A frame's own transmittance is one that a frame of its kind can have, for the panes there are or may be.
void check_frame_u(const Job& job, const Reference& reference) {
  const std::optional<double> u_w_m2k = number_of(job, "frame.u_value");
  if (!u_w_m2k) return;
  const std::optional<std::string> name = word_of(job, "frame.kind"), panes = word_of(job, "glass.panes");
  if (!name)
    throw BadInput(say("{}: frame.kind: is missing beside frame.u_value; it says how the frame is built", job.source));
  const FrameKind& kind = row_named(reference.frames, *name);
  const auto in_unit = [](double value) { return format_in_unit(JobKey::Kind::u_value, value, "W/m2K"); };
  for (const bool sealed : {false, true}) {
    if (panes && (*panes != "1") != sealed) continue;
    const FrameURange range = frame_u_range(kind, sealed);
    if (*u_w_m2k >= range.lowest_w_m2k && *u_w_m2k <= range.highest_w_m2k) continue;
    throw BadInput(
        say("{}: frame.u_value = \"{}\": a {} frame round a {} has {} to {}; take the frame.kind that comes nearest",
            job.source, in_unit(*u_w_m2k), *name, Saying(sealed ? "sealed unit" : "single pane"),
            in_unit(range.lowest_w_m2k), in_unit(range.highest_w_m2k)));
  }
}

void check_coordinates(const Job& job) {
  if (number_of(job, "site.latitude") && !number_of(job, "site.longitude")) {
    throw BadInput(
        say("{}: site.longitude: is missing beside site.latitude; write degrees, east positive", job.source));
  }
}

void check_each_applies(const Job& job, const std::vector<Job>& readings, const Reference& reference) {
  for (const auto& [key, value] : job.values) check_applies(job, key, readings, reference);
  for (const auto& [key, known] : job.partly) check_applies(job, key, readings, reference);
}

}  // namespace

void check_keys_apply(const Job& job, const Reference& reference) {
  check_each_applies(job, readings_of(job, reference), reference);
}

bool may_apply(const Job& job, const std::string& key, const Reference& reference) {
  return applies_in_any(*find_job_key(reference.job_keys, key), key, readings_of(job, reference), reference);
}

void check_film_alone(const Job& film, const Reference& reference) {
  for (const Job& reading : readings_of(film, reference)) check_film(reading, reference);
}

void check_job(const Job& job, const Reference& reference) {
  require_keys(job, reference);
  const std::vector<Job> readings = readings_of(job, reference);
  for (const Job& reading : readings) {
    check_film(reading, reference);
    check_film_surface(reading, "film.surface");
    check_film_surface(reading, "second_film.surface");
    check_parts(reading);
    check_unit(reading, reference);
    check_frame_u(reading, reference);
    check_coordinates(reading);
  }
  check_each_applies(job, readings, reference);
}

}  // namespace sunstrain
