// A few nodes in place of all cells of a strip.
#include <Eigen/Dense>
#include <algorithm>

#include "stress_kernels.hpp"
#include "sunstrain/field.hpp"

namespace sunstrain {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

std::vector<std::size_t> chosen_cells(std::span<const double> depth_m, double bite_m) {
  std::vector<std::size_t> cells{0};
  for (double past_m : {-0.66 * bite_m, -0.33 * bite_m, 0.0, 0.006, 0.018, 0.050}) {
    const auto at = std::lower_bound(depth_m.begin(), depth_m.end(), bite_m + past_m) - depth_m.begin();
    const auto cell = std::min(static_cast<std::size_t>(at), depth_m.size() - 1);
    if (cell > cells.back()) cells.push_back(cell);
  }
  if (cells.back() + 1 < depth_m.size()) cells.push_back(depth_m.size() - 1);
  return cells;
}

// Integrals of the products of two cells' hats (1 at the cell, straight down to 0 at its neighbors).
MatrixXd hat_products(std::span<const double> depth_m) {
  const auto n = static_cast<Index>(depth_m.size());
  MatrixXd products = MatrixXd::Zero(n, n);
  for (Index i = 0; i + 1 < n; ++i) {
    const double h = depth_m[static_cast<std::size_t>(i) + 1] - depth_m[static_cast<std::size_t>(i)];
    products(i, i) += h / 3.0;
    products(i + 1, i + 1) += h / 3.0;
    products(i, i + 1) += h / 6.0;
    products(i + 1, i) += h / 6.0;
  }
  return products;
}

// The nodes' hats at the cells.
MatrixXd hats_at_cells(std::span<const double> depth_m, const std::vector<std::size_t>& nodes) {
  MatrixXd hats = MatrixXd::Zero(static_cast<Index>(depth_m.size()), static_cast<Index>(nodes.size()));
  for (std::size_t k = 0; k + 1 < nodes.size(); ++k) {
    const double from = depth_m[nodes[k]], to = depth_m[nodes[k + 1]];
    for (std::size_t cell = nodes[k]; cell <= nodes[k + 1]; ++cell) {
      const double share = (depth_m[cell] - from) / (to - from);
      hats(static_cast<Index>(cell), static_cast<Index>(k)) = 1.0 - share;
      hats(static_cast<Index>(cell), static_cast<Index>(k) + 1) = share;
    }
  }
  return hats;
}

}  // namespace

// min over c of the integral of (T - sum c_k hat_k)^2 with the first and the last c as the strip has them.
StripNodes few_nodes(std::span<const double> depth_m, double bite_m) {
  const std::vector<std::size_t> nodes = chosen_cells(depth_m, bite_m);
  const MatrixXd hats = hats_at_cells(depth_m, nodes), products = hat_products(depth_m);
  const auto cells = static_cast<Index>(depth_m.size()), count = static_cast<Index>(nodes.size());
  MatrixXd weights = MatrixXd::Zero(count, cells);
  weights(0, 0) = 1.0;
  weights(count - 1, cells - 1) = 1.0;
  if (count > 2) {
    const MatrixXd inner = hats.middleCols(1, count - 2);
    MatrixXd rest = MatrixXd::Identity(cells, cells);
    rest.col(0) -= hats.col(0);
    rest.col(cells - 1) -= hats.col(count - 1);
    weights.middleRows(1, count - 2) =
        (inner.transpose() * products * inner).ldlt().solve(inner.transpose() * products * rest);
  }
  StripNodes result;
  for (std::size_t node : nodes) result.depth_m.push_back(depth_m[node]);
  for (Index cell = 0; cell < cells; ++cell)
    for (Index k = 0; k < count; ++k) result.weights.push_back(weights(k, cell));
  return result;
}

std::vector<double> StripNodes::values(std::span<const double> strip_k) const {
  std::vector<double> nodes(depth_m.size(), 0.0);
  stress_detail::multiply_add(weights.data(), strip_k.data(), nodes.size(), strip_k.size(), nodes.data());
  return nodes;
}

}  // namespace sunstrain
