// Internal: the edge stress of one lite through one day, a step at a time, with a bound that tells which steps can
// matter.
#pragma once

#include <vector>

#include "chain_cache.hpp"
#include "soft_steps.hpp"
#include "stress_kernels.hpp"
#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// The strips of one day: glass in the sun and, where there is a shadow, glass in the shade; the same over the part of
// the pane that is otherwise.
struct DayStrips {
  const LineDay *lit, *shaded;                                  // shaded null: no shadow
  const LineDay *other_lit = nullptr, *other_shaded = nullptr;  // null: no such part
  // Where nobody followed the shade, all glass has had the same.
  const LineDay& shade_at(std::size_t step) const {
    return *(shaded != nullptr && shaded->tells_of(step) ? shaded : lit);
  }
  std::span<const double> in_shade(std::size_t step, std::size_t lite) const {
    return shade_at(step).strip(step, lite);
  }
  // Of the other part; where there is none, all glass is alike.
  std::span<const double> other_in_sun(std::size_t step, std::size_t lite) const {
    return (other_lit != nullptr ? other_lit : lit)->strip(step, lite);
  }
  std::span<const double> other_in_shade(std::size_t step, std::size_t lite) const {
    return other_lit == nullptr ? in_shade(step, lite) : DayStrips{other_lit, other_shaded}.in_shade(step, lite);
  }
};

// Over which length a lite's glass blurs a shadow's border: sqrt(k t / h), h the exchange of its two faces at midday,
// plies that an interlayer joins as one lite; of the days the sharpest.
double blur_m(const GlazingState& state, std::span<const DayStrips> days, std::size_t steps_a_day, std::size_t lite);

// What all days of a lite share: the solver of the pane's shape and the maps that go with it.
struct PaneMaps {
  std::vector<double> key;  // what sets the solver
  double blur_m;            // over which the lite's glass blurs a shadow's border
  const EdgeStressSolver* solver;
  const StripStress* whole;                 // a strip that nothing shades
  const StripNodes* nodes;                  // null: a still shadow, whose map takes every cell
  std::shared_ptr<const StripLight> light;  // on the nodes' ramps; null like the borders
  const SoftBorders* borders;               // null: no shadow, or one that stands still
  // The same of the pane turned over its diagonal, where borders move sideways: there they cross the whole width.
  const SoftBorders* turned;
};
std::vector<PaneMaps> maps_of_lites(const Case& pane, const GlazingState& state, std::span<const DayStrips> days,
                                    std::size_t steps_a_day, ChainCache::Store& store);

// The light on a pane through a day: one a step, or a single one where nothing moves, or none without any shadow.
using DayLight = std::vector<Light>;
DayLight light_through(const Case& pane, std::span<const DayStep> steps);

class LiteDay {
 public:
  LiteDay(const Case& pane, const DayLight& light, const DayStrips& strips, std::size_t lite, const PaneMaps& maps,
          ChainCache::Store& store);

  // No point of the edge passes this in that step.
  double highest_possible_pa(std::size_t step) const;
  // Along the edge, bending included.
  std::vector<double> stress(std::size_t step) const;
  // Of it, what the edge bears on the lite's colder face because the frame keeps it straight (bending.hpp).
  double bending_pa(std::size_t step) const;

 private:
  std::span<const LightPart> parts_at(std::size_t step) const;
  bool sun_under(std::size_t step) const;
  std::span<const double> under(std::size_t step) const;
  std::span<const double> adds(std::size_t step, const LightPart& part, stress_detail::Scratch& room) const;
  std::vector<double> without_parts(std::size_t step) const;
  // Where the stress of a part of the light is had from: a map, a table of borders, or neither: it is solved.
  struct Source {
    const StripStress* still = nullptr;
    const SoftBorders* borders = nullptr;
    bool turned = false;
  };
  const StripStress* still_of(const LightPart& part) const;
  Source source_of(const LightPart& part) const;

  const PaneMaps* maps_;
  PaneElasticity elasticity_;
  const DayStrips* strips_;
  std::size_t lite_;
  std::span<const Light> light_;                               // as in DayLight
  std::vector<std::pair<LitArea, const StripStress*>> still_;  // the maps of the areas that do not move
  const std::vector<double>* colder_pa_per_k_ = nullptr;       // what a colder bottom edge adds; null: nothing
  double colder_k_ = 0.0, most_colder_pa_ = 0.0;
};

// One lite through each of some days. `light` is used as long as they are.
std::vector<LiteDay> days_of_lite(const Case& pane, std::span<const DayLight> light, std::span<const DayStrips> strips,
                                  std::size_t lite, const PaneMaps& maps, ChainCache::Store& store);

// The light of each of some days.
std::vector<DayLight> light_of_days(const Case& pane, std::span<const DesignDay> days);

}  // namespace sunstrain::internal
