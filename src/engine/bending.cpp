#include "sunstrain/bending.hpp"

#include <cmath>

namespace sunstrain {

double held_straight_pa(double between_faces_k, PaneElasticity elasticity) {
  return 0.5 * elasticity.young_pa * elasticity.expansion_per_k * std::abs(between_faces_k);
}

}  // namespace sunstrain
