#include "sunstrain/report/reasons.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

std::string warmth(double edge_k, double center_k, Units units) {
  const std::string difference = format_difference(std::round(std::abs(center_k - edge_k)), units);
  return center_k >= edge_k ? fmt::format("its edge is {} cooler than its middle", difference)
                            : fmt::format("its edge is {} warmer than its middle", difference);
}

Reason absorbed_reason(const Assessment& a, Units units) {
  const LiteResult& lite = a.lites[a.governing_lite];
  return {fmt::format("{} takes up {} of the sun ({} without film); {}", sheet_name(a, a.governing_lite),
                      percent_text(lite.after.absorbed_fraction), percent_text(lite.before.absorbed_fraction),
                      warmth(lite.after.edge_k, lite.after.center_k, units)),
          "figures", "optics and heat balance of this pane"};
}

void plane_reason(const Assessment& a, std::vector<Reason>& reasons) {
  const auto raised = [](const std::optional<PlaneCheck>& check) { return check && check->raised_by > 1.0; };
  const auto say = [&](const std::optional<PlaneCheck>& check, const char* run) {
    reasons.push_back(
        {fmt::format("followed in full through the hour{}, the shadow's passage brings {:.0f} % more stress "
                     "than the quick working of it; the higher figure counts",
                     run, 100.0 * (check->raised_by - 1.0)),
         "figures", "full transient in the plane of the glass beside the quick route"});
  };
  if (raised(a.plane))
    say(a.plane, "");
  else if (raised(a.plane_middle))
    say(a.plane_middle, ", with the most likely values");
}

void shadow_reason(const Assessment& a, std::vector<Reason>& reasons, Units units) {
  const std::string pattern = word_of(a.bad_end, "shading.pattern").value_or("none");
  if (pattern != "none") {
    reasons.push_back({fmt::format("the {} shadow leaves cool glass beside hot glass", pattern), "figures",
                       "field and stress of this pane"});
  }
  for (const std::string& caster : a.shadow.casting) {
    if (caster == "lasting shadow") continue;
    std::string text = fmt::format("the moving shadow of the {} lies on the pane in that hour", caster);
    if (caster == "glazing bars") text = "the glazing bars and their moving shadows lie on the pane in that hour";
    if (caster == "insect screen") text = "the insect screen leaves half of the pane cooler than the other";
    if (caster == "half-drawn blind" || caster == "sign" || caster == "sash in front" || caster == "bare part")
      text = fmt::format("glass {} and the rest of the pane differ by {} in the middle",
                         caster == "bare part" ? "that the film leaves bare" : "behind the " + caster,
                         format_difference(std::round(std::abs(a.shadow.part_differs_k)), units));
    reasons.push_back({text, "figures", "field and stress of this pane"});
  }
  if (a.shadow.worst_ratio > a.stress_ratio) {
    const std::string share = a.shadow.worst_share > 0.0 ? " of " + percent_text(a.shadow.worst_share) : std::string();
    reasons.push_back({fmt::format("the worst shadow that could lie on it for hours ({}{}) would bring {:.2f} of what "
                                   "the edge bears",
                                   a.shadow.worst_pattern, share, a.shadow.worst_ratio),
                       "figures", "the same pane under every lasting shadow that a job can name"});
  }
}

void reflected_reason(const Assessment& a, std::vector<Reason>& reasons) {
  constexpr double worth_saying_w_m2 = 10.0;
  const auto say = [&](const char* what, double w_m2) {
    if (w_m2 < worth_saying_w_m2) return;
    reasons.push_back(
        {fmt::format("{} sends {:.0f} W/m2 onto the pane in that hour, beside sun, sky and ground", what, w_m2),
         "figures", "sun reflected onto this pane"});
  };
  say("the wall opposite", a.shadow.wall_w_m2);
  say("the water in front", a.shadow.water_w_m2);
}

