#include "sunstrain/report/trace_report.hpp"

#include <fmt/format.h>

#include <cmath>

#include "json_parts.hpp"
#include "sunstrain/io/data_tables.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using Json = nlohmann::ordered_json;
using report::labeled;

// Four digits that count, without an exponent where it reads well.
std::string number_text(double value) {
  const double size = std::abs(value);
  if (size == 0.0) return "0";
  if (size < 1e-4 || size >= 1e6) return fmt::format("{:.1e}", value);
  return fmt::format("{:.{}f}", value, size >= 1000.0 ? 0 : size >= 100.0 ? 1 : size >= 10.0 ? 2 : size >= 1.0 ? 3 : 4);
}

std::string unit_text(const std::string& unit) { return unit == "1" || unit == "-" ? "" : " " + unit; }

// The rules that asked or referred.
std::string rules_text(const Language& language, const Assessment& a) {
  std::string text;
  for (const Rule& rule : a.rules)
    if (rule.severity != Severity::note) text += (text.empty() ? "" : ", ") + report::rule_name(language, rule);
  for (const OpenRule& open : a.open_rules) text += (text.empty() ? "" : ", ") + report::rule_name(language, open.rule);
  return text.empty() ? tell(language, "no rule") : text;
}

std::string stage_text(const TraceStage& stage, const Language& language, int width) {
  std::string text = "\n" + told(language, stage.name) + "\n";
  std::string last;
  for (const TraceFigure& figure : stage.figures) {
    const std::string value = number_text(figure.value) + unit_text(figure.unit);
    const auto gap = static_cast<std::size_t>(std::max(1, 62 - static_cast<int>(report::columns(figure.what))));
    text += "  " + figure.what + std::string(gap > value.size() ? gap - value.size() : 1, ' ') + value + "\n";
    if (figure.how != last && figure.how != tell(language, "the same")) text += labeled("", figure.how, 6, width);
    last = figure.how;
  }
  return text;
}

std::string percent_or_dash(double share) { return share > 0.0 ? report::percent_text(share) : "-"; }

std::string by_hand_text(const Trace& t, const Language& language, int width) {
  std::string text =
      "\n" + tell(language, "the same pane by hand methods of national standards (recalled; they inform only)") + "\n";
  text += fmt::format("  {:<20}{:>8}{:>8}{:>6}{:>6}{:>9}{:>9}{:>11}\n", "", tell(language, "shadow"),
                      tell(language, "curtain"), tell(language, "area"), tell(language, "edge"),
                      tell(language, "diff. K"), "MPa", tell(language, "of limit"));
  for (const HandResult& r : t.by_hand) {
    text += fmt::format("  {:<20}{:>8.2f}{:>8.2f}{:>6.2f}{:>6.2f}{:>9.1f}{:>9.1f}{:>11}\n", told(language, r.method),
                        r.shadow_factor, r.curtain_factor, r.area_factor, r.glazing_factor, r.middle_k - r.edge_k,
                        r.stress_pa / 1e6, percent_or_dash(r.allowable_pa > 0.0 ? r.stress_pa / r.allowable_pa : 0.0));
  }
  text += fmt::format("  {:<20}{:>8}{:>8}{:>6}{:>6}{:>9.1f}{:>9.1f}{:>11}\n", tell(language, "here, bad end"), "", "",
                      "", "", t.governing.center_k - t.governing.edge_k, t.governing.peak_stress_pa / 1e6,
                      report::percent_text(t.governing.stress_ratio));
  for (const std::string& why : t.why_differ) text += labeled("  -", why, 4, width);
  return text;
}

std::string limits_text(const Trace& t, const Language& language) {
  std::string text =
      "\n" + tell(language, "against published limits (of this glass; the bad end's stress and difference)") + "\n";
  for (const LimitUsed& limit : t.limits) {
    const std::string line = limit.stress_pa > 0.0 ? fmt::format("{:.1f} MPa", limit.stress_pa / 1e6)
                                                   : fmt::format("{:.0f} K", limit.difference_k);
    text += tell(language, "  {:<36}{:>12}{:>8} used   {}", told(language, limit.published), line,
                 report::percent_text(limit.used), told(language, certainty_word(limit.source.certainty))) +
            "\n";
  }
  return text;
}

}  // namespace

