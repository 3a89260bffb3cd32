// Internal: the sun and the surroundings of one step as the heat balance takes them.
#pragma once

#include <span>
#include <vector>

#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// A glazing's absorption against the angle of incidence, worked once: every degree, and diffuse.
class AbsorptionTable {
 public:
  AbsorptionTable(std::span<const OpticalLite> lites, double back_reflectance);
  // The two angles around, and how far from the first to the second.
  struct Between {
    const Absorption &below, &above;
    double share;
  };
  Between beam(double cos_incidence) const;
  const Absorption& diffuse() const { return diffuse_; }
  const Absorption& normal() const { return beam_.front(); }

 private:
  std::vector<Absorption> beam_;
  Absorption diffuse_;
};

// beam_on_glass: 1 in the sun, 0 in the shadow.
StepLoads step_loads(const Case& pane, const AbsorptionTable& table, const DayStep& step, DayKind day,
                     double beam_on_glass);

}  // namespace sunstrain::internal
