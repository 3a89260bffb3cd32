// How the lites of a pane warm and cool over their whole plane while a shadow moves over them: what the strips and the
// softened border of field.hpp stand for, followed in full. theory.md "Plane".
// Every lite is a sheet: rho c t dT/dt = lambda t lap T + exchange + source, with the exchanges, the contacts in the
// bite and the frame's nodes of the strip in heat.hpp, laid along all four sides.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "sunstrain/field.hpp"
#include "sunstrain/heat.hpp"
#include "sunstrain/stress.hpp"

namespace sunstrain {

// Where the cells end, from the cut edges at left and bottom, m; seen from outdoors.
struct PlaneGrid {
  std::vector<double> x_m, y_m;  // cells + 1 each, ascending from 0
  std::size_t columns() const { return x_m.size() - 1; }
  std::size_t rows() const { return y_m.size() - 1; }
  std::size_t cells() const { return columns() * rows(); }  // x runs fastest
};

// Along the edges the cells of the strip, growing inwards up to largest_m; beside the borders of the light never longer
// than border_m, or growth times the distance from the nearest. Every cell is then cut into `cut` along each direction.
struct PlaneFineness {
  double border_m = 0.006, growth = 0.3, largest_m = 0.05;
  int cut = 1;
};
// x_borders_m, y_borders_m: where a border of the light may lie while its stress is asked for. Width and height of the
// glass from cut edge to cut edge, m.
PlaneGrid plane_grid(const Line& line, double glass_width_m, double glass_height_m, std::span<const double> x_borders_m,
                     std::span<const double> y_borders_m, const PlaneFineness& fineness = {});

// The share of the beam that reaches each cell: by the area of it that is lit, borders sharp.
std::vector<double> light_on_cells(const PlaneGrid& grid, const Light& light);

// All lites of a pane, step by step. Second-order backward formula in time; conduction along x and along y and the rest
// solved one after another (approximate factorization in increments, Beam & Warming 1978, Douglas & Gunn 1964), which
// keeps the heat's sum. The exchanges are those of the middle of glass in the sun and of glass in the shade, settled
// with their temperatures as the strips have them, mixed by a cell's light.
class PlaneMarch {
 public:
  // Throws std::invalid_argument for a grid that does not go with the line's strip.
  PlaneMarch(const Line& line, const PlaneGrid& grid);
  ~PlaneMarch();
  PlaneMarch(PlaneMarch&&) noexcept;
  PlaneMarch& operator=(PlaneMarch&&) noexcept;

  // Every cell as the strips have it at its distance from the nearest side in that step, mixed by its light.
  void start(const LineDay& sun, const LineDay& shade, std::size_t step, std::span<const double> light);
  // On by step_s to a moment with these loads, in the sun and in the shade, and this light on the cells (any real
  // number). A step of another length than the one before begins with the one-step formula.
  void step(const StepLoads& sun, const StepLoads& shade, std::span<const double> light, double step_s);

  const PlaneGrid& grid() const;
  std::span<const double> lite_k(std::size_t lite) const;  // mean through the thickness, of each cell
  // Of the step just taken, W: sun taken up less what leaves and is stored, from the temperatures alone; and sun plus
  // gross exchange.
  double residual_w() const;
  double exchanged_w() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// The bottom edge colder by colder_k up to bite_m, fading over fading_m upwards.
struct ColderBottom {
  double colder_k = 0.0, bite_m = 0.0, fading_m = 1.0;
};

// The edge stress of a lite's cells: straight lines between their middles, constant from the outermost ones to the cut
// edge, as the strips' field has it. The solver must live as long, and take fields that do not mirror themselves.
class PlaneStress {
 public:
  PlaneStress(const EdgeStressSolver& solver, const PlaneGrid& grid);
  // cell_k: one value a cell, else std::invalid_argument.
  EdgeStress of(std::span<const double> cell_k, const ColderBottom& bottom = {}) const;

 private:
  struct Place {
    std::size_t below, above;  // columns or rows
    double share;              // of the way between their middles
  };
  static std::vector<Place> places(const std::vector<double>& edges, std::span<const double> positions);
  const EdgeStressSolver* solver_;
  std::size_t columns_, cells_;
  std::vector<Place> x_, y_;  // of each of the solver's points
  std::vector<double> y_m_;
};

}  // namespace sunstrain