std::string trace_text(const Trace& t, const Reference& reference, int width) {
  const Language& language = reference.language;
  std::string text =
      tell(language, "Working of {}: {}, with film, {}, bad end", t.assessment.job.source,
           report::sheet_name(language, t.assessment, t.lite), report::moment_text(language, t.governing.when)) +
      "\n";
  text += labeled("",
                  tell(language,
                       "The answer: {}. What nobody knew is taken at its worst ({} of the job's keys); the rules of "
                       "trade practice come on top of the figures ({}), here {}.",
                       report::verdict_words(language, t.assessment.verdict), t.assessment.unknowns.size(),
                       report::verdict_words(language, t.assessment.figures), rules_text(language, t.assessment)),
                  0, width);
  for (const TraceStage& stage : t.stages) text += stage_text(stage, language, width);
  text += by_hand_text(t, language, width) + limits_text(t, language) + "\n";
  text += labeled("",
                  tell(language,
                       "These limits lie far apart and each goes with its own way of working the stress; none of them, "
                       "and nothing here, stands above the film maker's and the glass maker's word."),
                  0, width);
  return text + "\n" + labeled(tell(language, "Note"), safety_note(reference), 11, width);
}

std::string trace_json(const Trace& t, const Reference& reference) {
  Json json{{"job", t.assessment.job.source},
            {"reference_version", reference.version},
            {"own_rules", report::own_rules_json(reference)},
            {"verdict", report::verdict_word(t.assessment.verdict)},
            {"figures", report::verdict_word(t.assessment.figures)},
            {"guidance", report::verdict_word(t.assessment.guidance)},
            {"rules", report::list_of(t.assessment.rules, [](const Rule& rule) { return report::json_of(rule); })},
            {"lite", t.lite + 1},
            {"when",
             {{"month", t.governing.when.month},
              {"day", t.governing.when.day == DayKind::cold_clear ? "cold clear" : "hot clear"},
              {"local_hour", t.governing.when.local_hour}}}};
  for (const TraceStage& stage : t.stages) {
    Json figures = Json::array();
    for (const TraceFigure& f : stage.figures)
      figures.push_back({{"what", f.what}, {"value", f.value}, {"unit", f.unit}, {"how", f.how}});
    json["stages"].push_back({{"name", stage.name}, {"figures", std::move(figures)}});
  }
  for (const HandResult& r : t.by_hand) {
    const bool judged = r.allowable_pa > 0.0;
    json["by_hand"].push_back({{"method", r.method},
                               {"middle_less_edge_k", r.middle_k - r.edge_k},
                               {"shadow_factor", r.shadow_factor},
                               {"curtain_factor", r.curtain_factor},
                               {"area_factor", r.area_factor},
                               {"edge_factor", r.glazing_factor},
                               {"stress_mpa", r.stress_pa / 1e6},
                               {"allowable_mpa", judged ? Json(r.allowable_pa / 1e6) : Json()},
                               {"used", judged ? Json(r.stress_pa / r.allowable_pa) : Json()}});
  }
  for (const LimitUsed& limit : t.limits) {
    Json row{{"published", limit.published}};
    if (limit.stress_pa > 0.0) row["stress_mpa"] = limit.stress_pa / 1e6;
    if (limit.difference_k > 0.0) row["difference_k"] = limit.difference_k;
    row["used"] = limit.used;
    row["certainty"] = certainty_word(limit.source.certainty);
    row["source"] = limit.source.text;
    json["limits"].push_back(std::move(row));
  }
  json["why_they_differ"] = t.why_differ;
  json["safety_note"] = safety_note(reference);
  return json.dump(2) + "\n";
}

}  // namespace sunstrain
