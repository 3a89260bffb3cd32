// The hour that governs by the full transient in the plane, and the sun that comes out of a cloud.
#include "plane_check.hpp"
#include "trace_hour.hpp"

namespace sunstrain::internal {

std::vector<Figure> plane_figures(const GoverningHour& hour, const Assessment& a, const Reference& reference) {
  if (hour.pane.after.other) return {};  // not followed: see plane_check
  constexpr double pa_per_mpa = 1e6, percent = 100.0, minutes_in_hour = 60.0;
  const QuickHour quick{&hour.pane,
                        &hour.pane.after,
                        hour.day,
                        hour.strips,
                        hour.step,
                        hour.lite,
                        hour.peak.stress_pa - hour.bending_pa,
                        hour.bending_pa};
  const PlaneCheck check = follow_in_plane(quick, reference);
  std::vector<Figure> figures{
      {"quick route: highest tension in that hour", check.quick_pa / pa_per_mpa, "MPa",
       "strips in sun and in shade, joined along a softened border; the stage before"},
      {"followed in full: in that hour", check.in_hour_pa / pa_per_mpa, "MPa",
       "all cells of the glass from up to three hours before, the shadow where it lies every two minutes (theory.md, "
       "Plane)"},
      {"error of the quick route", percent * (check.quick_pa / check.in_hour_pa - 1.0), "%",
       "quick less full, over full: under 0 it errs low"},
      {"followed in full: highest in half an hour around", check.highest_pa / pa_per_mpa, "MPa",
       "the transient may peak a little earlier or later"},
      {"which is at", check.highest_hour, "h", "standard time"},
      {"energy not accounted for, largest share", check.residual_share, "1", "over all its steps; under 1e-6"},
      {"stress counts times", a.plane ? a.plane->raised_by : 1.0, "1",
       a.plane ? "the higher route counts: over 1 only where the full one passes the quick one by more than the small "
                 "share of constants.toml; a lower one lowers nothing"
               : "no border of a shadow on the pane about that hour: the quick route counts as it is"}};
  const SuddenSun sudden = sudden_sun(quick, reference);
  if (sudden.peak_pa <= 0.0) return figures;
  figures.push_back(
      {"sun out of cloud within a minute: at", sudden.out_hour, "h",
       "no beam that day up to then; the worst of four tries, half an hour to two hours before the hour that "
       "governs; an event for itself, in no verdict"});
  figures.push_back({"sun out of cloud: highest tension after it", sudden.peak_pa / pa_per_mpa, "MPa",
                     "followed in full for an hour and a half"});
  figures.push_back(
      {"sun out of cloud: so long after", minutes_in_hour * (sudden.peak_hour - sudden.out_hour), "min", "the same"});
  figures.push_back({"sun out of cloud: of the clear day's highest", sudden.peak_pa / check.quick_pa, "1",
                     "over 1 where the frame lags behind the glass by more than the cloud cost"});
  return figures;
}

}  // namespace sunstrain::internal
