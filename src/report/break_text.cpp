// The printed answer about a cracked pane.
#include <fmt/core.h>

#include <algorithm>

#include "break_words.hpp"
#include "sunstrain/io/data_tables.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

// What every part of the answer looks at, and the sources that it has named so far.
struct Page {
  const BreakAnswer& answer;
  const BreakTables& tables;
  const Language& language;
  const TextStyle& style;
  std::vector<Source> sources{};
};

std::string line(const Page& page, const std::string& label, const std::string& text) {
  return labeled(label, text, label_columns, page.style.width);
}

// Texts one below the other, the first beside the label.
std::string lines(const Page& page, std::string label, const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) {
    out += line(page, label, text);
    label.clear();
  }
  return out;
}

// "[2, recalled]": the place of the source in the list at the end.
std::string cited(Page& page, const Source& source) {
  const auto same = [&](const Source& one) { return one.text == source.text; };
  auto found = std::find_if(page.sources.begin(), page.sources.end(), same);
  if (found == page.sources.end()) found = page.sources.insert(found, source);
  const std::string certainty = certainty_word(source.certainty);
  return fmt::format("[{}, {}]", found - page.sources.begin() + 1, told(page.language, certainty));
}

std::string value_of_key(const Page& page, const std::string& key) {
  const Observations& seen = page.answer.seen;
  if (const auto known = seen.partly.find(key); known != seen.partly.end())
    return value_text(page.tables.form, key, known->second, page.style.units);
  return value_text(page.tables.form, key, seen.values.at(key), page.style.units);
}

std::string with_value(const Page& page, const std::string& key) {
  return key_words(page.language, key) + " " + value_of_key(page, key);
}

std::string listed(const std::vector<std::string>& texts) {
  std::string text;
  for (const std::string& one : texts) text += (text.empty() ? "" : "; ") + one;
  return text;
}

std::string head(const Page& page) {
  constexpr int name_column = 26;
  const BreakResult result = page.answer.reading.result;
  const std::string word = result == BreakResult::consistent       ? tell(page.language, " CONSISTENT WITH THERMAL ")
                           : result == BreakResult::not_consistent ? tell(page.language, " NOT CONSISTENT ")
                                                                   : tell(page.language, " CANNOT TELL ");
  const auto name = page.answer.assessment ? word_of(page.answer.assessment->job, "job.name") : std::nullopt;
  return labeled(word, name.value_or(tell(page.language, "a cracked pane")), name_column, page.style.width);
}

std::string seen_block(const Page& page) {
  std::vector<std::string> seen;
  for (const JobKey& key : page.tables.form.job_keys)
    if (key.about_glass && speaks_of(page.answer.seen, key.name)) seen.push_back(with_value(page, key.name));
  const std::string text = seen.empty() ? tell(page.language, "nothing") : listed(seen) + ".";
  const auto note = word_of(page.answer.seen, "note");
  return line(page, tell(page.language, "Seen"), text) + (note ? line(page, "", *note) : "");
}

std::string clues_block(Page& page, const std::string& label, Clue::Speaks speaks) {
  const bool weighs = speaks == Clue::Speaks::for_heat || speaks == Clue::Speaks::against_heat;
  std::vector<std::string> texts;
  std::vector<Clue> clues = page.answer.reading.clues;
  std::stable_sort(clues.begin(), clues.end(), [](const Clue& a, const Clue& b) { return a.weight > b.weight; });
  for (const Clue& clue : clues) {
    if (clue.speaks != speaks) continue;
    const std::string weight = weighs ? fmt::format("({}) ", told(page.language, weight_word(clue.weight))) : "";
    texts.push_back(weight + clue.text + " " + cited(page, clue.source));
  }
  if (texts.empty() && weighs) texts.push_back(tell(page.language, "nothing"));
  return lines(page, label, texts);
}

std::string silent_block(const Page& page) {
  std::vector<std::string> texts;
  for (const std::string& key : page.answer.reading.silent) texts.push_back(with_value(page, key));
  return texts.empty() ? "" : line(page, tell(page.language, "No say"), listed(texts) + ".");
}

