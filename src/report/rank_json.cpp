#include "rank_json.hpp"

#include "json_parts.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace report {
namespace {

using Json = nlohmann::ordered_json;

const char* word(LeftOut::Why why) {
  switch (why) {
    case LeftOut::Why::verdict:
      return "verdict";
    case LeftOut::Why::heat:
      return "sun_heat_kept_out";
    case LeftOut::Why::daylight:
      return "daylight";
    case LeftOut::Why::daylight_not_given:
      return "daylight_not_given";
    case LeftOut::Why::beyond_first:
      return "beyond_first";
  }
  return "";
}

Json film_json(const FilmOnPane& film, const FilmWords& words, std::size_t place) {
  const RuleIds rules = rule_ids(film.rules, {});
  return {{"place", place},
          {"line", words.line},
          {"name", words.name},
          {"verdict", verdict_word(film.verdict)},
          {"figures", verdict_word(film.figures)},
          {"guidance", verdict_word(film.guidance)},
          {"stress_ratio", finite(film.stress_ratio)},
          {"stress_ratio_middle", finite(film.stress_ratio_middle)},
          {"sun_heat_kept_out", finite(film.heat_kept_out())},
          {"sun_heat_cut", finite(film.heat_cut())},
          {"shgc", finite(film.shgc_after)},
          {"shgc_without_film", finite(film.shgc_before)},
          {"daylight", film.daylight ? Json(*film.daylight) : Json()},
          {"reason", words.reason},
          {"rules", rules.built_in},
          {"own_rules", rules.own},
          {"open_rules", list_of(film.open_rules, [](const OpenRule& open) { return Json(open.rule.id); })},
          {"decided_by", list_of(film.deciding, [](const Deciding& unknown) {
             return Json{{"key", unknown.key}, {"most_likely", json_of(unknown.most_likely)}};
           })}};
}

}  // namespace

Json json_of(const RankedPane& pane, const RankChoice& choice, const Language& language) {
  const Ranking ranking = rank_films(pane.films, choice);
  Json films = Json::array(), left_out = Json::array(), errors = Json::array();
  for (const std::size_t i : ranking.shown) films.push_back(film_json(*pane.films[i], pane.words[i], films.size() + 1));
  for (const LeftOut& film : ranking.left_out) {
    const FilmWords& words = pane.words[film.film];
    left_out.push_back({{"line", words.line},
                        {"name", words.name},
                        {"verdict", verdict_word(pane.films[film.film]->verdict)},
                        {"why", word(film.why)}});
  }
  for (std::size_t i = 0; i < pane.films.size(); ++i) {
    const FilmWords& words = pane.words[i];
    if (!pane.films[i])
      errors.push_back({{"line", words.line}, {"name", words.name}, {"error", words.no_answer(language)}});
  }
  return {{"films", films}, {"left_out", left_out}, {"errors", errors}};
}

}  // namespace report

std::string rank_json(const RankedPane& pane, const RankChoice& choice, const Reference& reference) {
  nlohmann::ordered_json document{{"schema", "sunstrain-rank-1"}, {"source", pane.source}, {"title", pane.title}};
  document.update(report::json_of(pane, choice, reference.language));
  document["own_rules"] = report::own_rules_json(reference);
  document["safety_note"] = safety_note(reference);
  document["engine_version"] = SUNSTRAIN_VERSION;
  document["reference_version"] = reference.version;
  return report::json_text(document);
}

}  // namespace sunstrain
