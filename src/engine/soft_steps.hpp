// Internal: the soft steps of a shadow's border at points in a row, many borders at the same points.
#pragma once

#include <span>
#include <vector>

#include "sunstrain/field.hpp"

namespace sunstrain::internal {

// soft_step() at ascending points: outwards from the border each half step fades from point to point by a factor that
// is worked once.
class SoftSteps {
 public:
  SoftSteps() = default;
  SoftSteps(std::span<const double> ascending_m, double softness_m);
  std::size_t size() const { return at_m_.size(); }
  void fill(double border_m, double* into) const;

 private:
  double softness_m_ = 1.0;
  std::vector<double> at_m_, fade_;
};

// The same at a solver's sample points along one direction: quadrature and edge points, both ends, just inside them.
class SampledSteps {
 public:
  SampledSteps(std::span<const double> samples_m, std::size_t edge_points, double softness_m);
  // The lit share along the direction of a rectangle lit from from_m to to_m, its borders softened; a border at 0 or at
  // end_m, where the direction ends, is no border.
  std::vector<double> light(double from_m, double to_m, double end_m) const;

 private:
  void fill(double border_m, double* into) const;
  SoftSteps nodes_, edge_;
  std::vector<double> rest_m_;
  double softness_m_;
};

}  // namespace sunstrain::internal

namespace sunstrain {

// The light of one softness on a strip's ramps.
struct StripLight {
  StripLight(const StripRamps& ramps, double softness_m);
  const StripRamps* ramps;
  internal::SampledSteps x, y;
};

// The stress of each of the strip's ramps, 1 K high, under a light: [node * points + point], from node `first` on.
void ramp_stress(const StripLight& light, const LitArea& lit, std::size_t first, std::span<double> stress_pa);

// Adds the stress of one strip under a light, as StripStress::add does, without a map: for a light met once.
void add_strip_stress(const StripLight& light, const LitArea& lit, std::span<const double> node_k,
                      std::span<double> stress_pa);

}  // namespace sunstrain
