#include "sunstrain/report/limit_report.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "json_parts.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/unit_build_up.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;
using Json = nlohmann::ordered_json;

// Films from and to a whole percent, among those that can be.
std::string percents_text(double from, double to, const FilmLimits& limits, const Language& language) {
  constexpr double half = 0.005;
  const bool from_lightest = from<limits.lightest + half, to_darkest = to> limits.darkest - half;
  if (to < from - half) return "";
  if (from_lightest && to_darkest) return tell(language, "every film");
  if (from_lightest) return tell(language, "up to {}", percent_text(to));
  if (to_darkest) return tell(language, "{} and more", percent_text(from));
  return to < from + half ? percent_text(from) : tell(language, "{:.0f} to {}", 100.0 * from, percent_text(to));
}

std::string reach_text(const Reach& reach, const FilmLimits& limits, const Language& language) {
  return reach.kind == Reach::Kind::no_film ? tell(language, "no film")
                                            : percents_text(reach.from, reach.solar_absorptance, limits, language);
}

// The films within `outer` that are not within `inner`: lighter and darker ones.
std::string between_text(const Reach& inner, const Reach& outer, const FilmLimits& limits, const Language& language) {
  if (inner.kind == Reach::Kind::no_film || outer.kind == Reach::Kind::no_film)
    return reach_text(outer, limits, language);
  const std::string lighter = percents_text(outer.from, inner.from - 0.01, limits, language);
  const std::string darker = percents_text(inner.solar_absorptance + 0.01, outer.solar_absorptance, limits, language);
  if (lighter.empty() && darker.empty()) return tell(language, "no film");
  return lighter + (lighter.empty() || darker.empty() ? "" : ", ") + darker;
}

// What the darkest film of the best verdict that there is does to the pane as it is.
const Assessment& shown(const FilmLimits& limits) {
  const PaneLimits& now = limits.panes.front();
  return (now.go.verdict.kind == Reach::Kind::no_film ? now.caution : now.go).with;
}

std::string glass_of(const FilmLimits& limits) {
  return word_of(shown(limits).bad_end, "film.reference_glass").value_or("");
}

// "3-mm-clear" -> "3 mm clear glass"
std::string glass_words(std::string choice, const Language& language) {
  const std::string& in_language = word_told(language, "film.reference_glass", choice);
  if (in_language != choice) return in_language;
  std::replace(choice.begin(), choice.end(), '-', ' ');
  return tell(language, "{} glass", choice);
}

std::string bands_block(const FilmLimits& limits, const Language& language, const TextStyle& style) {
  const PaneLimits& now = limits.panes.front();
  const Reach every{Reach::Kind::every_film, limits.darkest, limits.lightest};
  std::string block;
  const auto line = [&](Verdict verdict, const std::string& films) {
    const std::size_t used = columns(verdict_mark(language, verdict, false));
    block += verdict_mark(language, verdict, style.color) + std::string(verdict_mark_width(language) + 2 - used, ' ') +
             films + "\n";
  };
  line(Verdict::go, reach_text(now.go.verdict, limits, language));
  line(Verdict::caution, between_text(now.go.verdict, now.caution.verdict, limits, language));
  line(Verdict::refer, between_text(now.caution.verdict, every, limits, language));
  return block;
}

// What the films are counted by, and which of them.
std::string films_block(const FilmLimits& limits, const Language& language, const TextStyle& style) {
  std::string text = tell(language, "the solar absorptance on the film's sheet, measured on {}",
                          glass_words(glass_of(limits), language));
  if (!word_of(limits.job, "film.reference_glass"))
    text += tell(language, " (which glass is not known; taken at its worst for this pane)");
  text += limits.reflected ? tell(language, "; it throws back {}, as the job says", percent_text(*limits.reflected))
                           : tell(language, "; how much it throws back is not known and taken at its worst");
  text += tell(language, ". Such films run from {:.0f} to {}.", 100.0 * limits.lightest, percent_text(limits.darkest));
  return labeled(tell(language, "Counted by"), text, label_columns, style.width);
}

std::string on_this_pane(const FilmLimits& limits, const Language& language, const TextStyle& style) {
  const Assessment& a = shown(limits);
  const LiteResult& lite = a.lites[a.governing_lite];
  const double absorptance = number_of(a.job, "film.solar_absorptance").value();
  return labeled(tell(language, "On it"),
                 tell(language,
                      "with {} on the sheet the {} takes up {} of the sun ({} without film); edge stress {}, {:.2f} of "
                      "what the edge bears",
                      percent_text(absorptance),
                      a.sheets.size() == 1 ? tell(language, "pane") : sheet_name(language, a, a.governing_lite),
                      percent_text(lite.after.absorbed_fraction), percent_text(lite.before.absorbed_fraction),
                      stress_text(lite.after.peak_stress_pa, style.units), lite.after.stress_ratio),
                 label_columns, style.width);
}

// Why no darker film stays within the line.
std::string end_text(const FilmLimits& limits, const FilmLimit& limit, Verdict line, const Language& language) {
  const bool none = limit.verdict.kind == Reach::Kind::no_film;
  const std::string what = verdict_words(language, line), end = percent_text(limit.verdict.solar_absorptance);
  if (!none && limit.verdict.solar_absorptance > limits.darkest - 0.005)
    return tell(language, "even the darkest film that can be is no worse than {}.", what);
  if (limit.held.empty())
    return none ? tell(language, "no film stays {}: by the figures every one is past the line.", what)
                : tell(language, "ends at {} by the figures.", end);
  std::string rules;
  for (std::size_t i = 0; i < limit.held.size(); ++i) {
    const std::string rule = fmt::format("{}: {} ", rule_words(language, limit.held[i]), limit.held[i].text);
    rules += i > 0 ? tell(language, "And {}", rule) : rule;
  }
  const std::string held =
      !none ? tell(language, "ends at {}, by {}", end, rules)
      : line == Verdict::go
          ? tell(language, "no film stays go; whatever the film, held back by {}", rules)
          : tell(language, "no film stays caution, let alone go; whatever the film, held back by {}", rules);
  return held + tell(language, "Figures alone: {}.", reach_text(limit.figures, limits, language));
}

