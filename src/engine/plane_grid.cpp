// Cells over the plane of a pane, and the light on them.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "plane_sheet.hpp"

namespace sunstrain {
namespace {

// The strip's cells from either end as far as they go, the middle in equal cells.
std::vector<double> from_both_ends(std::span<const double> strip_m, double length_m, double largest_m) {
  const double middle_m = 0.5 * length_m;
  std::vector<double> edges;
  for (double edge_m : strip_m) {
    if (edge_m >= middle_m - 0.5 * (edges.empty() ? 0.0 : edge_m - edges.back())) break;
    edges.push_back(edge_m);
  }
  const std::size_t side = edges.size();
  const double rest_m = middle_m - edges.back();  // to the middle, which is always a border of cells
  const double last_m = side > 1 ? edges[side - 1] - edges[side - 2] : rest_m;
  const int half = std::max(1, static_cast<int>(std::ceil(rest_m / std::max(last_m, largest_m))));
  for (int i = 1; i < 2 * half; ++i) edges.push_back(length_m - middle_m + (i - half) * rest_m / half);
  for (std::size_t i = side; i-- > 0;) edges.push_back(length_m - edges[i]);
  return edges;
}

// Halves every cell that is too long for its distance from a border of the light, but for `kept` cells at either end.
void refine(std::vector<double>& edges, std::span<const double> borders_m, std::size_t kept,
            const PlaneFineness& fineness) {
  for (std::size_t i = kept; i + 1 + kept < edges.size();) {
    const double from = edges[i], to = edges[i + 1];
    double allowed_m = to - from;
    for (double border_m : borders_m) {
      const double distance_m = std::max({0.0, from - border_m, border_m - to});
      allowed_m = std::min(allowed_m, std::max(fineness.border_m, fineness.growth * distance_m));
    }
    if (to - from > allowed_m)
      edges.insert(edges.begin() + static_cast<std::ptrdiff_t>(i) + 1, 0.5 * (from + to));
    else
      ++i;
  }
}

std::vector<double> cut_cells(const std::vector<double>& edges, int cut) {
  std::vector<double> finer{edges.front()};
  for (std::size_t i = 0; i + 1 < edges.size(); ++i)
    for (int k = 1; k <= cut; ++k) finer.push_back(edges[i] + (edges[i + 1] - edges[i]) * k / cut);
  return finer;
}

double squared_if_over_0(double v) { return v > 0.0 ? v * v : 0.0; }

// Of the rectangle [x0, x1] x [y0, y1] the share under the line x/w + y/h = 1: of u/w + v/h <= c the area is
// (c^2 - (c - a)^2 - (c - b)^2 + (c - a - b)^2) w h/2, each square only where its base is positive.
double share_below_diagonal(double x0, double x1, double y0, double y1, double w, double h) {
  const double a = (x1 - x0) / w, b = (y1 - y0) / h, c = 1.0 - x0 / w - y0 / h;
  const double doubled =
      squared_if_over_0(c) - squared_if_over_0(c - a) - squared_if_over_0(c - b) + squared_if_over_0(c - a - b);
  return std::clamp(doubled / (2.0 * a * b), 0.0, 1.0);  // squares of small cells round to a little past either
}

void add_part(const PlaneGrid& grid, const LightPart& part, std::vector<double>& light) {
  const std::size_t columns = grid.columns();
  const LitArea& lit = part.lit;
  for (std::size_t j = 0; j < grid.rows(); ++j) {
    const double y0 = grid.y_m[j], y1 = grid.y_m[j + 1];
    for (std::size_t i = 0; i < columns; ++i) {
      const double x0 = grid.x_m[i], x1 = grid.x_m[i + 1];
      double share = 1.0;
      if (lit.diagonal)
        share = share_below_diagonal(x0, x1, y0, y1, grid.x_m.back(), grid.y_m.back());
      else if (!lit.everything)
        share = internal::overlap_m(x0, x1, lit.left_m, lit.right_m) / (x1 - x0) *
                internal::overlap_m(y0, y1, lit.bottom_m, lit.top_m) / (y1 - y0);
      light[j * columns + i] += part.share * share;
    }
  }
}

}  // namespace

PlaneGrid plane_grid(const Line& line, double glass_width_m, double glass_height_m, std::span<const double> x_borders_m,
                     std::span<const double> y_borders_m, const PlaneFineness& fineness) {
  if (!(glass_width_m > 2 * line.edge.bite_m && glass_height_m > 2 * line.edge.bite_m && fineness.cut >= 1))
    throw std::invalid_argument("a plane's glass must be wider and higher than its two bites, its cells cut into 1 up");
  const std::vector<double> strip_m = internal::strip_edges(line);
  const auto along = [&](double length_m, std::span<const double> borders_m) {
    std::vector<double> edges = from_both_ends(strip_m, length_m, fineness.largest_m);
    refine(edges, borders_m, internal::edge_cells(line, strip_m), fineness);
    return cut_cells(edges, fineness.cut);
  };
  return {along(glass_width_m, x_borders_m), along(glass_height_m, y_borders_m)};
}

std::vector<double> light_on_cells(const PlaneGrid& grid, const Light& light) {
  std::vector<double> share(grid.cells(), light.sun_under ? 1.0 : 0.0);
  for (const LightPart& part : light.parts) add_part(grid, part, share);
  return share;
}

}  // namespace sunstrain
