// The whole chain twice, at the bad end and in the middle, then the rules, the verdict and what the unknowns did.
#include "sunstrain/assess.hpp"

#include <algorithm>
#include <cmath>

#include "helps.hpp"
#include "lasting_shadow.hpp"
#include "plane_check.hpp"
#include "rule_facts.hpp"
#include "two_runs.hpp"
#include "unknowns.hpp"

namespace sunstrain {
namespace {

using internal::counterpart, internal::raised_by;

GlazingFigures glazing_figures(const GlazingState& state, const Gas& air, const Reference& reference) {
  const Absorption normal = absorb_beam(state.optics, 0.0);
  const double sun = constant(reference, "summer_shgc_sun_w_m2");
  const double outdoor = constant(reference, "summer_shgc_outdoor_k"), room = constant(reference, "summer_shgc_room_k");
  StepLoads loads{outdoor, constant(reference, "summer_shgc_outside_convection_w_m2k"),
                  outdoor, 0.0,
                  room,    room,
                  0.0,     PerLite<FaceSources>(state.optics.size()),
                  0.0,     0.0};
  const auto inward = [&] {
    const CenterBalance balance = steady_center(state.thermal, loads, {}, air);
    return heat_into_room_w_m2(balance, balance.face_k.back()[1]);
  };
  const double dark = inward();
  for (std::size_t j = 0; j < state.optics.size(); ++j) {
    loads.absorbed[j] = {sun * normal.lites[j].outer_face, sun * normal.lites[j].bulk,
                         sun * normal.lites[j].inner_face};
  }
  return {normal.transmitted, normal.reflected, u_value_en673_w_m2k(state.thermal),
          normal.transmitted + (inward() - dark) / sun};
}

struct RunPeaks {
  Case pane;
  YearPeaks before, after;
};

RunPeaks run_both(const Job& complete, Run run, const Reference& reference, ChainCache& cache) {
  RunPeaks result{build_case(complete, run, reference), {}, {}};
  const bool odds = run == Run::bad_end;
  result.before = worst_of_year(result.pane, result.pane.before, reference, cache, odds);
  result.after = worst_of_year(result.pane, result.pane.after, reference, cache, odds);
  return result;
}

// The hour that governs a lite in a run, followed in the plane.
std::optional<PlaneCheck> plane_of(const RunPeaks& run, std::size_t lite, bool filmed, const Reference& reference,
                                   ChainCache& cache) {
  return internal::plane_check(run.pane, filmed ? run.pane.after : run.pane.before, lite,
                               (filmed ? run.after : run.before).lites[lite], reference, cache);
}

SealedFigures sealed_figures(const Case& pane, const GlazingState& state, const YearPeaks& year,
                             const Reference& reference) {
  const double less_m = 2.0 * (pane.edge.spacer_to_m - pane.edge.bite_m);  // the gas begins at the spacer's inner face
  SealedUnit unit{pane.width_m - less_m,
                  pane.height_m - less_m,
                  {},
                  {},
                  pane.elasticity.young_pa,
                  constant(reference, "glass_poisson"),
                  constant(reference, "sealing_k"),
                  standard_pressure_pa(pane.sealed_altitude_m)};
  for (std::size_t sheet = 0; sheet < pane.sheets.size(); ++sheet) {
    if (pane.sheets[sheet].ply > 0 || pane.sheets[sheet].panel) continue;
    const Glazing::Joined lite = state.thermal.joined(sheet);
    double thickest_m = 0.0, cubes_m3 = 0.0;
    for (std::size_t ply = lite.first; ply <= lite.last; ++ply) {
      const double thickness_m = state.thermal.lites[ply].thickness_m;
      thickest_m = std::max(thickest_m, thickness_m);
      cubes_m3 += thickness_m * thickness_m * thickness_m;
    }
    unit.thickness_m.push_back(lite.first == lite.last ? thickest_m : std::cbrt(cubes_m3));
    unit.thickest_ply_m.push_back(thickest_m);
  }
  for (const ThermalCavity& cavity : state.thermal.cavities)
    if (!cavity.solid() && !cavity.apart) unit.cavity_m.push_back(cavity.width_m);
  return {year.hottest_gas_k, sealed_state(unit, year.hottest_gas_k, standard_pressure_pa(pane.place.altitude_m))};
}

// A lite of the middle run beside its refer line.
struct LikelyLite {
  double before_pa, after_pa, refer_pa;
};

// As the year gave them; the hour of the one nearest its line followed in the plane. Where that gives more with film,
// the same lite without film is followed as well.
std::vector<LikelyLite> likely_lites(const RunPeaks& middle, std::optional<PlaneCheck>& plane,
                                     const Reference& reference, ChainCache& cache) {
  std::vector<LikelyLite> lites;
  for (std::size_t i = 0; i < middle.pane.strengths.size(); ++i) {
    lites.push_back({middle.before.lites[i].stress_pa, middle.after.lites[i].stress_pa,
                     allowable_stress(middle.pane.strengths[i], reference).refer_pa});
  }
  const auto nearest = std::max_element(lites.begin(), lites.end(), [](const LikelyLite& x, const LikelyLite& y) {
    return x.after_pa / x.refer_pa < y.after_pa / y.refer_pa;
  });
  const auto lite = static_cast<std::size_t>(nearest - lites.begin());
  const auto check = [&](bool filmed) { return plane_of(middle, lite, filmed, reference, cache); };
  plane = check(true);
  if (raised_by(plane) > 1.0) {
    nearest->after_pa *= plane->raised_by;
    nearest->before_pa *= raised_by(check(false));
  }
  return lites;
}

LiteFigures lite_figures(const RunPeaks& bad, const RunPeaks& middle, const std::vector<LikelyLite>& likely_lites,
                         std::size_t lite, bool filmed, const Reference& reference) {
  const GlazingState& state = filmed ? bad.pane.after : bad.pane.before;
  const LitePeak& low = (filmed ? bad.after : bad.before).lites[lite];
  const std::size_t other = counterpart(lite, bad.pane.strengths.size(), middle.pane.strengths.size());
  const LitePeak& likely = (filmed ? middle.after : middle.before).lites[other];
  LiteFigures figures;
  figures.absorbed_fraction = absorb_beam(state.optics, 0.0, bad.pane.room.back_reflectance()).lites[lite].total();
  figures.absorbed_w_m2 = low.absorbed_w_m2;
  figures.peak_stress_pa = low.stress_pa;
  figures.peak_stress_middle_pa = filmed ? likely_lites[other].after_pa : likely_lites[other].before_pa;
  figures.allowable_pa = allowable_stress(bad.pane.strengths[lite], reference).go_pa;
  figures.refer_pa = likely_lites[other].refer_pa;
  figures.stress_ratio = low.stress_pa / figures.allowable_pa;
  figures.odds = low.odds;
  figures.center_k = low.center_k;
  figures.edge_k = low.edge_k;
  figures.center_middle_k = likely.center_k;
  figures.edge_middle_k = likely.edge_k;
  figures.when = low.when;
  figures.side = low.side;
  figures.position_m = low.position_m;
  return figures;
}

// The lite nearest its go line with film; the pane's ratio is that lite's.
std::size_t governing_lite(const std::vector<LiteResult>& lites) {
  const auto worst = std::max_element(lites.begin(), lites.end(), [](const LiteResult& a, const LiteResult& b) {
    return a.after.stress_ratio < b.after.stress_ratio;
  });
  return static_cast<std::size_t>(worst - lites.begin());
}

// Of the bad end the hour of the lite nearest its go line is followed, as of the middle run that of the lite nearest
// its refer line (likely_lites).
void follow_bad_end(Assessment& a, const RunPeaks& bad, const Reference& reference, ChainCache& cache) {
  const std::size_t worst = governing_lite(a.lites);
  a.plane = plane_of(bad, worst, true, reference, cache);
  if (raised_by(a.plane) <= 1.0) return;
  const auto raise = [](LiteFigures& figures, double by) {
    figures.peak_stress_pa *= by;
    figures.stress_ratio *= by;
  };
  raise(a.lites[worst].after, a.plane->raised_by);
  raise(a.lites[worst].before, raised_by(plane_of(bad, worst, false, reference, cache)));
}

// More than a pane may bear by the middle run, which it did not bear so already without film.
bool newly_past_refer_line(const std::vector<LikelyLite>& lites) {
  return std::any_of(lites.begin(), lites.end(), [](const LikelyLite& lite) {
    return lite.after_pa > lite.refer_pa && lite.before_pa <= lite.refer_pa;
  });
}

bool adds_little(const LiteResult& lite, const Reference& reference) {
  const double added = lite.after.peak_stress_pa - lite.before.peak_stress_pa;
  return added < constant(reference, "film_adds_little_pa") &&
         added < constant(reference, "film_adds_little_share") * lite.before.peak_stress_pa;
}

// The verdict's lines, from what the two runs gave.
void judge(Assessment& a, const std::vector<LikelyLite>& likely, const Reference& reference) {
  a.governing_lite = governing_lite(a.lites);
  const LiteResult& lite = a.lites[a.governing_lite];
  a.stress_ratio = lite.after.stress_ratio;
  a.stress_ratio_middle = lite.after.peak_stress_middle_pa / lite.after.refer_pa;
  a.past_line_without_film = lite.before.peak_stress_middle_pa > lite.before.refer_pa;
  a.film_adds_little = adds_little(lite, reference);
  a.figures = newly_past_refer_line(likely) ? Verdict::refer : a.stress_ratio <= 1.0 ? Verdict::go : Verdict::caution;
}

}  // namespace

Verdict verdict_of(Severity severity) {
  return severity == Severity::refer ? Verdict::refer : severity == Severity::ask ? Verdict::caution : Verdict::go;
}

namespace internal {

Assessment assess_as_taken(const Job& job, const Choice& choice, const Reference& reference, ChainCache& cache) {
  Assessment a;
  a.job = job;
  a.choice = choice;
  a.bad_end = resolve(job, Run::bad_end, choice, reference).job;
  a.middle = middle_job(job, reference);
  const RunPeaks bad = run_both(a.bad_end, Run::bad_end, reference, cache);
  const RunPeaks middle = run_both(a.middle, Run::middle, reference, cache);
  a.sheets = bad.pane.sheets;
  const std::vector<LikelyLite> likely = likely_lites(middle, a.plane_middle, reference, cache);
  for (std::size_t lite = 0; lite < bad.pane.strengths.size(); ++lite) {
    const auto figures = [&](bool filmed) { return lite_figures(bad, middle, likely, lite, filmed, reference); };
    a.lites.push_back({figures(false), figures(true)});
  }
  if (bad.pane.edge.sealed) {
    a.sealed = SealedAnswer{sealed_figures(bad.pane, bad.pane.before, bad.before, reference),
                            sealed_figures(bad.pane, bad.pane.after, bad.after, reference)};
  }
  a.before = glazing_figures(middle.pane.before, middle.pane.air, reference);
  a.after = glazing_figures(middle.pane.after, middle.pane.air, reference);
  follow_bad_end(a, bad, reference, cache);
  judge(a, likely, reference);
  a.facts = rule_facts(a, bad.pane, middle.pane, reference);
  const std::vector<FiredRule> fired = fired_rules(reference.rules, a.facts, said_of(job, reference));
  for (const FiredRule& one : fired) a.rules.push_back(*one.rule);
  a.open_rules = open_rules(a, reference);
  a.guidance = verdict_of(worst_severity(fired));
  for (const OpenRule& open : a.open_rules) a.guidance = std::max(a.guidance, verdict_of(open.rule.severity));
  a.verdict = std::max(a.figures, a.guidance);
  return a;
}

}  // namespace internal

static WeatherAnswer through_year(const Assessment& a, WeatherYear year, const Reference& reference,
                                  ChainCache& cache) {
  const Case pane = build_case(a.bad_end, Run::bad_end, reference);
  if (!year.latitude_rad) {
    year.latitude_rad = pane.place.latitude_rad;
    year.longitude_rad = pane.place.longitude_rad;
    year.utc_offset_h = pane.place.utc_offset_h;
    year.altitude_m = pane.place.altitude_m;
  }
  return {year.source, year.remarks, static_cast<double>(year.records.size()) * year.interval_s / 3600.0,
          run_weather_year(pane, pane.before, year, reference, cache),
          run_weather_year(pane, pane.after, year, reference, cache)};
}

Assessment assess_briefly(const Job& job, const Reference& reference, ChainCache& cache) {
  const Choice choice = internal::worst_choice(job, reference, cache);
  Assessment assessment = internal::assess_as_taken(job, choice, reference, cache);
  internal::weigh_unknowns(assessment, reference, cache);
  return assessment;
}

Assessment assess(const Job& job, const Reference& reference, ChainCache& cache, const WeatherYear* weather) {
  Assessment assessment = assess_briefly(job, reference, cache);
  internal::try_readings(assessment, reference, cache);
  if (assessment.figures != Verdict::go)
    assessment.helps = internal::helps_for(assessment, reference, [&](const Job& other) {
      return internal::ratio_if_possible(other, assessment.choice, reference, cache);
    });
  assessment.shadow = internal::shadow_answer(assessment, reference, cache);
  if (weather != nullptr) assessment.weather = through_year(assessment, *weather, reference, cache);
  return assessment;
}

Assessment assess(const Job& job, const Reference& reference, const WeatherYear* weather) {
  ChainCache cache;
  return assess(job, reference, cache, weather);
}

}  // namespace sunstrain
