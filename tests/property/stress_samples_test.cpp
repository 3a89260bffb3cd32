// What each sample along y is worth adds up to the stress of the whole profile.
#include <random>

#include "support/pane_strips.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

// The whole edge from the half of it that mirrors itself in x: bottom, right, top, left.
std::vector<double> unfolded(const std::vector<double>& folded) {
  const std::size_t half = folded.size() / 4, side = 2 * half;
  std::vector<double> whole(4 * side);
  for (std::size_t i = 0; i < half; ++i) {
    whole[i] = whole[side - 1 - i] = folded[i];
    whole[side + i] = whole[3 * side + i] = folded[half + i];
    whole[2 * side + i] = whole[3 * side - 1 - i] = folded[2 * half + i];
    whole[2 * side - 1 - i] = whole[4 * side - 1 - i] = folded[3 * half + i];
  }
  return whole;
}

}  // namespace

TEST_CASE("Stress of samples: any profile along y is the sum of its samples") {
  const bool mirrored = GENERATE(true, false);
  FieldFeatures features{{{0.3, 0.01}, {0.9, 0.01}}, {{0.7, 0.01, 0.6}}, mirrored};
  const EdgeStressSolver solver(1.2, 1.7, features, elasticity);
  std::vector<double> x = solver.sample_x([](double at) { return std::abs(at - 0.6) < 0.3 ? 5.0 : 1.0; });
  const auto px = solver.transform_x(x);
  std::mt19937 random(20251126);
  std::vector<double> y(solver.y_sample_size());
  for (double& value : y) value = std::uniform_real_distribution<double>(-1.0, 1.0)(random);
  const auto py = solver.transform_y(y);
  const EdgeStressSolver::Product product{1.0, px.data, py.data};
  std::vector<double> whole(4 * static_cast<std::size_t>(solver.points_per_side()));
  solver.solve_into({&product, 1}, whole);

  const std::size_t points = whole.size() / 2, edge = points / 2;
  std::vector<double> of_samples(solver.y_half_samples() * points), folded(points, 0.0);
  solver.stress_of_y_samples(px.data, of_samples);
  std::size_t first = 0, in_half = 0;
  for (std::size_t count : {y.size() - edge - 4, edge, std::size_t{2}, std::size_t{2}}) {
    for (std::size_t i = 0; 2 * i < count; ++i, ++in_half)
      for (std::size_t p = 0; p < points; ++p) {
        folded[p] += y[first + count - 1 - i] * of_samples[in_half * points + p];
        folded[p] += y[first + i] * of_samples[in_half * points + (p + edge) % points];
      }
    first += count;
  }
  CHECK(highest(whole) > 1e5);
  CHECK(largest_difference(whole, unfolded(folded)) < 1e-9 * highest(whole));
}

TEST_CASE("Stress of samples: an x profile that does not mirror itself is refused") {
  const EdgeStressSolver solver = solver_for(plan_of(Pattern::side_band));
  const auto px = solver.transform_x(solver.sample_x([](double at) { return at; }));
  std::vector<double> into(solver.y_half_samples() * 2 * static_cast<std::size_t>(solver.points_per_side()));
  CHECK_THROWS_AS(solver.stress_of_y_samples(px.data, into), std::invalid_argument);
  const auto even = solver.transform_x(solver.sample_x([](double) { return 1.0; }));
  CHECK_THROWS_AS(solver.stress_of_y_samples(even.data, std::span(into).first(10)), std::invalid_argument);
}
