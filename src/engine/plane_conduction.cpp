// Conduction along one direction of a plane: Thomas algorithm, worked once for a step length, many rows side by side.
#include "plane_step.hpp"

namespace sunstrain::internal {

Conduction::Conduction(std::span<const double> edge_m, double diffusivity_m2_s)
    : to_before_per_s(edge_m.size() - 1, 0.0), to_after_per_s(edge_m.size() - 1, 0.0) {
  const std::size_t n = cells();
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double apart_m = 0.5 * (edge_m[i + 2] - edge_m[i]);
    to_after_per_s[i] = diffusivity_m2_s / (apart_m * (edge_m[i + 1] - edge_m[i]));
    to_before_per_s[i + 1] = diffusivity_m2_s / (apart_m * (edge_m[i + 2] - edge_m[i + 1]));
  }
}

void Conduction::factor(double weight_per_s) {
  const std::size_t n = cells();
  from_before_.assign(n, 0.0);
  from_after_.assign(n, 0.0);
  pivot_.assign(n, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    const double before = to_before_per_s[i] / weight_per_s, after = to_after_per_s[i] / weight_per_s;
    pivot_[i] = 1.0 / (1.0 + before + after - (i > 0 ? before * from_after_[i - 1] : 0.0));
    from_before_[i] = before * pivot_[i];
    from_after_[i] = after * pivot_[i];
  }
  factored_per_s_ = weight_per_s;
}

namespace {

SUNSTRAIN_WIDE_CLONES
void eliminate_and_substitute(double* u, std::size_t cells, std::size_t many, const double* pivot,
                              const double* from_before, const double* from_after) {
  for (std::size_t s = 0; s < many; ++s) u[s] *= pivot[0];
  for (std::size_t i = 1; i < cells; ++i) {
    double* const here = u + i * many;
    const double* const before = here - many;
    for (std::size_t s = 0; s < many; ++s) here[s] = pivot[i] * here[s] + from_before[i] * before[s];
  }
  for (std::size_t i = cells - 1; i-- > 0;) {
    double* const here = u + i * many;
    const double* const after = here + many;
    for (std::size_t s = 0; s < many; ++s) here[s] += from_after[i] * after[s];
  }
}

}  // namespace

void Conduction::solve(double* u, std::size_t many, double weight_per_s) {
  if (weight_per_s != factored_per_s_) factor(weight_per_s);
  eliminate_and_substitute(u, cells(), many, pivot_.data(), from_before_.data(), from_after_.data());
}

}  // namespace sunstrain::internal
