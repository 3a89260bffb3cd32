#include "lasting_shadow.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "highest.hpp"
#include "sunstrain/job_keys.hpp"
#include "year_parts.hpp"

namespace sunstrain::internal {
namespace {

// Every pattern a job can name with every share that is plausible for it where nobody knows it.
std::vector<Job> with_lasting_shadows(const Job& bad_end, const Reference& reference) {
  const JobKey& pattern = *find_job_key(reference.job_keys, "shading.pattern");
  const JobKey& share = *find_job_key(reference.job_keys, "shading.share");
  std::vector<Job> jobs;
  for (const std::string& name : pattern.choices) {
    if (name == "none") continue;
    Job job = bad_end;
    std::erase_if(job.values, [](const auto& fact) { return fact.first.starts_with("shading."); });
    job.values["shading.pattern"] = name;
    if (holds(share.applies, job.values) != Truth::yes) {
      jobs.push_back(job);
      continue;
    }
    const auto taking = std::find_if(share.taken.begin(), share.taken.end(),
                                     [&](const Taking& row) { return holds(row.when, job.values) == Truth::yes; });
    for (const Value& value : taking->bad) {
      job.values["shading.share"] = value;
      jobs.push_back(job);
    }
  }
  return jobs;
}

// Highest share of the go line over lites. The strips are those of any lasting shadow: only the light differs.
double ratio_under(const Case& pane, std::span<const DesignDay> days, std::span<const DayStrips> strips,
                   const Reference& reference, ChainCache& cache) {
  const std::vector<PaneMaps> maps = maps_of_lites(pane, pane.after, strips, days.front().steps.size(), cache.store());
  double ratio = 0.0;
  for (std::size_t lite = 0; lite < maps.size(); ++lite) {
    std::vector<LiteDay> lite_days;
    for (std::size_t d = 0; d < days.size(); ++d)
      lite_days.emplace_back(pane, pane.after, days[d], strips[d], lite, maps[lite], cache.store());
    const Highest highest = highest_of_days(lite_days, days.front().steps.size(), Steps::that_can_govern);
    const double peak_pa = maps[lite].solver->find_peak(highest.stress_pa).stress_pa;
    ratio = std::max(ratio, peak_pa / allowable_stress(pane.strengths[lite], reference).go_pa);
  }
  return ratio;
}

}  // namespace

ShadowAnswer shadow_answer(const Assessment& a, const Reference& reference, ChainCache& cache) {
  const Case as_is = build_case(a.bad_end, Run::bad_end, reference);
  const std::vector<DesignDay>& days = design_year(as_is, reference, cache.store());
  ShadowAnswer answer;
  const Moment& when = a.lites[a.governing_lite].after.when;
  for (const DesignDay& day : days)
    for (const DayStep& step : day.steps)
      if (day.month == when.month && day.kind == when.day && step.local_hour == when.local_hour)
        answer.casting = casting(as_is.shadow, as_is.width_m, as_is.height_m, shadow_slope(step.sun, as_is.facing_rad));
  std::vector<DayStrips> strips;
  for (const Job& job : with_lasting_shadows(a.bad_end, reference)) {
    const Case pane = build_case(job, Run::bad_end, reference);
    if (strips.empty()) {
      const AbsorptionTable table(pane.after.optics, pane.room.shade.closure * pane.room.shade_reflectance);
      strips = strips_of_days(pane, pane.after, table, days, cache.store());
    }
    const double ratio = ratio_under(pane, days, strips, reference, cache);
    if (ratio <= answer.worst_ratio) continue;
    answer.worst_ratio = ratio;
    answer.worst_pattern = *word_of(job, "shading.pattern");
    answer.worst_share = number_of(job, "shading.share").value_or(0.0);
  }
  return answer;
}

}  // namespace sunstrain::internal
