// Internal: a lite of a pane through some hours of a design day, by the full transient in the plane.
#pragma once

#include "sunstrain/plane.hpp"
#include "year_parts.hpp"

namespace sunstrain::internal {

// How finely the plane is followed; the defaults serve every answer, others a study of convergence.
struct PlaneResolution {
  PlaneFineness fineness{};
  int steps_in_ten_minutes = 5;  // odd, so that the middles of the design days' steps are among its moments
};

// From which step of the design day to which it is followed, and from which on the stress is wanted.
struct PlaneSpan {
  std::size_t start, first, last;
};

struct PlanePeak {
  std::size_t step;
  EdgePeak edge;
};
struct PlanePeaks {
  std::vector<PlanePeak> steps;       // one a step, from the first wanted on
  double worst_residual_share = 0.0;  // energy not accounted for, of sun and gross exchange
  const PlanePeak& at(std::size_t step) const { return steps.at(step - steps.front().step); }
  const PlanePeak& highest() const;
};

// `strips` are the day's: their states at the start are what the plane begins with.
PlanePeaks plane_peaks(const Case& pane, const GlazingState& state, const DesignDay& day, const DayStrips& strips,
                       std::size_t lite, const PlaneSpan& span, const Reference& reference,
                       const PlaneResolution& resolution = {});

}  // namespace sunstrain::internal
