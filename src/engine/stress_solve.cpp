// Solving sums of products, one field or many: integrals against the modes, four small products, unfolding.
#include <algorithm>
#include <stdexcept>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

using namespace stress_detail;

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

bool vanishes(const double* profile, const ProfileLayout::Part& part, std::size_t trig, std::size_t half_edge) {
  const auto zeros = [&](std::size_t from, std::size_t count) {
    return std::all_of(profile + from, profile + from + count, [](double value) { return value == 0.0; });
  };
  return zeros(part.bilinear, 1) && zeros(part.end, 1) && zeros(part.depth, 1) && zeros(part.edge, half_edge) &&
         zeros(part.trig, trig);
}

}  // namespace

bool EdgeStressSolver::Shape::nothing_in(const Block& block, std::span<const Product> products) const {
  if (block.to_edge.empty()) return true;
  const ProfileLayout::Part& lx = x.layout.part[up(block.parity_x)];
  const ProfileLayout::Part& ly = y.layout.part[up(block.parity_y)];
  return std::all_of(products.begin(), products.end(), [&](const Product& p) {
    return vanishes(p.x.data(), lx, block.trig_x, half()) || vanishes(p.y.data(), ly, block.trig_y, half());
  });
}

void EdgeStressSolver::Shape::integrals(const Block& block, std::span<const Product> products, double* into) const {
  const ProfileLayout::Part& lx = x.layout.part[up(block.parity_x)];
  const ProfileLayout::Part& ly = y.layout.part[up(block.parity_y)];
  std::fill_n(into, block.columns(), 0.0);
  for (const Product& p : products) {
    const double *px = p.x.data(), *py = p.y.data(), amplitude = p.amplitude_k;
    into[0] += amplitude * px[lx.bilinear] * py[ly.bilinear];
    add_triple(amplitude, px + lx.trig, py + ly.hyperbolic[up(block.parity_x)], block.trig_x, into + 1);
    add_triple(amplitude, py + ly.trig, px + lx.hyperbolic[up(block.parity_y)], block.trig_y, into + 1 + block.trig_x);
  }
}

// Beyond the last mode H is twice what the temperature just inside the edge has there (theory.md).
void EdgeStressSolver::Shape::add_traces(const Block& block, std::span<const Product> products, double* out) const {
  const ProfileLayout::Part& lx = x.layout.part[up(block.parity_x)];
  const ProfileLayout::Part& ly = y.layout.part[up(block.parity_y)];
  const std::size_t n = half();
  for (const Product& p : products) {
    const double *px = p.x.data(), *py = p.y.data(), twice = 2.0 * p.amplitude_k;
    add_two(twice * py[ly.depth], px + lx.tail, -p.amplitude_k * py[ly.end], px + lx.edge, n, out);
    add_two(twice * px[lx.depth], py + ly.tail, -p.amplitude_k * px[lx.end], py + ly.edge, n, out + n);
  }
}

void EdgeStressSolver::Shape::unfold(const double* half_edges, std::size_t stride, double* stress_pa) const {
  const std::size_t n = half();
  double *bottom = stress_pa, *right = bottom + 2 * n, *top = right + 2 * n, *left = top + 2 * n;
  const double *ee = half_edges, *oe = ee + stride, *eo = oe + stride, *oo = eo + stride;
  unfold_edges(ee, oe, eo, oo, n, stress_per_k, top, bottom);
  unfold_edges(ee + n, eo + n, oe + n, oo + n, n, stress_per_k, right, left);
}

void EdgeStressSolver::solve_into(std::span<const Product> products, std::span<double> stress_pa) const {
  const std::size_t stride = 2 * shape_->half();
  Scratch integrals(shape_->most_columns), edges(4 * stride);
  std::fill_n(edges.data(), 4 * stride, 0.0);
  for (std::size_t b = 0; b < 4; ++b) {
    const Block& block = shape_->blocks[b];
    if (shape_->nothing_in(block, products)) continue;
    double* out = edges.data() + b * stride;
    shape_->integrals(block, products, integrals.data());
    multiply_add(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), out);
    shape_->add_traces(block, products, out);
  }
  shape_->unfold(edges.data(), stride, stress_pa.data());
}

// In groups small enough that integrals and edges stay in the near cache while a block's matrix passes by.
void EdgeStressSolver::solve_batch(std::span<const Product> products, std::span<const std::size_t> starts,
                                   std::span<double> stress_pa) const {
  if (starts.empty()) return;
  constexpr std::size_t group = 16;
  const std::size_t count = starts.size() - 1, stride = 2 * shape_->half(), each = 4 * up(points_per_side());
  if (stress_pa.size() != count * each) throw std::invalid_argument("stress_pa: wrong size for the number of fields");
  const std::size_t at_once = std::min(group, count);
  Scratch integrals(at_once * shape_->most_columns), edges(at_once * 4 * stride);
  const auto field = [&](std::size_t f) { return products.subspan(starts[f], starts[f + 1] - starts[f]); };
  for (std::size_t first = 0; first < count; first += group) {
    const std::size_t many = std::min(group, count - first);
    std::fill_n(edges.data(), many * 4 * stride, 0.0);
    for (std::size_t b = 0; b < 4; ++b) {
      const Block& block = shape_->blocks[b];
      if (shape_->nothing_in(block, products.subspan(starts[first], starts[first + many] - starts[first]))) continue;
      for (std::size_t f = 0; f < many; ++f)
        shape_->integrals(block, field(first + f), integrals.data() + f * block.columns());
      multiply_add_many(block.to_edge.data(), integrals.data(), block.columns(), block.rows(), block.columns(), many,
                        edges.data() + b * stride, 4 * stride);
      for (std::size_t f = 0; f < many; ++f)
        shape_->add_traces(block, field(first + f), edges.data() + (4 * f + b) * stride);
    }
    for (std::size_t f = 0; f < many; ++f)
      shape_->unfold(edges.data() + 4 * f * stride, stride, &stress_pa[(first + f) * each]);
  }
}

EdgeStress EdgeStressSolver::solve(std::span<const Product> products) const {
  std::vector<double> stress_pa(4 * up(points_per_side()));
  solve_into(products, stress_pa);
  return shape_->with_peak(stress_pa);
}

}  // namespace sunstrain
