#include "stress_direction.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "stress_kernels.hpp"

namespace sunstrain::stress_detail {

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }
constexpr double nothing = 1e-11;  // a hyperbolic profile so far from its end no longer counts

// Writes the hyperbolic profiles of all modes of the crossing family, rate = n pi / crossing length.
void fill_hyperbolic(double rate_1, double distance_m, double length_m, int parity, int count, double* into) {
  const double sign = parity == 0 ? 1.0 : -1.0;
  const double near = std::exp(-rate_1 * distance_m), far = std::exp(-rate_1 * (length_m - distance_m)),
               across = std::exp(-rate_1 * length_m);
  double near_n = near, far_n = far, across_n = across;
  for (int n = 0; n < count; ++n) {
    if (near_n < nothing) {
      std::fill(into + n, into + count, 0.0);
      return;
    }
    into[n] = (near_n + sign * far_n) / (1.0 + sign * across_n);
    near_n *= near;
    far_n = far_n < 1e-30 ? 0.0 : far_n * far;
    across_n = across_n < 1e-30 ? 0.0 : across_n * across;
  }
}

// All mode functions of one parity at one place: bilinear, trig, hyperbolic.
void fill_modes(const Direction& dir, double crossing_length_m, int parity, double distance_m, double* into) {
  const int trig = modes_of_parity(dir.modes, parity);
  into[0] = parity == 0 ? 1.0 : 1.0 - 2.0 * distance_m / dir.length_m;
  fill_sines(std::numbers::pi * distance_m / dir.length_m, 1 + parity, up(trig), into + 1);
  fill_hyperbolic(std::numbers::pi / crossing_length_m, distance_m, dir.length_m, parity, dir.crossing_modes,
                  into + 1 + trig);
}

// Values at `parts` Gauss sets side by side from the values at one Gauss set over the same panel.
Eigen::MatrixXd interpolation(const GaussRule& rule, int parts) {
  const int order = static_cast<int>(rule.node.size());
  Eigen::MatrixXd values(order * parts, order);
  for (int i = 0; i < order * parts; ++i) {
    const double x = -1.0 + (2.0 * (i / order) + 1.0 + rule.node[up(i % order)]) / parts;
    for (int k = 0; k < order; ++k) {
      double lagrange = 1.0;
      for (int j = 0; j < order; ++j)
        if (j != k) lagrange *= (x - rule.node[up(j)]) / (rule.node[up(k)] - rule.node[up(j)]);
      values(i, k) = lagrange;
    }
  }
  return values;
}

// Product integration: a profile is a polynomial through the nodes of a panel, its integral against each mode
// is exact, so panels may be far longer than the waves of the modes.
Eigen::MatrixXd integral_table(const Direction& dir, double crossing_length_m, int parity,
                               const std::vector<Panel>& panels, const GaussRule& rule) {
  const int rows = 1 + modes_of_parity(dir.modes, parity) + dir.crossing_modes, order = gauss_order;
  const double fastest = std::numbers::pi * std::max(dir.modes / dir.length_m, dir.crossing_modes / crossing_length_m);
  Eigen::MatrixXd table(rows, order * static_cast<int>(panels.size()));
  for (std::size_t p = 0; p < panels.size(); ++p) {
    const double size = panels[p].to_m - panels[p].from_m;
    const int parts = std::max(1, static_cast<int>(std::ceil(size * fastest / 4.0)));
    Eigen::MatrixXd modes(rows, order * parts);
    for (int i = 0; i < order * parts; ++i) {
      const double within = (2.0 * (i / order) + 1.0 + rule.node[up(i % order)]) / (2.0 * parts);
      fill_modes(dir, crossing_length_m, parity, panels[p].from_m + within * size, modes.col(i).data());
      modes.col(i) *= rule.weight[up(i % order)] * size / parts;  // twice the half: both halves of the direction
    }
    auto columns = table.middleCols(order * static_cast<int>(p), order);
    if (parts == 1)
      columns = modes;
    else
      columns.noalias() = modes * interpolation(rule, parts);
  }
  return table;
}

ChunkedTable chunked(const Eigen::MatrixXd& dense) {
  ChunkedTable table;
  table.rows = static_cast<int>(dense.rows());
  table.columns = static_cast<int>(dense.cols());
  const double scale = dense.cwiseAbs().maxCoeff();
  for (int row = 0; row < table.rows; row += ChunkedTable::chunk) {
    const int height = std::min(ChunkedTable::chunk, table.rows - row);
    int columns = table.columns;
    while (columns > 0 && dense.block(row, columns - 1, height, 1).cwiseAbs().maxCoeff() < nothing * scale) --columns;
    table.start_of.push_back(table.entries.size());
    table.columns_of.push_back(columns);
    for (int j = 0; j < columns; ++j)
      for (int i = 0; i < ChunkedTable::chunk; ++i) table.entries.push_back(i < height ? dense(row + i, j) : 0.0);
  }
  return table;
}