// ---- the stress ---------------------------------------------------------------------------------------

std::string pressure(const Page& page, double stress_pa) { return stress_text(stress_pa, page.style.units); }

std::string bands_text(const Page& page, const std::vector<std::size_t>& bands) {
  std::string text;
  for (const std::size_t band : bands) {
    const std::string& say = page.tables.bands[band].say;
    text = text.empty() ? say : tell(page.language, "{} or {}", text, say);
  }
  return text;
}

std::string sign_text(Page& page, const SignRead& read) {
  std::string text;
  if (read.range && read.sign.figure == StressSign::Figure::about)
    text = tell(page.language, "{}: about {} ({} to {}). ", with_value(page, read.sign.length),
                pressure(page, read.range->likely_pa), pressure(page, read.range->least_pa),
                pressure(page, read.range->most_pa));
  else if (read.range)
    text = tell(page.language, "{}: at most {}. ", with_value(page, read.sign.length),
                pressure(page, read.range->most_pa));
  return text + read.sign.text + (read.far ? " " + read.sign.far : "") + " " + cited(page, read.sign.source);
}

// Where the bands end: "middle stress from 7.0 MPa, high stress from 14.0 MPa".
std::string ends_text(Page& page) {
  const std::vector<StressBand>& bands = page.tables.bands;
  std::string text;
  for (std::size_t i = 1; i < bands.size(); ++i)
    text += (i > 1 ? ", " : "") + tell(page.language, "{} from {}", bands[i].say, pressure(page, bands[i].from_pa));
  return text + " " + cited(page, bands.back().source);
}

std::string stress_block(Page& page) {
  const BreakStress& stress = page.answer.reading.stress;
  const std::string label = tell(page.language, "Stress");
  if (stress.signs.empty())
    return line(
        page, label,
        tell(page.language, "not known: it takes the distance to the first fork, or how many cracks leave the origin"));
  std::vector<std::string> texts;
  if (stress.disagree()) {
    texts.push_back(tell(page.language, "no band: the signs of the crack disagree"));
  } else {
    std::string meaning;
    for (const std::size_t band : stress.bands) meaning += " " + page.tables.bands[band].text;
    texts.push_back(tell(page.language, "The crack began at {}.", bands_text(page, stress.bands)) + meaning);
  }
  for (const SignRead& read : stress.signs) texts.push_back(sign_text(page, read));
  texts.push_back(ends_text(page));
  return lines(page, label, texts);
}

// ---- the engine's stress that day ---------------------------------------------------------------------

std::string with_band(const Page& page, double stress_pa) {
  return fmt::format("{} ({})", pressure(page, stress_pa),
                     page.tables.bands[band_of(stress_pa, page.tables.bands)].say);
}

std::string worst_design_day(const Page& page) {
  double worst_pa = 0.0;
  for (const std::size_t sheet : page.answer.sheets)
    worst_pa = std::max(worst_pa, page.answer.assessment->lites[sheet].after.peak_stress_pa);
  return tell(page.language, "On the worst design day of the year it would be {} at the bad end.",
              with_band(page, worst_pa));
}

std::string engine_block(const Page& page) {
  const Language& language = page.language;
  const std::string label = tell(language, "Engine");
  if (!page.answer.day) {
    const std::string why = not_worked_text(page.answer, page.tables);
    return line(page, label, page.answer.assessment ? why + " " + worst_design_day(page) : why);
  }
  const BreakDay& worked = *page.answer.day;
  std::vector<std::string> texts;
  texts.push_back(tell(language, "{}, {} to {}, sky {}, edge of the {}:", value_of_key(page, "day.date"),
                       value_of_key(page, "day.lowest"), value_of_key(page, "day.highest"),
                       value_of_key(page, "day.sky"),
                       page.answer.sheets.size() == 1 && page.answer.assessment->sheets.size() == 1
                           ? tell(language, "pane")
                           : sheet_name(language, *page.answer.assessment, worked.sheet)));
  texts.push_back(tell(language, "most likely {};", with_band(page, worked.on.middle_stress_pa)));
  texts.push_back(tell(language, "at the bad end {} at {}, {:.2f} of what it bears ({} without film).",
                       with_band(page, worked.on.stress_pa), format_hour(worked.on.local_hour), worked.on.stress_ratio,
                       pressure(page, worked.on.stress_without_film_pa)));
  if (const std::string meeting = meeting_text(page.answer, page.tables); !meeting.empty()) texts.push_back(meeting);
  if (const auto found = number_of(page.answer.seen, "day.found"); found && *found < worked.on.local_hour)
    texts.push_back(tell(language, "It was found before that hour: by then the edge had borne less."));
  return lines(page, label, texts);
}

