#include "sunstrain/report/reasons.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

std::string warmth(const Language& language, double edge_k, double center_k, Units units) {
  const std::string difference = format_difference(std::round(std::abs(center_k - edge_k)), units);
  return center_k >= edge_k ? tell(language, "its edge is {} cooler than its middle", difference)
                            : tell(language, "its edge is {} warmer than its middle", difference);
}

Reason absorbed_reason(const Assessment& a, const Language& language, Units units) {
  const LiteResult& lite = a.lites[a.governing_lite];
  return {tell(language, "{} takes up {} of the sun ({} without film); {}", sheet_name(language, a, a.governing_lite),
               percent_text(lite.after.absorbed_fraction), percent_text(lite.before.absorbed_fraction),
               warmth(language, lite.after.edge_k, lite.after.center_k, units)),
          "figures", tell(language, "optics and heat balance of this pane")};
}

void plane_reason(const Assessment& a, const Language& language, std::vector<Reason>& reasons) {
  const auto raised = [](const std::optional<PlaneCheck>& check) { return check && check->raised_by > 1.0; };
  const auto say = [&](const std::string& text) {
    reasons.push_back(
        {text, "figures", tell(language, "full transient in the plane of the glass beside the quick route")});
  };
  const auto more = [](const std::optional<PlaneCheck>& check) { return 100.0 * (check->raised_by - 1.0); };
  if (raised(a.plane))
    say(tell(language,
             "followed in full through the hour, the shadow's passage brings {:.0f} % more stress than the quick "
             "working of it; the higher figure counts",
             more(a.plane)));
  else if (raised(a.plane_middle))
    say(tell(language,
             "followed in full through the hour, with the most likely values, the shadow's passage brings {:.0f} % "
             "more stress than the quick working of it; the higher figure counts",
             more(a.plane_middle)));
}

// What a thing that shades the glass, or changes a part of it, does in the hour.
std::string caster_text(const std::string& caster, const Assessment& a, const Language& language, Units units) {
  if (caster == "glazing bars")
    return tell(language, "the glazing bars and their moving shadows lie on the pane in that hour");
  if (caster == "insect screen")
    return tell(language, "the insect screen leaves half of the pane cooler than the other");
  const std::string difference = format_difference(std::round(std::abs(a.shadow.part_differs_k)), units);
  if (caster == "bare part")
    return tell(language, "glass that the film leaves bare and the rest of the pane differ by {} in the middle",
                difference);
  if (caster == "half-drawn blind" || caster == "sign" || caster == "sash in front")
    return tell(language, "glass behind the {} and the rest of the pane differ by {} in the middle",
                told(language, caster), difference);
  return tell(language, "the moving shadow of the {} lies on the pane in that hour", told(language, caster));
}

// What shades the pane, or a part of it.
std::vector<std::string> shadow_texts(const Assessment& a, const Language& language, Units units) {
  std::vector<std::string> texts;
  const std::string pattern = word_of(a.bad_end, "shading.pattern").value_or("none");
  if (pattern != "none")
    texts.push_back(tell(language, "the {} shadow leaves cool glass beside hot glass",
                         word_told(language, "shading.pattern", pattern)));
  for (const std::string& caster : a.shadow.casting)
    if (caster != "lasting shadow") texts.push_back(caster_text(caster, a, language, units));
  return texts;
}

void shadow_reason(const Assessment& a, const Language& language, std::vector<Reason>& reasons, Units units) {
  const std::string field = tell(language, "field and stress of this pane");
  for (const std::string& text : shadow_texts(a, language, units)) reasons.push_back({text, "figures", field});
  const auto pattern_told = [&](const std::string& pattern) { return word_told(language, "shading.pattern", pattern); };
  if (a.shadow.worst_ratio > a.stress_ratio) {
    std::string worst = pattern_told(a.shadow.worst_pattern);
    if (a.shadow.worst_share > 0.0) worst = tell(language, "{} of {}", worst, percent_text(a.shadow.worst_share));
    reasons.push_back({tell(language,
                            "the worst shadow that could lie on it for hours ({}) would bring {:.2f} of what the edge "
                            "bears",
                            worst, a.shadow.worst_ratio),
                       "figures", tell(language, "the same pane under every lasting shadow that a job can name")});
  }
}

void reflected_reason(const Assessment& a, const Language& language, std::vector<Reason>& reasons) {
  constexpr double worth_saying_w_m2 = 10.0;
  const auto say = [&](const std::string& what, double w_m2) {
    if (w_m2 < worth_saying_w_m2) return;
    reasons.push_back(
        {tell(language, "{} sends {:.0f} W/m2 onto the pane in that hour, beside sun, sky and ground", what, w_m2),
         "figures", tell(language, "sun reflected onto this pane")});
  };
  say(tell(language, "the wall opposite"), a.shadow.wall_w_m2);
  say(tell(language, "the water in front"), a.shadow.water_w_m2);
}

void standing_reason(const Assessment& a, const Language& language, std::vector<Reason>& reasons, Units units) {
  const LiteResult& lite = a.lites[a.governing_lite];
  if (a.film_adds_little) {
    reasons.push_back({tell(language, "as it stands today; the film adds next to nothing"), "figures",
                       tell(language, "stress before and after")});
  } else if (lite.before.stress_ratio > 0.5) {
    reasons.push_back({tell(language, "{} of edge stress are there without any film: a warm room behind a cold edge",
                            stress_text(lite.before.peak_stress_pa, units)),
                       "figures", tell(language, "stress before film")});
  }
}

