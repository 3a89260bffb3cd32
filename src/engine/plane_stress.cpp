// The edge stress of what the cells of a plane hold.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sunstrain/plane.hpp"

namespace sunstrain {

std::vector<PlaneStress::Place> PlaneStress::places(const std::vector<double>& edges,
                                                    std::span<const double> positions) {
  std::vector<double> middles;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) middles.push_back(0.5 * (edges[i] + edges[i + 1]));
  std::vector<Place> found;
  for (double at : positions) {
    const auto above = static_cast<std::size_t>(std::lower_bound(middles.begin(), middles.end(), at) - middles.begin());
    if (above == 0 || above == middles.size()) {
      const std::size_t end = above == 0 ? 0 : middles.size() - 1;
      found.push_back({end, end, 0.0});
    } else {
      found.push_back({above - 1, above, (at - middles[above - 1]) / (middles[above] - middles[above - 1])});
    }
  }
  return found;
}

PlaneStress::PlaneStress(const EdgeStressSolver& solver, const PlaneGrid& grid)
    : solver_(&solver), columns_(grid.columns()), cells_(grid.cells()) {
  std::vector<double> x_m;
  for (const auto& point : solver.field_points()) {
    x_m.push_back(point.x_m);
    y_m_.push_back(point.y_m);
  }
  x_ = places(grid.x_m, x_m);
  y_ = places(grid.y_m, y_m_);
}

EdgeStress PlaneStress::of(std::span<const double> cell_k, const ColderBottom& bottom) const {
  if (cell_k.size() != cells_) throw std::invalid_argument("cell_k: must hold one value a cell");
  std::vector<double> field_k;
  field_k.reserve(x_.size());
  for (std::size_t p = 0; p < x_.size(); ++p) {
    const Place &x = x_[p], &y = y_[p];
    const auto along_row = [&](std::size_t row) {
      const double* k = &cell_k[row * columns_];
      return k[x.below] + x.share * (k[x.above] - k[x.below]);
    };
    const double below = along_row(y.below);
    field_k.push_back(below + y.share * (along_row(y.above) - below));
    if (bottom.colder_k > 0.0)
      field_k.back() -= bottom.colder_k * colder_bottom_share(y_m_[p], bottom.bite_m, bottom.fading_m);
  }
  return solver_->solve_field(field_k);
}

}  // namespace sunstrain
