// Internal: the hour that governs a lite by the full transient in the plane, beside the quick route.
#pragma once

#include "plane_hours.hpp"
#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// A step of a design day with the day's strips, and the quick route's peak of a lite in it, without and of bending.
struct QuickHour {
  const Case* pane;
  const GlazingState* state;
  const DesignDay* day;
  DayStrips strips;
  std::size_t step, lite;
  double peak_pa, bending_pa;
};
PlaneCheck follow_in_plane(const QuickHour& hour, const Reference& reference);

// The same for a peak of the year where a border of a shadow lies on the pane about its hour; else nothing: away from
// corners the plane then is the strip.
std::optional<PlaneCheck> plane_check(const Case& pane, const GlazingState& state, std::size_t lite,
                                      const LitePeak& peak, const Reference& reference, ChainCache& cache);

// The sun comes out within a minute after a day in cloud, at one of some hours before the one that governs: the highest
// stress in the hour and a half that follows.
struct SuddenSun {
  double out_hour = 0.0, peak_hour = 0.0;  // local
  double peak_pa = 0.0;
};
SuddenSun sudden_sun(const QuickHour& hour, const Reference& reference);

}  // namespace sunstrain::internal
