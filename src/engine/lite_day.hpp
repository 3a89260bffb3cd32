// Internal: the edge stress of one lite through one day, a step at a time, with a bound that tells which steps can
// matter.
#pragma once

#include <vector>

#include "chain_cache.hpp"
#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// The strips of one day: glass in the sun and, where there is a shadow, glass in the shade.
struct DayStrips {
  LineDay lit, shaded;
};

struct GlassShape {
  double width_m, height_m, bite_m;
};  // of the glass, edge to edge

class LiteDay {
 public:
  LiteDay(const Case& pane, const GlazingState& state, const DesignDay& day, const DayStrips& strips, std::size_t lite,
          ChainCache::Store& store);

  const EdgeStressSolver& solver() const { return *solver_; }
  std::size_t points() const;
  // No point of the edge passes this in that step.
  double highest_possible_pa(std::size_t step) const;
  std::vector<double> stress(std::size_t step) const;

 private:
  std::span<const double> under(std::size_t step) const;
  std::vector<double> sun_adds(std::size_t step) const;

  const EdgeStressSolver* solver_ = nullptr;
  std::size_t cells_;
  std::vector<double> lit_, shaded_;  // [step * cells + cell]
  const StripStress* whole_ = nullptr;
  // With a shadow, per step: the map of what the sun adds, none when no border lies on the glass; and whether all is
  // dark.
  std::vector<const StripStress*> border_;
  std::vector<bool> dark_;
  std::vector<std::size_t> nodes_;
  std::vector<double> colder_pa_;  // what a colder bottom edge adds
  double most_colder_pa_ = 0.0;
};

}  // namespace sunstrain::internal
