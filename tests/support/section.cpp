#include "section.hpp"

#include <Eigen/Sparse>
#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <optional>
#include <stdexcept>

namespace sunstrain::test {
namespace {

constexpr double same_m = 1e-9;

// Cells from both ends of a stretch inwards, each larger than the one before.
void add_stretch(double from, double to, const Section& s, std::vector<double>& lines) {
  std::vector<double> ascending, descending;
  double left = from, right = to, size = s.finest_m;
  while (right - left > 2.0 * size) {
    ascending.push_back(left += size);
    descending.push_back(right -= size);
    size = std::min(size * s.growth, s.coarsest_m);
  }
  lines.insert(lines.end(), ascending.begin(), ascending.end());
  lines.insert(lines.end(), descending.rbegin(), descending.rend());
  lines.push_back(to);
}

std::vector<double> grid_lines(std::vector<double> edges, const Section& s) {
  std::sort(edges.begin(), edges.end());
  std::vector<double> lines{edges.front()};
  for (double edge : edges)
    if (edge > lines.back() + same_m) add_stretch(lines.back(), edge, s, lines);
  // Two cells that meet in the middle of a stretch may leave a sliver.
  lines.erase(std::unique(lines.begin(), lines.end(), [](double a, double b) { return b - a < same_m; }), lines.end());
  return lines;
}

bool holds(const Box& box, double x, double y) { return x > box.x0_m && x < box.x1_m && y > box.y0_m && y < box.y1_m; }

struct Cell {
  double conductivity_w_mk = 0.0;  // 0: not solid
  double heat_j_m3k = 0.0;
  std::optional<std::size_t> air;
  int unknown = -1;
};

struct Grid {
  std::vector<double> x, y;
  std::vector<Cell> cells;
  std::size_t columns() const { return x.size() - 1; }
  std::size_t rows() const { return y.size() - 1; }
};

Grid grid_of(const Section& s) {
  std::vector<double> xs, ys;
  const auto take = [&](const Box& box) {
    xs.insert(xs.end(), {box.x0_m, box.x1_m});
    ys.insert(ys.end(), {box.y0_m, box.y1_m});
  };
  for (const SectionPart& part : s.parts) take(part.box);
  for (const SectionAir& air : s.airs) take(air.box);
  xs.insert(xs.end(), s.fine_x_m.begin(), s.fine_x_m.end());
  ys.insert(ys.end(), s.fine_y_m.begin(), s.fine_y_m.end());
  Grid grid{grid_lines(xs, s), grid_lines(ys, s), {}};
  int unknowns = 0;
  for (std::size_t j = 0; j < grid.rows(); ++j) {
    for (std::size_t i = 0; i < grid.columns(); ++i) {
      const double x = 0.5 * (grid.x[i] + grid.x[i + 1]), y = 0.5 * (grid.y[j] + grid.y[j + 1]);
      Cell cell;
      for (std::size_t a = 0; a < s.airs.size(); ++a)
        if (holds(s.airs[a].box, x, y)) cell.air = a;
      for (const SectionPart& part : s.parts)
        if (holds(part.box, x, y)) {
          cell.conductivity_w_mk = part.conductivity_w_mk;
          cell.heat_j_m3k = part.heat_j_m3k;
        }
      if (cell.conductivity_w_mk > 0.0) cell.unknown = unknowns++;
      grid.cells.push_back(cell);
    }
  }
  return grid;
}

struct System {
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd heat;
};

// A face between two cells, `length` long, the cells' sizes across it given.
void join(const Section& s, const Cell& a, double size_a, const Cell& b, double size_b, double length, System& system) {
  const bool solid_a = a.unknown >= 0, solid_b = b.unknown >= 0;
  if (solid_a && solid_b) {
    const double w_mk = length / (0.5 * size_a / a.conductivity_w_mk + 0.5 * size_b / b.conductivity_w_mk);
    system.entries.insert(system.entries.end(), {{a.unknown, a.unknown, w_mk},
                                                 {b.unknown, b.unknown, w_mk},
                                                 {a.unknown, b.unknown, -w_mk},
                                                 {b.unknown, a.unknown, -w_mk}});
  } else if (solid_a != solid_b) {
    const Cell &solid = solid_a ? a : b, &other = solid_a ? b : a;
    if (!other.air) return;
    const SectionAir& air = s.airs[*other.air];
    const double w_mk = length / (0.5 * (solid_a ? size_a : size_b) / solid.conductivity_w_mk + air.resistance_m2k_w);
    system.entries.push_back({solid.unknown, solid.unknown, w_mk});
    system.heat[solid.unknown] += w_mk * air.temperature_c;
  }
}

// Calls face(cell, size, neighbor, its size, length) for each pair of neighbors.
template <class Face>
void each_face(const Grid& g, Face face) {
  const std::size_t n = g.columns();
  for (std::size_t j = 0; j < g.rows(); ++j) {
    for (std::size_t i = 0; i < n; ++i) {
      const double dx = g.x[i + 1] - g.x[i], dy = g.y[j + 1] - g.y[j];
      if (i + 1 < n) face(j * n + i, dx, j * n + i + 1, g.x[i + 2] - g.x[i + 1], dy);
      if (j + 1 < g.rows()) face(j * n + i, dy, (j + 1) * n + i, g.y[j + 2] - g.y[j + 1], dx);
    }
  }
}

System system_of(const Section& section, const Grid& g) {
  const auto unknowns = std::count_if(g.cells.begin(), g.cells.end(), [](const Cell& c) { return c.unknown >= 0; });
  System system{{}, Eigen::VectorXd::Zero(unknowns)};
  each_face(g, [&](std::size_t a, double size_a, std::size_t b, double size_b, double length) {
    join(section, g.cells[a], size_a, g.cells[b], size_b, length, system);
  });
  for (std::size_t c = 0; c < g.cells.size(); ++c) {
    const std::size_t i = c % g.columns(), j = c / g.columns();
    for (const SectionHeat& h : section.heats)
      if (g.cells[c].unknown >= 0 && holds(h.box, 0.5 * (g.x[i] + g.x[i + 1]), 0.5 * (g.y[j] + g.y[j + 1])))
        system.heat[g.cells[c].unknown] += h.heat_w_m3 * (g.x[i + 1] - g.x[i]) * (g.y[j + 1] - g.y[j]);
  }
  return system;
}

SectionField field_of(const Grid& g, const Eigen::VectorXd& solved) {
  SectionField field{g.x, g.y, {}, {}, {}};
  for (const Cell& cell : g.cells) {
    field.cell_c.push_back(cell.unknown >= 0 ? solved[cell.unknown] : std::numeric_limits<double>::quiet_NaN());
    field.conductivity_w_mk.push_back(cell.conductivity_w_mk);
  }
  return field;
}

}  // namespace

SectionField solve_section(const Section& section) {
  const Grid g = grid_of(section);
  const System system = system_of(section, g);
  const auto unknowns = system.heat.size();
  Eigen::SparseMatrix<double> matrix(unknowns, unknowns);
  matrix.setFromTriplets(system.entries.begin(), system.entries.end());
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(matrix);
  if (solver.info() != Eigen::Success) throw std::runtime_error("a section that no air touches has no temperature");

  SectionField field = field_of(g, solver.solve(system.heat));
  field.from_air_w_m.assign(section.airs.size(), 0.0);
  each_face(g, [&](std::size_t a, double size_a, std::size_t b, double size_b, double length) {
    for (const auto& [solid, size, other] : {std::tuple(a, size_a, b), std::tuple(b, size_b, a)}) {
      if (g.cells[solid].unknown < 0 || g.cells[other].unknown >= 0 || !g.cells[other].air) continue;
      const SectionAir& air = section.airs[*g.cells[other].air];
      field.from_air_w_m[*g.cells[other].air] +=
          length / (0.5 * size / g.cells[solid].conductivity_w_mk + air.resistance_m2k_w) *
          (air.temperature_c - field.cell_c[solid]);
    }
  });
  return field;
}

// (A + i w C) T = b.
SectionSwing solve_swing(const Section& section, double period_s) {
  const Grid g = grid_of(section);
  const System system = system_of(section, g);
  const auto unknowns = system.heat.size();
  std::vector<Eigen::Triplet<std::complex<double>>> entries;
  for (const auto& entry : system.entries) entries.emplace_back(entry.row(), entry.col(), entry.value());
  const double rate_1_s = 2.0 * std::numbers::pi / period_s;
  for (std::size_t c = 0; c < g.cells.size(); ++c) {
    const std::size_t i = c % g.columns(), j = c / g.columns();
    const double held_j_mk = g.cells[c].heat_j_m3k * (g.x[i + 1] - g.x[i]) * (g.y[j + 1] - g.y[j]);
    if (g.cells[c].unknown >= 0)
      entries.emplace_back(g.cells[c].unknown, g.cells[c].unknown, std::complex<double>(0.0, rate_1_s * held_j_mk));
  }
  Eigen::SparseMatrix<std::complex<double>> matrix(unknowns, unknowns);
  matrix.setFromTriplets(entries.begin(), entries.end());
  Eigen::SparseLU<Eigen::SparseMatrix<std::complex<double>>> solver(matrix);
  if (solver.info() != Eigen::Success) throw std::runtime_error("a section that no air touches has no temperature");
  const Eigen::VectorXcd solved = solver.solve(system.heat.cast<std::complex<double>>());
  return {field_of(g, solved.real()), field_of(g, -solved.imag())};
}

double SectionField::at(double x, double y) const {
  double sum = 0.0, best_w_mk = 0.0;
  int count = 0;
  const std::size_t columns = x_m.size() - 1;
  for (std::size_t j = 0; j + 1 < y_m.size(); ++j) {
    if (y < y_m[j] - same_m || y > y_m[j + 1] + same_m) continue;
    for (std::size_t i = 0; i < columns; ++i) {
      const double w_mk = conductivity_w_mk[j * columns + i];
      if (x < x_m[i] - same_m || x > x_m[i + 1] + same_m || w_mk <= 0.0 || w_mk < best_w_mk) continue;
      if (w_mk > best_w_mk) sum = count = 0;
      best_w_mk = w_mk;
      sum += cell_c[j * columns + i];
      ++count;
    }
  }
  if (count == 0) throw std::invalid_argument("nothing solid at that point of the section");
  return sum / count;
}

double SectionField::mean(const Box& box) const {
  double sum = 0.0, area = 0.0;
  const std::size_t columns = x_m.size() - 1;
  for (std::size_t j = 0; j + 1 < y_m.size(); ++j) {
    for (std::size_t i = 0; i < columns; ++i) {
      const double x = 0.5 * (x_m[i] + x_m[i + 1]), y = 0.5 * (y_m[j] + y_m[j + 1]);
      if (!holds(box, x, y) || std::isnan(cell_c[j * columns + i])) continue;
      const double cell = (x_m[i + 1] - x_m[i]) * (y_m[j + 1] - y_m[j]);
      sum += cell * cell_c[j * columns + i];
      area += cell;
    }
  }
  if (area == 0.0) throw std::invalid_argument("nothing solid in that box of the section");
  return sum / area;
}

// h_a = max(0.025/d, 0.73 dT^(1/3)) (cavities at least 5 mm across); h_r = 4 sigma T^3 / (1/E - 1 + 1/F),
// E = 1/(1/eps + 1/eps - 1), F = (1 + sqrt(1 + (d/b)^2) - d/b)/2; lambda = d (h_a + h_r).
double cavity_conductivity_w_mk(double d_m, double b_m, double difference_k, double mean_c, double emissivity) {
  constexpr double sigma = 5.67e-8;
  const double convection = std::max(0.025 / d_m, 0.73 * std::cbrt(std::abs(difference_k)));
  const double both = 1.0 / (2.0 / emissivity - 1.0), aspect = d_m / b_m;
  const double seen = 0.5 * (1.0 + std::sqrt(1.0 + aspect * aspect) - aspect);
  const double radiation = 4.0 * sigma * std::pow(mean_c + 273.15, 3) / (1.0 / both - 1.0 + 1.0 / seen);
  return d_m * (convection + radiation);
}

}  // namespace sunstrain::test