ProfileLayout make_layout(const Direction& dir) {
  ProfileLayout layout;
  for (int parity : {0, 1}) {
    ProfileLayout::Part& part = layout.part[up(parity)];
    const auto take = [&](std::size_t count) { return std::exchange(layout.size, layout.size + count); };
    part.bilinear = take(1);
    part.trig = take(up(modes_of_parity(dir.modes, parity)));
    for (int crossing : {0, 1})
      part.hyperbolic[up(crossing)] = take(up(modes_of_parity(dir.crossing_modes, crossing)));
    part.edge = take(dir.half_edge());
    part.end = take(1);
  }
  return layout;
}

std::vector<double> both_halves(const std::vector<double>& distance, double length_m) {
  std::vector<double> points = distance;
  for (std::size_t i = distance.size(); i-- > 0;) points.push_back(length_m - distance[i]);
  return points;
}

}  // namespace

Direction make_direction(double length_m, double crossing_length_m, int modes, int crossing_modes,
                         std::span<const Feature> features, double end_width_m, double panel_per_width,
                         int points_per_side) {
  Direction dir;
  dir.length_m = length_m;
  dir.modes = modes;
  dir.crossing_modes = crossing_modes;
  const std::vector<Panel> panels = graded_panels(length_m, features, end_width_m, panel_per_width);
  const GaussRule rule = gauss_rule(gauss_order);
  for (const Panel& panel : panels)
    for (double node : rule.node)
      dir.node_distance.push_back(0.5 * (panel.from_m + panel.to_m + node * (panel.to_m - panel.from_m)));
  dir.edge_distance = graded_edge_points(length_m, features, end_width_m, points_per_side / 2);
  dir.nodes = both_halves(dir.node_distance, length_m);
  dir.edge_points = both_halves(dir.edge_distance, length_m);

  dir.sample_points = dir.nodes;
  dir.sample_points.insert(dir.sample_points.end(), dir.edge_points.begin(), dir.edge_points.end());
  for (double x : {0.0, length_m}) dir.sample_points.push_back(x);

  for (int parity : {0, 1}) {
    const Eigen::MatrixXd dense = integral_table(dir, crossing_length_m, parity, panels, rule);
    dir.dense_integral[up(parity)].assign(dense.data(), dense.data() + dense.size());
    dir.integral[up(parity)] = chunked(dense);
  }
  dir.layout = make_layout(dir);
  return dir;
}

void fill_sines(double x, int first, std::size_t count, double* into) {
  // Rotation by 2x from mode to mode.
  const double turn_c = std::cos(2 * x), turn_s = std::sin(2 * x);
  double s = std::sin(first * x), c = std::cos(first * x);
  for (std::size_t k = 0; k < count; ++k) {
    into[k] = s;
    const double next_s = s * turn_c + c * turn_s;
    c = c * turn_c - s * turn_s;
    s = next_s;
  }
}

void fold_values(std::span<const double> values, double* even, double* odd) {
  const std::size_t n = values.size();
  for (std::size_t i = 0; 2 * i < n; ++i) {
    even[i] = 0.5 * (values[n - 1 - i] + values[i]);
    odd[i] = 0.5 * (values[n - 1 - i] - values[i]);
  }
}

void transform(const Direction& dir, std::span<const double> samples, std::span<double> into) {
  const std::size_t nodes = dir.nodes.size(), edge = dir.edge_points.size();
  Scratch folded(nodes), rows(up(dir.integral[0].rows) + ChunkedTable::chunk);
  const ProfileLayout::Part& even = dir.layout.part[0];
  const ProfileLayout::Part& odd = dir.layout.part[1];
  fold_values(samples.first(nodes), folded.data(), folded.data() + nodes / 2);
  fold_values(samples.subspan(nodes, edge), &into[even.edge], &into[odd.edge]);
  fold_values(samples.subspan(nodes + edge, 2), &into[even.end], &into[odd.end]);
  for (int parity : {0, 1}) {
    const ChunkedTable& table = dir.integral[up(parity)];
    const ProfileLayout::Part& part = dir.layout.part[up(parity)];
    double* row = rows.data();
    std::fill_n(row, ChunkedTable::chunk * table.columns_of.size(), 0.0);
    for (std::size_t c = 0; c < table.columns_of.size(); ++c)
      add_columns_8(&table.entries[table.start_of[c]], folded.data() + up(parity) * nodes / 2,
                    up(table.columns_of[c]), row + ChunkedTable::chunk * c);
    const std::size_t trig = up(modes_of_parity(dir.modes, parity));
    into[part.bilinear] = row[0];
    std::copy_n(row + 1, trig, &into[part.trig]);
    for (std::size_t n = 0; n < up(dir.crossing_modes); ++n) into[part.hyperbolic[n % 2] + n / 2] = row[1 + trig + n];
  }
}

}  // namespace sunstrain::stress_detail
