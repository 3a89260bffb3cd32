#include "break_words.hpp"
#include "json_parts.hpp"
#include "sunstrain/io/data_tables.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;
using Json = nlohmann::ordered_json;

constexpr double pa_per_mpa = 1e6, kelvin_at_0_c = 273.15;

Json mpa(double stress_pa) { return finite(stress_pa / pa_per_mpa); }

Json seen_json(const Observations& seen, const std::vector<JobKey>& keys) {
  Json json = Json::object();
  for (const JobKey& key : keys) {
    if (const auto value = seen.values.find(key.name); value != seen.values.end())
      json[key.name] = json_of(value->second);
    if (const auto known = seen.partly.find(key.name); known != seen.partly.end())
      json[key.name] = list_of(known->second.values, [](const Value& value) { return json_of(value); });
  }
  return json;
}

Json clue_json(const Clue& clue) {
  const bool weighs = clue.speaks == Clue::Speaks::for_heat || clue.speaks == Clue::Speaks::against_heat;
  return {{"name", clue.name},
          {"speaks", speaks_word(clue.speaks)},
          {"weight", weighs ? Json(weight_word(clue.weight)) : Json()},
          {"text", clue.text},
          {"source", clue.source.text},
          {"certainty", certainty_word(clue.source.certainty)},
          {"note", clue.note.empty() ? Json() : Json(clue.note)}};
}

Json bands_json(const std::vector<std::size_t>& bands, const BreakTables& tables) {
  return list_of(bands, [&](std::size_t band) { return Json(tables.bands[band].name); });
}

Json stress_json(const BreakStress& stress, const BreakTables& tables) {
  const auto of_sign = [&](const SignRead& read) {
    const auto figure = [&](double pa) { return read.range ? mpa(pa) : Json(); };
    const StressRange range = read.range.value_or(StressRange{});
    return Json{{"name", read.sign.name},
                {"bands", bands_json(read.bands, tables)},
                {"likely_mpa", figure(range.likely_pa)},
                {"least_mpa", figure(range.least_pa)},
                {"most_mpa", figure(range.most_pa)},
                {"beyond_what_tells", read.far},
                {"text", read.sign.text},
                {"source", read.sign.source.text},
                {"certainty", certainty_word(read.sign.source.certainty)}};
  };
  const auto meaning = [&](std::size_t band) { return Json(tables.bands[band].text); };
  return {{"bands", bands_json(stress.bands, tables)},
          {"disagree", stress.disagree()},
          {"meaning", list_of(stress.bands, meaning)},
          {"signs", list_of(stress.signs, of_sign)}};
}

std::string meeting_word(Meeting meeting) {
  return meeting == Meeting::meets ? "same band" : meeting == Meeting::engine_lower ? "lower" : "higher";
}

Json engine_json(const BreakAnswer& answer, const BreakTables& tables) {
  if (!answer.day) return nullptr;
  const GivenDay& day = answer.day->day;
  const OnGivenDay& on = answer.day->on;
  const auto band = [&](double pa) { return tables.bands[band_of(pa, tables.bands)].name; };
  const std::optional<Meeting> meeting = meeting_of(answer, tables);
  return {{"lite", sheet_name({}, *answer.assessment, answer.day->sheet)},
          {"month", day.month},
          {"day", day.day},
          {"lowest_c", finite(day.lowest_k - kelvin_at_0_c)},
          {"highest_c", finite(day.highest_k - kelvin_at_0_c)},
          {"cloud", day.cloud},
          {"edge_stress_mpa", mpa(on.stress_pa)},
          {"edge_stress_without_film_mpa", mpa(on.stress_without_film_pa)},
          {"stress_ratio", finite(on.stress_ratio)},
          {"edge_stress_middle_mpa", mpa(on.middle_stress_pa)},
          {"band", band(on.stress_pa)},
          {"band_middle", band(on.middle_stress_pa)},
          {"local_hour", finite(on.local_hour)},
          {"beside_the_break", meeting ? Json(meeting_word(*meeting)) : Json()}};
}

Json job_json(const BreakAnswer& answer) {
  if (!answer.assessment) return nullptr;
  const auto name = word_of(answer.assessment->job, "job.name");
  return {{"source", answer.assessment->job.source}, {"name", name ? Json(*name) : Json()}};
}

Json open_json(const BreakReading& reading, const BreakTables& tables) {
  const auto question = [&](const std::string& key) { return find_job_key(tables.form.job_keys, key)->question; };
  return {{"not_known", list_of(reading.not_known,
                                [&](const std::string& key) {
                                  return Json{{"key", key}, {"find_out", question(key)}};
                                })},
          {"would_settle",
           list_of(reading.would_settle,
                   [](const Settling& one) {
                     return Json{{"key", one.key}, {"value", json_of(one.value)}, {"result", result_word(one.result)}};
                   })},
          {"look_first", reading.look_first}};
}

}  // namespace

std::string break_json(const BreakAnswer& answer, const BreakTables& tables, const Reference& reference) {
  const BreakReading& reading = answer.reading;
  const ClueCounts counts = counts_of(reading.clues);
  const std::string not_worked = not_worked_text(answer, tables);
  const auto text_of = [](const Advice& advice) { return Json(advice.text); };
  Json json{{"schema", "sunstrain-break-1"},
            {"source", answer.seen.source},
            {"job", job_json(answer)},
            {"result", result_word(reading.result)},
            {"result_text", result_sentence(answer, tables)},
            {"counted",
             {{"strong_for", counts.strong_for},
              {"against", counts.against},
              {"strong_against", counts.strong_against},
              {"decisive_against", counts.decisive_against}}},
            {"seen", seen_json(answer.seen, tables.form.job_keys)},
            {"clues", list_of(reading.clues, clue_json)},
            {"silent", reading.silent},
            {"stress", stress_json(reading.stress, tables)},
            {"engine", engine_json(answer, tables)},
            {"engine_not_worked", not_worked.empty() ? Json() : Json(not_worked)}};
  json.update(open_json(reading, tables));
  json["keep"] = list_of(tables.keep, text_of);
  json["handling"] = list_of(tables.handling, text_of);
  json["note"] = break_note(tables.form.language);
  json["safety_note"] = safety_note(reference);
  json["engine_version"] = SUNSTRAIN_VERSION;
  json["reference_version"] = reference.version;
  return json_text(json);
}

}  // namespace sunstrain
