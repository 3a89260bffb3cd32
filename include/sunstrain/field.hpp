// The temperature over the plane of a lite, as the strip along every edge and the shadow as it lies, and
// the edge stress that goes with it. theory.md "Field".
#pragma once

#include <map>
#include <memory>
#include <span>
#include <vector>

#include "sunstrain/case.hpp"

namespace sunstrain {

// The lit part of the pane in glass coordinates (from the cut edge; bite included): a rectangle whose
// borders are softened over smoothing_m, or everything below the diagonal from top left to bottom right.
struct LitArea {
  bool everything = true, nothing = false, diagonal = false;
  double left_m = 0, right_m = 0, bottom_m = 0, top_m = 0;
  bool operator==(const LitArea&) const = default;
};

// What the plan lets through at one moment. A lit border that meets the sightline is carried on to the cut edge.
LitArea lit_area(const ShadowPlan& plan, double width_m, double height_m, double bite_m, const ShadowSlope& slope);

// sqrt(k t / h): over which length the glass smears a shadow's border.
double smearing_length_m(double conductivity_w_mk, double thickness_m, double exchange_w_m2k);

// Share of full sun-heating across a border at `from_m` (dark below, lit above): the temperature step that a
// shadow leaves in a conducting sheet, 1 - exp(-d/l)/2 at distance d inside the light and exp(-d/l)/2 in the shade.
double soft_step(double position_m, double from_m, double smoothing_m);

// The lit share along x or y of a lit rectangle, with its borders softened; a border at 0 or at `end_m` is no border.
double lit_share(double position_m, double from_m, double to_m, double end_m, double smoothing_m);

// Maps strip temperatures of one lite to its edge stress. Built once for a pane and a shadow that stands still:
// the field is p(0) + sum over the strip's cells of (p(k+1) - p(k)) R_k(x) R_k(y), R_k a ramp between two cell
// middles measured from either side, so the stress is a fixed matrix times the strip's temperatures.
// With a shadow there are two strips: T = T_shadow + (T_sun - T_shadow) m(x, y).
class StressMap {
 public:
  StressMap(const EdgeStressSolver& solver, double glass_width_m, double glass_height_m, std::span<const double> depth_m,
            const LitArea& lit, double smoothing_m);

  // Edge stress of many steps at once, Pa, tension positive: [step * points + point], points as EdgeStressSolver
  // reports them (bottom, right, top, left in turn). The strips: [step * cells + cell], K; shaded_k may be empty
  // when everything is lit.
  void stress(std::span<const double> shaded_k, std::span<const double> lit_k, std::size_t steps,
              std::vector<double>& stress_pa) const;

 private:
  struct Impl;
  std::shared_ptr<const Impl> impl_;
};

// What a shadow that moves adds to the stress of the shaded strip in one step: that of (T_sun - T_shadow) m(x, y),
// with the difference written as q(0) + (q(middle) - q(0)) g(x) g(y). Adds to stress_pa (4 x points per side).
void add_moving_shadow(const EdgeStressSolver& solver, double glass_width_m, double glass_height_m,
                       std::span<const double> depth_m, std::span<const double> shaded_k, std::span<const double> lit_k,
                       const LitArea& lit, double smoothing_m, std::span<double> stress_pa);

// Stress of a bottom edge 1 K colder than the rest, fading upwards over fading_m from the sightline.
std::vector<double> colder_bottom_stress_pa_per_k(const EdgeStressSolver& solver, double bite_m, double fading_m);

// Where the fields of a pane change fast, for the solver's modes and quadrature.
FieldFeatures field_features(double glass_width_m, double glass_height_m, double bite_m, const ShadowPlan& plan,
                             double smoothing_m);

}  // namespace sunstrain
