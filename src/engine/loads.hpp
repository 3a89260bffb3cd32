// Internal: the sun and the surroundings of one step as the heat balance takes them.
#pragma once

#include <span>
#include <vector>

#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// A glazing's absorption against the angle of incidence, worked once: every half degree, and diffuse.
class AbsorptionTable {
 public:
  AbsorptionTable(const GlazingState& state, double back_reflectance);
  // The two angles around, and how far from the first to the second.
  struct Between {
    const Absorption &below, &above;
    double share;
  };
  Between beam(double cos_incidence) const;
  const Absorption& diffuse() const { return diffuse_; }
  const Absorption& normal() const { return beam_.front(); }
  std::size_t before() const { return before_; }  // so many lites of these are a sash's in front
  // By how much the filmed lite absorbs more than its bare rim does, of diffuse light and of the beam; 0 without a rim.
  double rim_less_of_diffuse() const { return rim_less_of_diffuse_; }
  double rim_less_of_beam(double cos_incidence) const;

 private:
  struct Place {
    std::size_t below;
    double share;  // of the way from there to the next
  };
  Place place(double cos_incidence) const;
  std::vector<Absorption> beam_;
  Absorption diffuse_;
  std::size_t before_;
  std::vector<double> rim_less_;  // at the beam's angles
  double rim_less_of_diffuse_ = 0.0;
};

// A pane with what a part of it has behind and before it.
Case pane_of_part(const Case& pane, const OtherPart& part);

// beam_on_glass: 1 in the sun, 0 in the shadow.
StepLoads step_loads(const Case& pane, const AbsorptionTable& table, const DayStep& step, DayKind day,
                     double beam_on_glass);

}  // namespace sunstrain::internal