void standing_reason(const Assessment& a, std::vector<Reason>& reasons, Units units) {
  const LiteResult& lite = a.lites[a.governing_lite];
  if (a.film_adds_little) {
    reasons.push_back({"as it stands today; the film adds next to nothing", "figures", "stress before and after"});
  } else if (lite.before.stress_ratio > 0.5) {
    reasons.push_back({fmt::format("{} of edge stress are there without any film: a warm room behind a cold edge",
                                   stress_text(lite.before.peak_stress_pa, units)),
                       "figures", "stress before film"});
  }
}

void line_reason(const Assessment& a, std::vector<Reason>& reasons, Units units) {
  const LiteFigures& after = a.lites[a.governing_lite].after;
  if (a.figures == Verdict::refer) {
    reasons.push_back(
        {fmt::format("even with the most likely values the edge stress is {}, over the {} at which the maker decides",
                     stress_text(after.peak_stress_middle_pa, units), stress_text(after.refer_pa, units)),
         "figures", "middle run against the refer line"});
  } else if (a.figures == Verdict::caution && a.stress_ratio_middle > 1.0) {
    reasons.push_back({"the pane is past the refer line already without film; that alone is no reason to refuse it",
                       "figures", "middle run before film"});
  } else if (a.figures == Verdict::caution) {
    reasons.push_back({fmt::format("with the most likely values it would be {}, under the refer line of {}",
                                   stress_text(after.peak_stress_middle_pa, units), stress_text(after.refer_pa, units)),
                       "figures", "middle run against the refer line"});
  }
}

void guidance_reasons(const Assessment& a, Severity severity, std::vector<Reason>& reasons) {
  for (const Rule& rule : a.rules) {
    if (rule.severity != severity) continue;
    reasons.push_back(
        {(rule.users_own ? rule_name(rule) + ": " : std::string()) + rule.text, "guidance", rule.source.text});
  }
}

}  // namespace

std::vector<Reason> reasons_of(const Assessment& a, const Reference& reference, Units units) {
  std::vector<Reason> reasons;
  guidance_reasons(a, Severity::refer, reasons);
  std::vector<Reason> figures{absorbed_reason(a, units)};
  plane_reason(a, figures);
  shadow_reason(a, figures, units);
  reflected_reason(a, figures);
  line_reason(a, figures, units);
  standing_reason(a, figures, units);
  reasons.insert(reasons.end(), figures.begin(), figures.end());
  guidance_reasons(a, Severity::ask, reasons);
  for (const OpenRule& open : a.open_rules)
    reasons.push_back({open_rule_text(open, reference, units), "guidance", open.rule.source.text});
  for (const UnknownTaken& unknown : a.unknowns) {
    if (!unknown.decided) continue;
    const auto known = a.job.partly.find(unknown.key);
    const bool given = known != a.job.partly.end();
    const std::string how =
        given ? "given as " + value_text(reference, unknown.key, known->second, units) : std::string("not known");
    reasons.push_back(
        {fmt::format("{} is {} and was taken as {}; {} would make it {:.2f}", key_words(unknown.key), how,
                     value_text(reference, unknown.key, unknown.taken_bad, units),
                     value_text(reference, unknown.key, unknown.taken_middle, units), unknown.ratio_at_middle),
         "assumed", given ? "the job" : "reference/job_keys.toml: " + unknown.why});
  }
  return reasons;
}

std::vector<std::string> helps_of(const Assessment& a, const Reference&, Units) {
  std::vector<std::string> texts;
  for (const Help& help : a.helps) {
    texts.push_back(
        help.solar_absorptance
            ? fmt::format("a film of at most {} solar absorptance on the same glass: go on figures ({:.2f})",
                          percent_text(*help.solar_absorptance), help.stress_ratio)
            : fmt::format("{}: {:.2f}", help.words, help.stress_ratio));
  }
  return texts;
}

}  // namespace sunstrain
