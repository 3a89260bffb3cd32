#include "stress_direction.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <numbers>
#include <stdexcept>
#include <utility>

#include "stress_kernels.hpp"

namespace sunstrain::stress_detail {

namespace {

constexpr std::size_t up(std::ptrdiff_t n) { return static_cast<std::size_t>(n); }
constexpr double nothing = 1e-11;  // a hyperbolic profile so far from its end no longer counts

// Phase of the fastest mode over one Gauss set.
constexpr double most_phase = 6.0;

int table_rows(const Direction& dir, int parity) { return 1 + modes_of_parity(dir.modes, parity) + dir.crossing_modes; }

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
    into[n] = near_n + sign * far_n;
    if (across_n > 0.0) into[n] /= 1.0 + sign * across_n;
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
  Eigen::VectorXd scale = Eigen::VectorXd::Ones(order);
  for (int k = 0; k < order; ++k)
    for (int j = 0; j < order; ++j)
      if (j != k) scale[k] /= rule.node[up(k)] - rule.node[up(j)];
  Eigen::MatrixXd values(order * parts, order);
  for (int k = 0; k < order; ++k)
    for (int i = 0; i < order * parts; ++i) {
      const double x = -1.0 + (2.0 * (i / order) + 1.0 + rule.node[up(i % order)]) / parts;
      double lagrange = scale[k];
      for (int j = 0; j < order; ++j)
        if (j != k) lagrange *= x - rule.node[up(j)];
      values(i, k) = lagrange;
    }
  return values;
}

// Faded in over some half-waves from the ends: there the series beyond the last mode is the corner's (stress_block).
double tail_share(const Direction& dir, double distance_m) {
  const double d = distance_m * dir.modes / (4.0 * dir.length_m);
  return 1.0 - std::exp(-d * d * d * d);
}

// Mode functions of a panel at `parts` Gauss sets, weighted, to integrals of its nodes' Lagrange polynomials.
void to_nodes(const Eigen::MatrixXd& modes, const Eigen::MatrixXd& between, Eigen::Ref<Eigen::MatrixXd> columns) {
  if (modes.cols() == columns.cols())
    columns = modes;
  else
    multiply_add_many(modes.data(), between.data(), up(between.rows()), up(modes.rows()), up(modes.cols()),
                      up(columns.cols()), columns.data(), up(columns.outerStride()));
}

struct IntegralTables {
  Eigen::MatrixXd all, faded;
};  // rows padded to whole chunks; sines only, times tail_share

// Product integration: a profile is a polynomial through the nodes of a panel, its integral against each mode
// is exact, so panels may be far longer than the waves of the modes.
IntegralTables integral_tables(const Direction& dir, double crossing_length_m, int parity,
                               const std::vector<Panel>& panels, const GaussRule& rule) {
  const Eigen::Index order = gauss_order, sines = modes_of_parity(dir.modes, parity);
  const Eigen::Index padded =
      (table_rows(dir, parity) + ChunkedTable::chunk - 1) / ChunkedTable::chunk * ChunkedTable::chunk;
  const double fastest = std::numbers::pi * std::max(dir.modes / dir.length_m, dir.crossing_modes / crossing_length_m);
  const auto columns = order * static_cast<Eigen::Index>(panels.size());
  IntegralTables tables{Eigen::MatrixXd::Zero(padded, columns), Eigen::MatrixXd::Zero(sines, columns)};
  for (std::size_t p = 0; p < panels.size(); ++p) {
    const double size = panels[p].to_m - panels[p].from_m;
    const int parts = std::max(1, static_cast<int>(std::ceil(size * fastest / most_phase)));
    Eigen::MatrixXd modes = Eigen::MatrixXd::Zero(padded, order * parts);
    Eigen::VectorXd share(order * parts);
    for (int i = 0; i < gauss_order * parts; ++i) {
      const double within = (2.0 * (i / gauss_order) + 1.0 + rule.node[up(i % gauss_order)]) / (2.0 * parts);
      const double d = panels[p].from_m + within * size;
      fill_modes(dir, crossing_length_m, parity, d, modes.col(i).data());
      modes.col(i) *= rule.weight[up(i % gauss_order)] * size / parts;  // twice the half: both halves count
      share[i] = tail_share(dir, d);
    }
    const Eigen::MatrixXd between = interpolation(rule, parts);
    const Eigen::Index at = order * static_cast<Eigen::Index>(p);
    to_nodes(modes, between, tables.all.middleCols(at, order));
    if (share.minCoeff() < 1.0 - nothing)
      to_nodes(modes.middleRows(1, sines) * share.asDiagonal(), between, tables.faded.middleCols(at, order));
    else
      tables.faded.middleCols(at, order) = tables.all.block(1, at, sines, order);
  }
  return tables;
}

ChunkedTable chunked(const Eigen::MatrixXd& dense, int rows) {
  constexpr int chunk = ChunkedTable::chunk;
  ChunkedTable table;
  table.rows = rows;
  table.columns = static_cast<int>(dense.cols());
  table.entries.reserve(up(static_cast<int>(dense.size())));
  const double least = nothing * dense.cwiseAbs().maxCoeff();
  for (Eigen::Index row = 0; row < dense.rows(); row += chunk) {
    int columns = table.columns;
    while (columns > 0 && dense.block<chunk, 1>(row, columns - 1).cwiseAbs().maxCoeff() < least) --columns;
    table.start_of.push_back(table.entries.size());
    table.columns_of.push_back(columns);
    for (int j = 0; j < columns; ++j) {
      const double* from = &dense.coeffRef(row, j);
      table.entries.insert(table.entries.end(), from, from + chunk);
    }
  }
  return table;
}

double linear(const Direction& dir, int parity, double distance_m) {
  return parity == 0 ? 1.0 : 1.0 - 2.0 * distance_m / dir.length_m;
}

Eigen::MatrixXd sines_at_edge(const Direction& dir, int parity) {
  Eigen::MatrixXd sines(dir.half_edge(), modes_of_parity(dir.modes, parity));
  Eigen::VectorXd row(sines.cols());
  for (Eigen::Index i = 0; i < sines.rows(); ++i) {
    const double x = std::numbers::pi * dir.edge_distance[up(i)] / dir.length_m;
    fill_sines(x, 1 + parity, up(row.size()), row.data());
    sines.row(i) = row.transpose();
  }
  return sines;
}

// What the modes beyond the last one add along the edge, as a multiple of the last one's amplitude: their
// coefficients fall as m^-3, by which the harmonic function makes good for the sines' lack of curvature at the
// corners.
Eigen::ArrayXd beyond_last_mode(const Direction& dir, double last) {
  const auto distance =
      Eigen::Map<const Eigen::ArrayXd>(dir.edge_distance.data(), static_cast<Eigen::Index>(dir.half_edge()));
  const Eigen::ArrayXd x = std::numbers::pi / dir.length_m * distance;
  const Eigen::ArrayXd turn_c = (2.0 * x).cos(), turn_s = (2.0 * x).sin();
  Eigen::ArrayXd s = (last * x).sin(), c = (last * x).cos(), sum = Eigen::ArrayXd::Zero(x.size());
  for (double m = last + 2.0; m < 7.0 * last; m += 2.0) {
    const Eigen::ArrayXd turned = s * turn_c + c * turn_s;
    c = c * turn_c - s * turn_s;
    s = turned;
    sum += std::pow(last / m, 3) * s;
  }
  return sum;
}

// The modes along the half edge, the last few carrying what lies beyond them, in shares that even out what fields
// inside the pane put there with changing sign.
Eigen::MatrixXd with_what_follows(const Direction& dir, int parity, Eigen::MatrixXd sines) {
  const Eigen::Index count = sines.cols(), shares = std::min<Eigen::Index>(count, 8);
  const double last = mode_number(parity, static_cast<int>(count) - 1);
  Eigen::RowVectorXd share(shares);
  for (int k = 0; k < shares; ++k) {
    const double wave = std::sin(std::numbers::pi * (k + 0.5) / static_cast<double>(shares));
    const double m = mode_number(parity, static_cast<int>(count - shares) + k);
    share[k] = 2.0 / static_cast<double>(shares) * wave * wave * std::pow(m / last, 3);
  }
  sines.rightCols(shares) += beyond_last_mode(dir, last).matrix() * share;
  return sines;
}

// Only what a profile has besides the linear function between its ends has a tail.
void add_edge_tables(Direction& dir, int parity, const Eigen::MatrixXd& faded) {
  const auto half = static_cast<Eigen::Index>(dir.half_edge());
  Eigen::MatrixXd sines = sines_at_edge(dir, parity);
  Eigen::VectorXd share(half), at_edge(half), at_nodes(faded.cols());
  for (Eigen::Index i = 0; i < half; ++i) {
    const double d = dir.edge_distance[static_cast<std::size_t>(i)];
    share[i] = tail_share(dir, d);
    at_edge[i] = linear(dir, parity, d);
  }
  for (Eigen::Index j = 0; j < faded.cols(); ++j)
    at_nodes[j] = linear(dir, parity, dir.node_distance[static_cast<std::size_t>(j)]);
  dir.edge_modes[up(parity)].resize(up(sines.size()));
  Eigen::Map<Eigen::MatrixXd>(dir.edge_modes[up(parity)].data(), half, sines.cols()) =
      with_what_follows(dir, parity, sines);
  sines *= -2.0 / dir.length_m;
  Eigen::MatrixXd of_nodes = Eigen::MatrixXd::Zero(half, faded.cols());
  multiply_add_many(sines.data(), faded.data(), up(faded.rows()), up(sines.rows()), up(sines.cols()), up(faded.cols()),
                    of_nodes.data(), up(half));
  const Eigen::VectorXd of_end = -share.cwiseProduct(at_edge) - of_nodes * at_nodes;
  dir.edge_share.assign(share.data(), share.data() + half);
  dir.tail_of_nodes[up(parity)].assign(of_nodes.data(), of_nodes.data() + of_nodes.size());
  dir.tail_of_end[up(parity)].assign(of_end.data(), of_end.data() + half);
}

ProfileLayout make_layout(const Direction& dir) {
  ProfileLayout layout;
  for (int parity : {0, 1}) {
    ProfileLayout::Part& part = layout.part[up(parity)];
    const auto take = [&](std::size_t count) { return std::exchange(layout.size, layout.size + count); };
    part.bilinear = take(1);
    part.trig = take(up(modes_of_parity(dir.modes, parity)));
    for (int crossing : {0, 1}) part.hyperbolic[up(crossing)] = take(up(modes_of_parity(dir.crossing_modes, crossing)));
    part.edge = take(dir.half_edge());
    part.tail = take(dir.half_edge());
    part.end = take(1);
    part.depth = take(1);
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
                         int points_per_side, int parities) {
  Direction dir;
  dir.parities = parities;
  dir.length_m = length_m;
  dir.modes = modes;
  dir.crossing_modes = crossing_modes;
  const std::vector<Panel> panels = graded_panels(length_m, features, end_width_m, panel_per_width);
  const GaussRule rule = gauss_rule(gauss_order);
  for (const Panel& panel : panels)
    for (double node : rule.node)
      dir.node_distance.push_back(0.5 * (panel.from_m + panel.to_m + node * (panel.to_m - panel.from_m)));
  dir.edge_distance =
      graded_edge_points(length_m, features, end_width_m, std::min(length_m, crossing_length_m), points_per_side / 2);
  dir.nodes = both_halves(dir.node_distance, length_m);
  dir.edge_points = both_halves(dir.edge_distance, length_m);

  // Where the first modes left out sit in depth: the one-point Gauss-Laguerre rule for exp(-1.4 a y), a the last rate.
  dir.depth_m = std::min(crossing_length_m / (1.4 * std::numbers::pi * crossing_modes), 0.25 * length_m);
  dir.sample_points = dir.nodes;
  dir.sample_points.insert(dir.sample_points.end(), dir.edge_points.begin(), dir.edge_points.end());
  for (double x : {0.0, length_m, dir.depth_m, length_m - dir.depth_m}) dir.sample_points.push_back(x);

  for (int parity = 0; parity < parities; ++parity) {
    const IntegralTables tables = integral_tables(dir, crossing_length_m, parity, panels, rule);
    dir.integral[up(parity)] = chunked(tables.all, table_rows(dir, parity));
    add_edge_tables(dir, parity, tables.faded);
  }
  dir.layout = make_layout(dir);
  return dir;
}

void fill_sines(double x, int first, std::size_t count, double* into) {
  // Four rotations side by side, each by 8x, so that none waits for the one before.
  const double turn_c = std::cos(8 * x), turn_s = std::sin(8 * x), next_c = std::cos(2 * x), next_s = std::sin(2 * x);
  double s[4]{std::sin(first * x)}, c[4]{std::cos(first * x)};
  for (int k = 1; k < 4; ++k) {
    s[k] = s[k - 1] * next_c + c[k - 1] * next_s;
    c[k] = c[k - 1] * next_c - s[k - 1] * next_s;
  }
  for (std::size_t m = 0; m < count; m += 4)
    for (std::size_t k = 0; k < 4; ++k) {
      if (m + k < count) into[m + k] = s[k];
      const double turned = s[k] * turn_c + c[k] * turn_s;
      c[k] = c[k] * turn_c - s[k] * turn_s;
      s[k] = turned;
    }
}

SUNSTRAIN_WIDE_CLONES
void fold_values(std::span<const double> values, double* even, double* odd) {
  const std::size_t n = values.size();
  for (std::size_t i = 0; 2 * i < n; ++i) {
    even[i] = 0.5 * (values[n - 1 - i] + values[i]);
    odd[i] = 0.5 * (values[n - 1 - i] - values[i]);
  }
}

namespace {

// Of `count` folded profiles, `apart` and `into_apart` from each other; nothing is left of them past `columns` nodes.
void fill_tails(const Direction& dir, int parity, std::size_t count, const double* nodes, std::size_t apart,
                std::size_t columns, const double* edge, const double* end, double* tail, std::size_t into_apart) {
  const std::size_t half = dir.half_edge();
  const double* of_end = dir.tail_of_end[up(parity)].data();
  for (std::size_t f = 0; f < count; ++f)
    for (std::size_t i = 0, at = f * into_apart; i < half; ++i)
      tail[at + i] = dir.edge_share[i] * edge[at + i] + end[at] * of_end[i];
  multiply_add_many(dir.tail_of_nodes[up(parity)].data(), nodes, apart, half, columns, count, tail, into_apart);
}

// How many of `most` nodes, counted from the end of the pane, hold anything in one of the folded profiles.
std::size_t nodes_in_use(const double* nodes, std::size_t apart, std::size_t count, std::size_t most) {
  constexpr std::array<double, 16> zeros{};
  std::size_t used = 0;
  for (std::size_t f = 0; f < count; ++f) {
    std::size_t last = most;
    while (last >= used + zeros.size() &&
           std::memcmp(&nodes[f * apart + last - zeros.size()], zeros.data(), sizeof zeros) == 0)
      last -= zeros.size();
    while (last > used && nodes[f * apart + last - 1] == 0.0) --last;
    used = std::max(used, last);
  }
  return used;
}

}  // namespace

void line_tail(const Direction& dir, int parity, std::span<const double> line, double* tail) {
  const std::size_t nodes = dir.nodes.size(), edge = dir.edge_points.size();
  Scratch at_nodes(nodes), at_edge(edge);
  double end[2];
  fold_values(line.first(nodes), at_nodes.data(), at_nodes.data() + nodes / 2);
  fold_values(line.subspan(nodes, edge), at_edge.data(), at_edge.data() + edge / 2);
  fold_values(line.subspan(nodes + edge, 2), &end[0], &end[1]);
  const auto p = up(parity);
  fill_tails(dir, parity, 1, at_nodes.data() + p * nodes / 2, 0, dir.node_distance.size(),
             at_edge.data() + p * edge / 2, &end[p], tail, 0);
}

namespace {

// Leaves nothing as the odd half of folded profiles, of which there must be nothing.
void leave_no_odd_half(const Direction& dir, std::size_t count, const double* folded, std::span<double> into) {
  const ProfileLayout::Part& odd = dir.layout.part[1];
  const std::size_t nodes = dir.nodes.size(), half = nodes / 2;
  for (std::size_t f = 0; f < count; ++f) {
    double* out = &into[f * dir.layout.size];
    const auto holds_any = [](const double* values, std::size_t many) {
      return std::any_of(values, values + many, [](double value) { return value != 0.0; });
    };
    if (holds_any(folded + f * nodes + half, half) || holds_any(out + odd.edge, dir.half_edge()) ||
        holds_any(out + odd.end, 1) || holds_any(out + odd.depth, 1))
      throw std::invalid_argument("a profile that does not mirror itself, for a solver made for those that do");
    std::fill(out + odd.bilinear, out + dir.layout.size, 0.0);
  }
}

}  // namespace

void transform(const Direction& dir, std::size_t count, std::span<const double> samples, std::span<double> into) {
  const std::size_t nodes = dir.nodes.size(), edge = dir.edge_points.size(), size = dir.layout.size;
  const std::size_t most_rows = ChunkedTable::chunk * dir.integral[0].columns_of.size();
  Scratch folded(count * nodes), rows(count * most_rows);
  const ProfileLayout::Part& even = dir.layout.part[0];
  const ProfileLayout::Part& odd = dir.layout.part[1];
  for (std::size_t f = 0; f < count; ++f) {
    const auto profile = samples.subspan(f * dir.sample_points.size(), dir.sample_points.size());
    double* out = &into[f * size];
    fold_values(profile.first(nodes), folded.data() + f * nodes, folded.data() + f * nodes + nodes / 2);
    fold_values(profile.subspan(nodes, edge), out + even.edge, out + odd.edge);
    fold_values(profile.subspan(nodes + edge, 2), out + even.end, out + odd.end);
    fold_values(profile.subspan(nodes + edge + 2, 2), out + even.depth, out + odd.depth);
  }
  if (dir.parities == 1) leave_no_odd_half(dir, count, folded.data(), into);
  for (int parity = 0; parity < dir.parities; ++parity) {
    const ChunkedTable& table = dir.integral[up(parity)];
    const ProfileLayout::Part& part = dir.layout.part[up(parity)];
    const double* half = folded.data() + up(parity) * nodes / 2;
    std::fill_n(rows.data(), count * most_rows, 0.0);
    const std::size_t used = nodes_in_use(half, nodes, count, nodes / 2);
    for (std::size_t c = 0; c < table.columns_of.size(); ++c)
      multiply_add_many(&table.entries[table.start_of[c]], half, nodes, ChunkedTable::chunk,
                        std::min(used, up(table.columns_of[c])), count, rows.data() + ChunkedTable::chunk * c,
                        most_rows);
    const std::size_t trig = up(modes_of_parity(dir.modes, parity));
    for (std::size_t f = 0; f < count; ++f) {
      const double* row = rows.data() + f * most_rows;
      double* out = &into[f * size];
      out[part.bilinear] = row[0];
      std::copy_n(row + 1, trig, out + part.trig);
      for (std::size_t crossing : {0u, 1u}) {
        double* const of_parity = out + part.hyperbolic[crossing];
        const std::size_t many = up(modes_of_parity(dir.crossing_modes, static_cast<int>(crossing)));
        for (std::size_t n = 0; n < many; ++n) of_parity[n] = row[1 + trig + crossing + 2 * n];
      }
    }
    fill_tails(dir, parity, count, half, nodes, used, &into[part.edge], &into[part.end], &into[part.tail], size);
  }
}

}  // namespace sunstrain::stress_detail
