// The temperature over the plane of a lite, as the strip along every edge and the shadow as it lies, and
// the edge stress that goes with it. theory.md "Field".
#pragma once

#include <map>
#include <memory>
#include <span>
#include <string>
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

// The light as a sum: over a pane in full sun or in full shade lies, times its share, what each area's sun adds.
struct LightPart {
  LitArea lit;
  double share;  // under 0: a screen takes that much of the beam away
  // What is added there: what the sun adds to the pane; by how much more or less it does over the plan's part; or what
  // that part differs by under the light that lies under everything.
  enum class Adds { sun, sun_on_part, part };
  Adds adds = Adds::sun;
};
struct Light {
  bool sun_under = true;         // false: shade
  std::vector<LightPart> parts;  // none: sun or shade all over
};
Light light_of(const ShadowPlan& plan, double width_m, double height_m, double bite_m, const ShadowSlope& slope);

// Which of the plan's parts keep the beam off some of the glass at that moment: "lasting shadow", "overhang", "reveal",
// "left fin", "right fin", "wall opposite", "insect screen", "glazing bars"; and the name of a part that is otherwise
// than the rest.
std::vector<std::string> casting(const ShadowPlan& plan, double width_m, double height_m, const ShadowSlope& slope);

// sqrt(k t / h): over which length the glass smears a shadow's border.
double smearing_length_m(double conductivity_w_mk, double thickness_m, double exchange_w_m2k);

// Share of full sun-heating across a border at `from_m` (dark below, lit above): the temperature step that a
// shadow leaves in a conducting sheet, 1 - exp(-d/l)/2 at distance d inside the light and exp(-d/l)/2 in the shade.
double soft_step(double position_m, double from_m, double smoothing_m);

// The ramps of a strip's nodes at the solver's sample points: what every map on one pane and strip has in common.
struct StripRamps {
  StripRamps(const EdgeStressSolver& solver, double glass_width_m, double glass_height_m,
             std::span<const double> depth_m);
  const EdgeStressSolver* solver;
  double width_m, height_m;
  std::vector<double> depth_m;     // of the nodes, ascending, the first nearest the cut edge
  std::vector<double> x_up, y_up;  // [node * samples + sample]: 1 for the first node, then the ramp up to each
  std::vector<double> x_profiles;  // x_up made ready for products, for a light that covers the whole width
};

// Maps the temperatures of a strip to the stress along the edge. Built once for a pane and a lit area: the field is
// m(x, y) [p(0) + sum over the strip's nodes of (p(k+1) - p(k)) R_k(x) R_k(y)], R_k a ramp between the depths of two
// nodes measured from either side, m the lit share (1 when everything is lit). So the stress is a fixed matrix times
// the strip's temperatures, and a pane with a shadow is two strips: T_shade with m = 1, plus (T_sun - T_shade) with m.
class StripStress {
 public:
  StripStress(const StripRamps& ramps, const LitArea& lit, double smoothing_m);

  // Adds the stress of one strip, Pa, tension positive, to 4 x points per side values as EdgeStressSolver reports them
  // (bottom, right, top, left in turn). strip_k: one temperature (or difference of two) a node.
  void add(std::span<const double> strip_k, std::span<double> stress_pa) const;

  // A stress that no point of the edge can pass with this strip, Pa: the sum over the strip's steps of what each gives
  // at most anywhere. What lies below a peak already found need not be solved.
  double highest_possible_pa(std::span<const double> strip_k) const;

 private:
  struct Impl;
  std::shared_ptr<const Impl> impl_;
};

// A few nodes that stand for a strip's cells, and each node's temperature as a weighted sum of the cells'.
struct StripNodes {
  std::vector<double> depth_m;
  std::vector<double> weights;  // [cell * nodes + node]
  std::vector<double> values(std::span<const double> strip_k) const;
};

// Enough for the difference between sun and shade: the strip's own cells at the cut edge, at a third and two thirds of
// the way to the sightline, at it, 6, 18 and 50 mm past it, and the middle. First and last keep their temperatures; the
// others are the least-squares fit of straight lines to the strip, so that no heat is lost between nodes.
StripNodes few_nodes(std::span<const double> depth_m, double bite_m);

// The stress of a strip's ramps below a sharp border across the whole width, wherever it lies: it changes only where
// the border passes one of the solver's samples. Made once a pane; `ramps` is used as long as it is.
class SharpBorders {
 public:
  explicit SharpBorders(const StripRamps& ramps);
  struct Table;
  std::shared_ptr<const Table> table;
};

// The stress of a strip under lights whose borders cross the whole width and are softened over smoothing_m (soft_step),
// exact and without a map, wherever the borders lie: a soft border is a mixture of sharp ones. theory.md "Field".
// `node_k`: what the sun adds at the ramps' nodes.
class SoftBorders {
 public:
  SoftBorders(const SharpBorders& sharp, double smoothing_m);

  // Whether the light's borders cross the whole width. The others below throw std::invalid_argument if not.
  bool covers(const LitArea& lit) const;
  // A stress that no point of the edge can pass, Pa: the sum over the strip's steps of what each gives at most anywhere
  // while the border is between the two samples where it is.
  double highest_possible_pa(std::span<const double> node_k, const LitArea& lit) const;
  // Adds the stress, Pa, as StripStress::add does.
  void add(std::span<const double> node_k, const LitArea& lit, std::span<double> stress_pa) const;

 private:
  struct Impl;
  std::shared_ptr<const Impl> impl_;
};

// Of how much a colder bottom edge is colder there: 1 up to the sightline, then fading upwards over fading_m.
double colder_bottom_share(double y_m, double bite_m, double fading_m);
// Stress of a bottom edge 1 K colder than the rest, so fading.
std::vector<double> colder_bottom_stress_pa_per_k(const EdgeStressSolver& solver, double bite_m, double fading_m);

// Where the fields of a pane change fast, for the solver's modes and quadrature.
FieldFeatures field_features(double glass_width_m, double glass_height_m, double bite_m, const ShadowPlan& plan,
                             double smoothing_m);

}  // namespace sunstrain