// The lite beside whose refer line the answer is told: where one is past it, that one, which need not govern.
const LiteFigures& beside_refer_line(const Assessment& a) {
  if (a.figures != Verdict::refer) return a.lites[a.governing_lite].after;
  const auto share = [](const LiteResult& lite) { return lite.after.peak_stress_middle_pa / lite.after.refer_pa; };
  return std::max_element(a.lites.begin(), a.lites.end(),
                          [&](const LiteResult& x, const LiteResult& y) { return share(x) < share(y); })
      ->after;
}

void line_reason(const Assessment& a, const Language& language, std::vector<Reason>& reasons, Units units) {
  const LiteFigures& after = beside_refer_line(a);
  const std::string middle = stress_text(after.peak_stress_middle_pa, units), line = stress_text(after.refer_pa, units);
  if (a.figures == Verdict::refer) {
    reasons.push_back({tell(language,
                            "even with the most likely values the edge stress is {}, over the {} at which the maker "
                            "decides",
                            middle, line),
                       "figures", tell(language, "middle run against the refer line")});
  } else if (a.figures == Verdict::caution && a.stress_ratio_middle > 1.0) {
    reasons.push_back(
        {tell(language, "the pane is past the refer line already without film; that alone is no reason to refuse it"),
         "figures", tell(language, "middle run before film")});
  } else if (a.figures == Verdict::caution) {
    reasons.push_back(
        {tell(language, "with the most likely values it would be {}, under the refer line of {}", middle, line),
         "figures", tell(language, "middle run against the refer line")});
  }
}

void guidance_reasons(const Assessment& a, const Language& language, Severity severity, std::vector<Reason>& reasons) {
  for (const Rule& rule : a.rules) {
    if (rule.severity != severity) continue;
    reasons.push_back({(rule.users_own ? rule_name(language, rule) + ": " : std::string()) + rule.text, "guidance",
                       rule.source.text});
  }
}

Reason unknown_reason(const UnknownTaken& unknown, const Job& job, const Reference& reference, Units units) {
  const Language& language = reference.language;
  const auto value = [&](const auto& taken) { return value_text(reference, unknown.key, taken, units); };
  const std::string key = key_words(language, unknown.key), bad = value(unknown.taken_bad),
                    middle = value(unknown.taken_middle);
  const auto known = job.partly.find(unknown.key);
  if (known != job.partly.end())
    return {tell(language, "{} is given as {} and was taken as {}; {} would make it {:.2f}", key, value(known->second),
                 bad, middle, unknown.ratio_at_middle),
            "assumed", tell(language, "the job")};
  return {tell(language, "{} is not known and was taken as {}; {} would make it {:.2f}", key, bad, middle,
               unknown.ratio_at_middle),
          "assumed", "reference/job_keys.toml: " + unknown.why};
}

}  // namespace

std::vector<Reason> reasons_of(const Assessment& a, const Reference& reference, Units units) {
  const Language& language = reference.language;
  std::vector<Reason> reasons;
  guidance_reasons(a, language, Severity::refer, reasons);
  std::vector<Reason> figures{absorbed_reason(a, language, units)};
  plane_reason(a, language, figures);
  shadow_reason(a, language, figures, units);
  reflected_reason(a, language, figures);
  line_reason(a, language, figures, units);
  standing_reason(a, language, figures, units);
  reasons.insert(reasons.end(), figures.begin(), figures.end());
  guidance_reasons(a, language, Severity::ask, reasons);
  for (const OpenRule& open : a.open_rules)
    reasons.push_back({open_rule_text(open, reference, units), "guidance", open.rule.source.text});
  for (const UnknownTaken& unknown : a.unknowns)
    if (unknown.decided) reasons.push_back(unknown_reason(unknown, a.job, reference, units));
  return reasons;
}

std::vector<std::string> plain_reasons_of(const Assessment& a, const Reference& reference, Units units) {
  const Language& language = reference.language;
  std::vector<Reason> guidance;
  for (const Severity severity : {Severity::refer, Severity::ask}) guidance_reasons(a, language, severity, guidance);
  std::vector<std::string> texts;
  for (const Reason& reason : guidance) texts.push_back(reason.text);
  for (const OpenRule& open : a.open_rules) texts.push_back(open_rule_text(open, reference, units));
  texts.push_back(absorbed_reason(a, language, units).text);
  for (std::string& text : shadow_texts(a, language, units)) texts.push_back(std::move(text));
  for (const UnknownTaken& unknown : a.unknowns)
    if (unknown.decided)
      texts.push_back(tell(language, "{} is not known; the answer hangs on it", key_words(language, unknown.key)));
  return texts;
}

std::vector<std::string> helps_of(const Assessment& a, const Reference& reference, Units) {
  std::vector<std::string> texts;
  for (const Help& help : a.helps) {
    texts.push_back(help.solar_absorptance
                        ? tell(reference.language,
                               "a film of at most {} solar absorptance on the same glass: go on figures ({:.2f})",
                               percent_text(*help.solar_absorptance), help.stress_ratio)
                        : fmt::format("{}: {:.2f}", help.words, help.stress_ratio));
  }
  return texts;
}

}  // namespace sunstrain