std::string end_block(const FilmLimits& limits, const FilmLimit& limit, Verdict line, const Language& language,
                      const TextStyle& style) {
  return labeled(line == Verdict::go ? tell(language, "Go") : tell(language, "Caution"),
                 end_text(limits, limit, line, language), label_columns, style.width);
}

std::string mended_block(const FilmLimits& limits, const Language& language, const TextStyle& style) {
  if (limits.panes.size() == 1) return "";
  std::string block = figure_row(tell(language, "Once mended"), verdict_words(language, Verdict::go),
                                 verdict_words(language, Verdict::caution), style.width);
  for (const PaneLimits& pane : limits.panes) {
    block += figure_row("  " + (pane.mended.empty() ? tell(language, "as it is") : pane.mended),
                        reach_text(pane.go.verdict, limits, language),
                        reach_text(pane.caution.verdict, limits, language), style.width);
  }
  return block;
}

std::string unknown_block(const FilmLimits& limits, const Language& language, const TextStyle& style) {
  const Assessment& with = limits.panes.front().go.with;
  Facts unit;  // what follows from a unit's build-up is not counted beside it
  if (const auto build_up = with.bad_end.values.find("unit.build_up"); build_up != with.bad_end.values.end()) {
    unit.insert(*build_up);
    take_apart(unit);
    unit.erase("unit.build_up");
  }
  const auto open = std::count_if(with.bad_end.values.begin(), with.bad_end.values.end(), [&](const auto& taken) {
    return !with.job.values.contains(taken.first) && !unit.contains(taken.first);
  });
  if (open == 0) return "";
  const std::string text =
      open == 1
          ? tell(language, "{} thing about this job, taken at the worst plausible value; sunstrain check names it",
                 open)
          : tell(language, "{} things about this job, taken at the worst plausible value; sunstrain check names them",
                 open);
  return labeled(tell(language, "Not known"), text, label_columns, style.width);
}

Json json_of_reach(const Reach& reach) {
  const bool none = reach.kind == Reach::Kind::no_film;
  return {{"films", none                               ? "none"
                    : reach.kind == Reach::Kind::up_to ? "up_to"
                                                       : "every"},
          {"from", none ? Json() : Json(finite(reach.from))},
          {"solar_absorptance", none ? Json() : Json(finite(reach.solar_absorptance))}};
}

Json json_of_limit(const FilmLimit& limit) {
  const Assessment& a = limit.with;
  const LiteResult& lite = a.lites[a.governing_lite];
  Json json = json_of_reach(limit.verdict);
  json["by_figures_alone"] = json_of_reach(limit.figures);
  json["rules"] = list_of(limit.held, [](const Rule& rule) { return json_of(rule); });
  json["with_it"] = {{"solar_absorptance", number_of(a.job, "film.solar_absorptance").value()},
                     {"verdict", verdict_word(a.verdict)},
                     {"stress_ratio", finite(a.stress_ratio)},
                     {"stress_ratio_middle", finite(a.stress_ratio_middle)},
                     {"lite_absorbs", finite(lite.after.absorbed_fraction)},
                     {"lite_absorbs_without_film", finite(lite.before.absorbed_fraction)}};
  return json;
}

}  // namespace

std::string limit_text(const FilmLimits& limits, const Reference& reference, const TextStyle& style) {
  const Language& language = reference.language;
  const PaneLimits& now = limits.panes.front();
  std::string text = labeled(
      "", tell(language, "How dark a film: {}", word_of(limits.job, "job.name").value_or(tell(language, "this pane"))),
      0, style.width);
  text += bands_block(limits, language, style);
  text += films_block(limits, language, style);
  text += on_this_pane(limits, language, style);
  // What shuts out even caution shuts out go; what lets every film go leaves nothing to say of caution.
  const bool shut = now.caution.verdict.kind == Reach::Kind::no_film && !now.caution.held.empty();
  if (!shut) text += end_block(limits, now.go, Verdict::go, language, style);
  if (now.go.verdict.kind != Reach::Kind::every_film)
    text += end_block(limits, now.caution, Verdict::caution, language, style);
  text += mended_block(limits, language, style);
  text += unknown_block(limits, language, style);
  return text + labeled(tell(language, "Note"), safety_note(reference), label_columns, style.width);
}

std::string limit_json(const FilmLimits& limits, const Reference& reference) {
  return json_text({{"schema", "sunstrain-limit-1"},
                    {"source", limits.job.source},
                    {"reference_glass", glass_of(limits)},
                    {"reference_glass_known", word_of(limits.job, "film.reference_glass").has_value()},
                    {"solar_reflectance", limits.reflected ? Json(*limits.reflected) : Json()},
                    {"lightest_possible", finite(limits.lightest)},
                    {"darkest_possible", finite(limits.darkest)},
                    {"panes", list_of(limits.panes,
                                      [](const PaneLimits& pane) {
                                        return Json{{"mended", pane.mended.empty() ? Json() : Json(pane.mended)},
                                                    {"go", json_of_limit(pane.go)},
                                                    {"caution", json_of_limit(pane.caution)}};
                                      })},
                    {"safety_note", safety_note(reference)},
                    {"engine_version", SUNSTRAIN_VERSION},
                    {"reference_version", reference.version},
                    {"own_rules", own_rules_json(reference)}});
}

}  // namespace sunstrain
