#include "airy_plate.hpp"

#include <Eigen/Sparse>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sunstrain::test {

namespace {

// The four cubic Hermite functions on an element of length h at s in 0..1 (value and slope at 0, then at 1), and
// their second derivatives.
struct Hermite {
  std::array<double, 4> value, second;
};

Hermite hermite(double s, double h) {
  return {{1 - 3 * s * s + 2 * s * s * s, h * (s - 2 * s * s + s * s * s), 3 * s * s - 2 * s * s * s,
           h * (s * s * s - s * s)},
          {(-6 + 12 * s) / (h * h), (-4 + 6 * s) / h, (6 - 12 * s) / (h * h), (-2 + 6 * s) / h}};
}

// Five-point Gauss rule on 0..1, exact to degree 9.
constexpr std::array<double, 5> gauss_at{0.04691007703066800, 0.23076534494715845, 0.5, 0.76923465505284155,
                                         0.95308992296933200};
constexpr std::array<double, 5> gauss_weight{0.11846344252809454, 0.23931433524968324, 0.28444444444444444,
                                             0.23931433524968324, 0.11846344252809454};

struct Point {
  std::size_t element;
  double at, weight;
  Hermite h;
};

std::vector<Point> gauss_points(const std::vector<double>& lines) {
  std::vector<Point> points;
  for (std::size_t e = 0; e + 1 < lines.size(); ++e)
    for (std::size_t g = 0; g < gauss_at.size(); ++g) {
      const double h = lines[e + 1] - lines[e];
      points.push_back({e, lines[e] + h * gauss_at[g], h * gauss_weight[g], hermite(gauss_at[g], h)});
    }
  return points;
}

// One-dimensional element matrices: integrals of value * value, second * value, second * second.
struct Line {
  std::array<std::array<double, 4>, 4> mass{}, mixed{}, bend{};
};

std::vector<Line> line_matrices(const std::vector<double>& lines) {
  std::vector<Line> all(lines.size() - 1);
  for (const Point& p : gauss_points(lines))
    for (std::size_t a = 0; a < 4; ++a)
      for (std::size_t b = 0; b < 4; ++b) {
        all[p.element].mass[a][b] += p.weight * p.h.value[a] * p.h.value[b];
        all[p.element].mixed[a][b] += p.weight * p.h.second[a] * p.h.value[b];
        all[p.element].bend[a][b] += p.weight * p.h.second[a] * p.h.second[b];
      }
  return all;
}

}  // namespace

std::vector<double> even_lines(double length_m, int elements) {
  std::vector<double> lines;
  for (int i = 0; i <= elements; ++i) lines.push_back(length_m * i / elements);
  return lines;
}

std::vector<double> halved(const std::vector<double>& lines) {
  std::vector<double> finer{lines.front()};
  for (std::size_t i = 1; i < lines.size(); ++i) {
    finer.push_back(0.5 * (lines[i - 1] + lines[i]));
    finer.push_back(lines[i]);
  }
  return finer;
}

std::vector<double> graded_lines(double length_m, const std::vector<double>& positions_m, const Grading& g) {
  std::vector<double> fixed{0.0, length_m};
  for (double p : positions_m)
    if (p > 0.0 && p < length_m) fixed.push_back(p);
  std::ranges::sort(fixed);
  const auto allowed = [&](double at) {
    double size = g.widest_m;
    for (double p : fixed) {
      const double least = p == 0.0 || p == length_m ? g.ends_m : g.at_lines_m;
      size = std::min(size, least + (g.growth - 1.0) * std::abs(at - p));
    }
    return size;
  };
  // Within each stretch: as many elements as the integral of 1 / size, at equal shares of it.
  std::vector<double> lines{0.0};
  for (std::size_t k = 1; k < fixed.size(); ++k) {
    constexpr int cells = 4000;
    std::vector<double> share{0.0};
    const double step = (fixed[k] - fixed[k - 1]) / cells;
    for (int c = 0; c < cells; ++c) share.push_back(share.back() + step / allowed(fixed[k - 1] + (c + 0.5) * step));
    const int count = std::max(1, static_cast<int>(std::ceil(share.back())));
    std::size_t cell = 0;
    for (int i = 1; i < count; ++i) {
      const double wanted = share.back() * i / count;
      while (share[cell + 1] < wanted) ++cell;
      lines.push_back(fixed[k - 1] +
                      step * (static_cast<double>(cell) + (wanted - share[cell]) / (share[cell + 1] - share[cell])));
    }
    lines.push_back(fixed[k]);
  }
  return lines;
}

