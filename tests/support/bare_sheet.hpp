// A sheet of glass that loses heat to the air and has no frame: for closed forms of conduction in a plane. Its cut
// edges are insulated, its back too; the beam warms it evenly through its thickness.
#pragma once

#include <functional>

#include "../../src/engine/plane_step.hpp"
#include "support/heat_lines.hpp"

namespace sunstrain::test {

inline constexpr double air_k = 300.0;

class BareSheet {
 public:
  BareSheet(const PlaneGrid& cells, double loss_w_m2k, double sun_w_m2)
      : line_(insulated()), sheet_(line_, cells), stepper_(sheet_), sun_w_m2_(sun_w_m2) {
    shade_.center.outdoor = {loss_w_m2k, air_k};
    shade_.center.room = {0.0, air_k};
    shade_.center.open_room = {1.0, air_k};  // of the frame, which the glass does not touch
    sun_ = shade_;
    sun_.loads.bulk_w_m2[0] = sun_w_m2;
    now_.cell_k.assign(grid().cells(), air_k);
    now_.frame_k.assign(sheet_.rim.size(), {air_k, air_k, air_k, air_k});
  }
  const PlaneGrid& grid() const { return sheet_.grid; }
  // The cells that a pane of that size would have.
  static PlaneGrid graded(double width_m, double height_m, const PlaneFineness& fineness,
                          std::span<const double> x_borders_m = {}, std::span<const double> y_borders_m = {}) {
    return plane_grid(insulated(), width_m, height_m, x_borders_m, y_borders_m, fineness);
  }
  static PlaneGrid even(double width_m, double height_m, int columns, int rows) {
    PlaneGrid grid;
    for (int i = 0; i <= columns; ++i) grid.x_m.push_back(width_m * i / columns);
    for (int j = 0; j <= rows; ++j) grid.y_m.push_back(height_m * j / rows);
    return grid;
  }
  double diffusivity_m2_s() const { return sheet_.diffusivity_m2_s(0); }
  // Rate of loss, 1/s: half the sheet lies between its mean and the air's film.
  double loss_per_s() const {
    const double h = shade_.center.outdoor.conductance_w_m2k;
    return h / (1.0 + half_resistance() * h) / sheet_.stored_j_m2k[0];
  }
  double sun_k_s() const { return sun_w_m2_ / sheet_.stored_j_m2k[0]; }
  double x_m(std::size_t i) const { return 0.5 * (grid().x_m[i] + grid().x_m[i + 1]); }
  double y_m(std::size_t j) const { return 0.5 * (grid().y_m[j] + grid().y_m[j + 1]); }

  void set(const std::function<double(double, double)>& above_air_k) {
    for (std::size_t c = 0; c < grid().cells(); ++c)
      now_.cell_k[c] = air_k + above_air_k(x_m(c % grid().columns()), y_m(c / grid().columns()));
    steps_ = 0;
  }
  void step(std::span<const double> light, double step_s) {
    const bool first = steps_++ == 0;
    stepper_.take({(first ? 1.0 : 1.5) / step_s, (first ? 1.0 : 2.0) / step_s, (first ? 0.0 : 0.5) / step_s, &sun_,
                   &shade_, light, &now_, first ? &now_ : &before_},
                  next_);
    std::swap(before_, now_);
    std::swap(now_, next_);
  }
  double above_air_k(std::size_t i, std::size_t j) const { return now_.cell_k[j * grid().columns() + i] - air_k; }
  // Largest difference from what it should be, over all cells.
  double worst_k(const std::function<double(double, double)>& expected_above_air_k) const {
    double worst = 0.0;
    for (std::size_t j = 0; j < grid().rows(); ++j)
      for (std::size_t i = 0; i < grid().columns(); ++i)
        worst = std::max(worst, std::abs(above_air_k(i, j) - expected_above_air_k(x_m(i), y_m(j))));
    return worst;
  }

 private:
  static Line insulated() {
    Line line = heat_lines::line("aluminum", "metal", 0.002, 1);
    line.edge.frame.outer_lip = false;  // the outdoor face is bare to the cut edge
    line.edge.frame.seal_conductivity_w_mk = line.edge.pocket_conductivity_w_mk = 1e-12;
    line.edge.frame.soft_strip_to_m = line.edge.frame.joint_area_m = 0.0;
    return line;
  }
  double half_resistance() const { return internal::half_resistance_m2k_w(line_.glazing, 0); }

  Line line_;
  internal::PlaneSheet sheet_;
  internal::PlaneStepper stepper_;
  internal::PlaneLight sun_{}, shade_{};
  internal::PlaneState now_, before_, next_;
  double sun_w_m2_;
  int steps_ = 0;
};

}  // namespace sunstrain::test
