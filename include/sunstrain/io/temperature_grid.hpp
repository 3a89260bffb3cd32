// A temperature field over a pane as a table of numbers.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/stress.hpp"

namespace sunstrain {

// Bilinear between the coordinates; a coordinate that stands twice makes a jump there.
// x from the left, y from the bottom, both as seen from outdoors; the first is 0, the last the pane's width or height.
struct TemperatureGrid {
  std::vector<double> x_m, y_m;  // ascending
  std::vector<double> celsius;   // [row of y * x_m.size() + column of x]
  double width_m() const { return x_m.back(); }
  double height_m() const { return y_m.back(); }
};

// With coordinates: the first row holds x in m (its first cell is not read), the first column y in m, the other cells
// degrees C. With a pane size given: a plain table such as a thermal camera writes, first row the top of the pane,
// cells at the middles of equal fields; the outermost cells reach to the edge.
// Commas, semicolons or tabs between cells. Throws BadInput: source, row, column, what is wrong.
TemperatureGrid read_temperature_grid(std::string_view text, const std::string& source, std::optional<double> width_m,
                                      std::optional<double> height_m);

// The temperature at a point; on a jump the value on the side of the larger coordinate.
double temperature_c(const TemperatureGrid& grid, double x_m, double y_m);

struct GridStress {
  EdgeStress stress;
  double accuracy_pa;  // estimate: the largest change against modes and quadrature half as fine (10 mm and more from
                       // corners)
};

// The edge stress of the field, resolved as sharply as the field is: every coordinate at which its slope changes is
// a feature a third as wide as the shorter of the two intervals that meet there (2 mm at the least), a jump one of 2
// mm.
GridStress grid_stress(const TemperatureGrid& grid, PaneElasticity elasticity, int points_per_side);

}  // namespace sunstrain
