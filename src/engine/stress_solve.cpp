// Solving sums of products, one field or many: integrals against the modes, four small products, unfolding.
#include <algorithm>
#include <stdexcept>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

using namespace stress_detail;

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

}  // namespace

void EdgeStressSolver::Shape::integrals(const Block& block, std::span<const Product> products, double* into) const {
  const ProfileLayout::Part& lx = x.layout.part[up(block.parity_x)];
  const ProfileLayout::Part& ly = y.layout.part[up(block.parity_y)];
  std::fill_n(into, block.columns(), 0.0);
  for (const Product& p : products) {
    const double *px = p.x.data(), *py = p.y.data(), amplitude = p.amplitude_k;
    into[0] += amplitude * px[lx.bilinear] * py[ly.bilinear];
    const double *xt = px + lx.trig, *yh = py + ly.hyperbolic[up(block.parity_x)];
    double* on_x = into + 1;
    for (std::size_t m = 0; m < block.trig_x; ++m) on_x[m] += amplitude * xt[m] * yh[m];
    const double *yt = py + ly.trig, *xh = px + lx.hyperbolic[up(block.parity_y)];
    double* on_y = on_x + block.trig_x;
    for (std::size_t n = 0; n < block.trig_y; ++n) on_y[n] += amplitude * yt[n] * xh[n];
  }
}

void EdgeStressSolver::Shape::take_off_edges(const Block& block, std::span<const Product> products,
                                             double* out) const {
  const ProfileLayout::Part& lx = x.layout.part[up(block.parity_x)];
  const ProfileLayout::Part& ly = y.layout.part[up(block.parity_y)];
  const std::size_t n = half();
  for (const Product& p : products) {
    const double *px = p.x.data(), *py = p.y.data();
    const double y_end = p.amplitude_k * py[ly.end], x_end = p.amplitude_k * px[lx.end];
    for (std::size_t i = 0; i < n; ++i) out[i] -= y_end * px[lx.edge + i];
    for (std::size_t i = 0; i < n; ++i) out[n + i] -= x_end * py[ly.edge + i];
  }
}

void EdgeStressSolver::Shape::unfold(const double* half_edges, std::size_t stride, double* stress_pa) const {
  const std::size_t n = half(), last = 2 * n - 1;
  double *bottom = stress_pa, *right = bottom + 2 * n, *top = right + 2 * n, *left = top + 2 * n;
  const double *ee = half_edges, *oe = ee + stride, *eo = oe + stride, *oo = eo + stride;
  for (std::size_t i = 0; i < n; ++i) {
    top[last - i] = stress_per_k * (ee[i] + oe[i] + eo[i] + oo[i]);
    top[i] = stress_per_k * (ee[i] - oe[i] + eo[i] - oo[i]);
    bottom[last - i] = stress_per_k * (ee[i] + oe[i] - eo[i] - oo[i]);
    bottom[i] = stress_per_k * (ee[i] - oe[i] - eo[i] + oo[i]);
  }
  ee += n, oe += n, eo += n, oo += n;
  for (std::size_t i = 0; i < n; ++i) {
    right[last - i] = stress_per_k * (ee[i] + oe[i] + eo[i] + oo[i]);
    right[i] = stress_per_k * (ee[i] + oe[i] - eo[i] - oo[i]);
    left[last - i] = stress_per_k * (ee[i] - oe[i] + eo[i] - oo[i]);
    left[i] = stress_per_k * (ee[i] - oe[i] - eo[i] + oo[i]);
  }
}

void EdgeStressSolver::solve_into(std::span<const Product> products, std::span<double> stress_pa) const {
  const std::size_t stride = 2 * shape_->half();
  Scratch integrals(shape_->most_columns), edges(4 * stride);
  std::fill_n(edges.data(), 4 * stride, 0.0);
  for (std::size_t b = 0; b < 4; ++b) {
    const Block& block = shape_->blocks[b];
    double* out = edges.data() + b * stride;
    shape_->integrals(block, products, integrals.data());
    multiply_add(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), out);
    shape_->take_off_edges(block, products, out);
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
  std::vector<double> integrals(group * shape_->most_columns), edges(group * 4 * stride);
  const auto field = [&](std::size_t f) { return products.subspan(starts[f], starts[f + 1] - starts[f]); };
  for (std::size_t first = 0; first < count; first += group) {
    const std::size_t many = std::min(group, count - first);
    std::ranges::fill(edges, 0.0);
    for (std::size_t b = 0; b < 4; ++b) {
      const Block& block = shape_->blocks[b];
      for (std::size_t f = 0; f < many; ++f)
        shape_->integrals(block, field(first + f), &integrals[f * block.columns()]);
      multiply_add_many(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), many,
                        &edges[b * stride], 4 * stride);
      for (std::size_t f = 0; f < many; ++f)
        shape_->take_off_edges(block, field(first + f), &edges[(4 * f + b) * stride]);
    }
    for (std::size_t f = 0; f < many; ++f)
      shape_->unfold(&edges[4 * f * stride], stride, &stress_pa[(first + f) * each]);
  }
}

EdgeStress EdgeStressSolver::solve(std::span<const Product> products) const {
  std::vector<double> stress_pa(4 * up(points_per_side()));
  solve_into(products, stress_pa);
  return shape_->with_peak(stress_pa);
}

}  // namespace sunstrain
