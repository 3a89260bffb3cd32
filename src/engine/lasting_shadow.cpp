#include "lasting_shadow.hpp"

#include <algorithm>

#include "sunstrain/job_keys.hpp"
#include "year_parts.hpp"

namespace sunstrain::internal {
namespace {

// Of every pattern a job can name, with every share that is plausible for it where nobody knows it: the shading keys.
std::vector<Facts> lasting_shadows(const Reference& reference) {
  const JobKey& pattern = *find_job_key(reference.job_keys, "shading.pattern");
  const JobKey& share = *find_job_key(reference.job_keys, "shading.share");
  std::vector<Facts> shadows;
  for (const std::string& name : pattern.choices) {
    if (name == "none") continue;
    Facts shadow{{"shading.pattern", name}};
    if (holds(share.applies, shadow) != Truth::yes) {
      shadows.push_back(shadow);
      continue;
    }
    const auto taking = std::find_if(share.taken.begin(), share.taken.end(),
                                     [&](const Taking& row) { return holds(row.when, shadow) == Truth::yes; });
    for (const Value& value : taking->bad) {
      shadow["shading.share"] = value;
      shadows.push_back(shadow);
    }
  }
  return shadows;
}

// Highest share of the go line over lites.
double ratio_under(const Case& pane, std::span<const DesignDay> days, const std::vector<DayStrips>& strips,
                   const Reference& reference, ChainCache& cache) {
  const LitesThroughDays through(pane, pane.after, strips, days, cache.store());
  double ratio = 0.0;
  for (std::size_t lite = 0; lite < through.lites(); ++lite) {
    const double go_pa = allowable_stress(pane.strengths[lite], reference).go_pa;
    ratio = std::max(ratio, highest_ratio(through, lite, through.days_of(lite), days.front().steps.size(), go_pa));
  }
  return ratio;
}

}  // namespace

ShadowAnswer shadow_answer(const Assessment& a, const Reference& reference, ChainCache& cache) {
  Case pane = build_case(a.bad_end, Run::bad_end, reference);
  const std::vector<DesignDay>& days = design_year(pane, reference, cache.store());
  ShadowAnswer answer;
  const DayAndStep worst = find_moment(days, a.lites[a.governing_lite].after.when);
  answer.casting = casting(pane.shadow.in_month(days[worst.day].month), pane.width_m, pane.height_m,
                           days[worst.day].steps[worst.step].slope);
  const PaneIrradiance& sun = days[worst.day].steps[worst.step].pane;
  answer.wall_w_m2 = sun.wall_w_m2;
  answer.water_w_m2 = sun.water_w_m2;
  const AbsorptionTable table(pane.after, pane.room.back_reflectance());
  const auto part = pane.shadow.part;
  std::vector<DayStrips> strips;  // the same under any shadow that stands still: only the light differs
  for (const Facts& shadow : lasting_shadows(reference)) {
    const Job shaded{a.bad_end.source, shadow};
    ShadowPlan plan = shadow_plan(shaded);
    if (part && plan.pattern == ShadowPlan::Pattern::diagonal) continue;  // the two cannot lie together
    plan.part = part;
    pane.shadow = plan;
    if (strips.empty()) {
      strips = strips_of_days(pane, pane.after, table, days, cache.store());
      const DayStrips& then = strips[worst.day];
      answer.part_differs_k =
          then.other_in_sun(worst.step, a.governing_lite).back() - then.lit->strip(worst.step, a.governing_lite).back();
    }
    const double ratio = ratio_under(pane, days, strips, reference, cache);
    if (ratio <= answer.worst_ratio) continue;
    answer.worst_ratio = ratio;
    answer.worst_pattern = *word_of(shaded, "shading.pattern");
    answer.worst_share = number_of(shaded, "shading.share").value_or(0.0);
  }
  return answer;
}

}  // namespace sunstrain::internal
