// A second, independent route to the edge stress of a free rectangular pane: the Airy stress function on Hermite
// bicubic elements of a tensor mesh. Find phi, zero with its gradient along the boundary, so that
//   integral lap(phi) lap(v) = -E alpha integral T lap(v)   for all such v;
// the stress along an edge is then the second derivative of phi across it. For tests only.
#pragma once

#include <array>
#include <functional>
#include <vector>

namespace sunstrain::test {

// Lines of a mesh over 0..length: `ends` wide at both ends and `at_lines` wide at the given positions (each a mesh
// line), growing by `growth` away from them, up to `widest`.
struct Grading {
  double ends_m, at_lines_m, growth, widest_m;
};
std::vector<double> graded_lines(double length_m, const std::vector<double>& positions_m, const Grading& grading);
std::vector<double> even_lines(double length_m, int elements);
// Every element cut in two.
std::vector<double> halved(const std::vector<double>& lines);

class AiryPlate {
 public:
  // E alpha in Pa/K.
  AiryPlate(std::vector<double> x_lines, std::vector<double> y_lines, double stress_per_k,
            const std::function<double(double, double)>& temperature);
  // Tension along an edge, side 0 bottom, 1 right, 2 top, 3 left; position from the left or the bottom.
  double edge_stress_pa(int side, double position_m) const;
  int unknowns() const { return unknowns_; }

 private:
  double dof(std::size_t i, std::size_t j, std::size_t kind) const { return phi_[4 * (j * x_.size() + i) + kind]; }
  std::vector<double> x_, y_, phi_;  // per node: phi, phi_x, phi_y, phi_xy
  int unknowns_ = 0;
};

}  // namespace sunstrain::test