// ---- what is not known --------------------------------------------------------------------------------

std::string how_to_find(const Page& page, const std::string& key) {
  return find_job_key(page.tables.form.job_keys, key)->question;
}

std::string not_known_block(const Page& page) {
  std::vector<std::string> words;
  for (const std::string& key : page.answer.reading.not_known) {
    const bool partly = page.answer.seen.partly.contains(key);
    words.push_back(partly ? tell(page.language, "{} (in part)", key_words(page.language, key))
                           : key_words(page.language, key));
  }
  return words.empty() ? "" : line(page, tell(page.language, "Not known"), listed(words) + ".");
}

// Where it cannot be told: the answers that alone would tell, and how to find out what weighs most. Else the answers
// that could still turn the result.
std::string settle_block(const Page& page) {
  const BreakReading& reading = page.answer.reading;
  const bool open = reading.result == BreakResult::cannot_tell;
  std::vector<std::string> texts;
  for (const Settling& one : reading.would_settle) {
    const std::string what =
        key_words(page.language, one.key) + " " + value_text(page.tables.form, one.key, one.value, page.style.units);
    texts.push_back(fmt::format("{}: {}", what, result_words(page.language, one.result)));
  }
  if (!open) return texts.empty() ? "" : line(page, tell(page.language, "Could turn"), listed(texts) + ".");
  std::string out = texts.empty() ? "" : line(page, tell(page.language, "Would tell"), listed(texts) + ".");
  std::vector<std::string> how;
  for (const std::string& key : reading.look_first)
    how.push_back(fmt::format("{}: {}", key_words(page.language, key), how_to_find(page, key)));
  return out + lines(page, tell(page.language, "Find out"), how);
}

std::string advice_block(const Page& page, const std::string& label, const std::vector<Advice>& list) {
  std::vector<std::string> texts;
  for (const Advice& advice : list) texts.push_back(advice.text);
  return lines(page, label, texts);
}

std::string sources_block(const Page& page) {
  std::vector<std::string> texts;
  for (const Source& source : page.sources) texts.push_back(fmt::format("[{}] {}", texts.size() + 1, source.text));
  return lines(page, tell(page.language, "Sources"), texts);
}

}  // namespace

std::string break_text(const BreakAnswer& answer, const BreakTables& tables, const Reference& reference,
                       const TextStyle& style) {
  Page page{answer, tables, tables.form.language, style};
  const Language& language = page.language;
  std::string text = head(page) + line(page, tell(language, "Why"), result_sentence(answer, tables)) + seen_block(page);
  text += clues_block(page, tell(language, "For heat"), Clue::Speaks::for_heat);
  text += clues_block(page, tell(language, "Against"), Clue::Speaks::against_heat);
  text += clues_block(page, tell(language, "Weak edge"), Clue::Speaks::of_weak_edge);
  text += clues_block(page, tell(language, "Noted"), Clue::Speaks::of_nothing) + silent_block(page);
  text += stress_block(page) + engine_block(page) + not_known_block(page) + settle_block(page);
  text += advice_block(page, tell(language, "Keep"), tables.keep);
  text += advice_block(page, tell(language, "Handling"), tables.handling);
  text += line(page, tell(language, "Note"), break_note(language) + " " + safety_note(reference));
  return text + sources_block(page);
}

}  // namespace sunstrain