AiryPlate::AiryPlate(std::vector<double> x_lines, std::vector<double> y_lines, double stress_per_k,
                     const std::function<double(double, double)>& temperature)
    : x_(std::move(x_lines)), y_(std::move(y_lines)), phi_(4 * x_.size() * y_.size(), 0.0) {
  const std::size_t nx = x_.size(), ny = y_.size();
  // Unknowns live on inner nodes only; element function (a, b) of element (i, j): a, b = 2 * end + slope.
  const auto unknown = [&](std::size_t i, std::size_t j, std::size_t a, std::size_t b) {
    const std::size_t ni = i + a / 2, nj = j + b / 2;
    if (ni == 0 || nj == 0 || ni == nx - 1 || nj == ny - 1) return -1;
    return static_cast<int>(4 * ((nj - 1) * (nx - 2) + ni - 1) + a % 2 + 2 * (b % 2));
  };
  unknowns_ = static_cast<int>(4 * (nx - 2) * (ny - 2));

  const std::vector<Line> lx = line_matrices(x_), ly = line_matrices(y_);
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t j = 0; j + 1 < ny; ++j)
    for (std::size_t i = 0; i + 1 < nx; ++i)
      for (std::size_t r = 0; r < 16; ++r)
        for (std::size_t c = 0; c < 16; ++c) {
          const std::size_t ra = r / 4, rb = r % 4, ca = c / 4, cb = c % 4;
          const int row = unknown(i, j, ra, rb), column = unknown(i, j, ca, cb);
          if (row < 0 || column < 0 || column > row) continue;
          entries.emplace_back(row, column,
                               lx[i].bend[ra][ca] * ly[j].mass[rb][cb] + lx[i].mixed[ra][ca] * ly[j].mixed[cb][rb] +
                                   lx[i].mixed[ca][ra] * ly[j].mixed[rb][cb] + lx[i].mass[ra][ca] * ly[j].bend[rb][cb]);
        }
  Eigen::SparseMatrix<double> matrix(unknowns_, unknowns_);
  matrix.setFromTriplets(entries.begin(), entries.end());

  Eigen::VectorXd load = Eigen::VectorXd::Zero(unknowns_);
  const std::vector<Point> px = gauss_points(x_), py = gauss_points(y_);
  for (const Point& q : py)
    for (const Point& p : px) {
      const double t = -stress_per_k * p.weight * q.weight * temperature(p.at, q.at);
      for (std::size_t a = 0; a < 4; ++a)
        for (std::size_t b = 0; b < 4; ++b)
          if (const int row = unknown(p.element, q.element, a, b); row >= 0)
            load[row] += t * (p.h.second[a] * q.h.value[b] + p.h.value[a] * q.h.second[b]);
    }

  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower> solver(matrix);
  if (solver.info() != Eigen::Success) throw std::runtime_error("airy_plate: factorization failed");
  const Eigen::VectorXd solved = solver.solve(load);
  for (std::size_t j = 1; j + 1 < ny; ++j)
    for (std::size_t i = 1; i + 1 < nx; ++i)
      for (std::size_t k = 0; k < 4; ++k)
        phi_[4 * (j * nx + i) + k] = solved[static_cast<Eigen::Index>(4 * ((j - 1) * (nx - 2) + i - 1) + k)];
}

// With phi and its gradient zero on the edge, phi in the first element is c2 t^2 + c3 t^3 across it.
double AiryPlate::edge_stress_pa(int side, double position_m) const {
  const bool along_x = side == 0 || side == 2;
  const std::vector<double>&along = along_x ? x_ : y_, &across = along_x ? y_ : x_;
  const bool far = side == 1 || side == 2;
  const std::size_t last = across.size() - 1, inner = far ? last - 1 : 1;
  const double h = far ? across[last] - across[inner] : across[1];
  const auto element = static_cast<std::size_t>(
      std::clamp<std::ptrdiff_t>(std::ranges::upper_bound(along, position_m) - along.begin() - 1, 0,
                                 static_cast<std::ptrdiff_t>(along.size()) - 2));
  const double size = along[element + 1] - along[element];
  const Hermite shape = hermite((position_m - along[element]) / size, size);
  double sum = 0.0;
  for (std::size_t a = 0; a < 4; ++a) {
    const std::size_t node = element + a / 2, slope = a % 2;
    const std::size_t i = along_x ? node : inner, j = along_x ? inner : node;
    const double value = dof(i, j, along_x ? slope : 2 * slope);
    const double inward = (far ? -1.0 : 1.0) * dof(i, j, along_x ? 2 + slope : 1 + 2 * slope);
    sum += shape.value[a] * (6.0 * value / (h * h) - 2.0 * inward / h);
  }
  return sum;
}

}  // namespace sunstrain::test
