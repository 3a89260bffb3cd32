#include "sunstrain/given_day.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <tuple>

#include "chain_cache.hpp"
#include "two_runs.hpp"
#include "year_parts.hpp"

namespace sunstrain {
namespace {

void require_cloud(double cloud) {
  if (!(cloud >= 0.0 && cloud <= 1.0)) throw std::invalid_argument("cloud must be 0 to 1");
}

YearPeaks peaks_on(const Case& pane, const GlazingState& state, const DesignDay& day, const Reference& reference,
                   ChainCache& cache) {
  return worst_of_days(pane, state, {&day, 1}, reference, cache, false);
}

}  // namespace

ClearSky under_cloud(const ClearSky& clear, double sun_elevation_rad, double cloud, const Reference& reference) {
  require_cloud(cloud);
  const double up = std::sin(std::max(0.0, sun_elevation_rad));
  const double clear_global = clear.beam_normal_w_m2 * up + clear.diffuse_horizontal_w_m2;
  if (cloud <= 0.0 || clear_global <= 0.0) return clear;
  const double global = clear_global * (1.0 - constant(reference, "cloud_sun_share") *
                                                  std::pow(cloud, constant(reference, "cloud_sun_power")));
  const double clear_share = clear.diffuse_horizontal_w_m2 / clear_global;
  const double diffuse_share =
      clear_share + (1.0 - clear_share) * std::pow(cloud, constant(reference, "cloud_diffuse_power"));
  return {up > 0.0 ? global * (1.0 - diffuse_share) / up : 0.0, global * diffuse_share};
}

double sky_under_cloud_k(double clear_sky_k, double air_k, double cloud, const Reference& reference) {
  require_cloud(cloud);
  const double raise =
      1.0 + constant(reference, "cloud_sky_share") * std::pow(cloud, constant(reference, "cloud_sky_power"));
  return std::min(std::max(air_k, clear_sky_k), clear_sky_k * std::sqrt(std::sqrt(raise)));
}

std::vector<OnGivenDay> on_given_day(const Assessment& assessment, const GivenDay& day, const Reference& reference,
                                     ChainCache& cache) {
  const auto run = [&](const Job& complete, Run which) {
    const Case pane = build_case(complete, which, reference);
    const DesignDay one = internal::day_of_pane(pane, day, reference);
    return std::tuple(pane, peaks_on(pane, pane.before, one, reference, cache),
                      peaks_on(pane, pane.after, one, reference, cache));
  };
  const auto [bad, bad_before, bad_after] = run(assessment.bad_end, Run::bad_end);
  const auto likely = run(assessment.middle, Run::middle);
  const Case& middle = std::get<0>(likely);
  const YearPeaks& middle_after = std::get<2>(likely);
  std::vector<OnGivenDay> sheets;
  for (std::size_t i = 0; i < bad.strengths.size(); ++i) {
    const std::size_t other = internal::counterpart(i, bad.strengths.size(), middle.strengths.size());
    OnGivenDay sheet;
    const double raise = i == assessment.governing_lite ? assessment.raised_by() : 1.0;
    sheet.stress_pa = raise * bad_after.lites[i].stress_pa;
    sheet.stress_without_film_pa = raise * bad_before.lites[i].stress_pa;
    sheet.stress_ratio = sheet.stress_pa / allowable_stress(bad.strengths[i], reference).go_pa;
    sheet.middle_stress_pa = internal::raised_by(assessment.plane_middle) * middle_after.lites[other].stress_pa;
    sheet.middle_ratio = sheet.middle_stress_pa / allowable_stress(middle.strengths[other], reference).refer_pa;
    sheet.local_hour = bad_after.lites[i].when.local_hour;
    sheets.push_back(sheet);
  }
  return sheets;
}

}  // namespace sunstrain
