// Internal: what every cell of a plane touches.
#pragma once

#include <cstdint>

#include "edge_strip.hpp"
#include "sunstrain/plane.hpp"

namespace sunstrain::internal {

// Of how many of the strip's cells from the cut edge something is told but that they are plain open glass.
std::size_t edge_cells(const Line& line, std::span<const double> strip_m);

// A cell in the frame's bite, or under its soft strip.
struct RimCell {
  std::size_t cell;
  double cut_edge_m;                                    // of the glass's own edge along it
  double outer_w_k[most_lites], inner_w_k[most_lites];  // to the frame's outer and inner node
};
// A length of frame and the cells that touch it. Along one side the cells of one row; in a corner the rows of both
// sides that end at one distance from it.
struct RimPlace {
  double length_m = 0.0;
  double outer_w_k = 0.0, inner_w_k = 0.0;  // of its cells in sum
  std::size_t edge_cell = 0;                // at the cut edge: its light tells what the frame exchanges with there
  std::vector<RimCell> cells;
};

// All that does not change from step to step. A cell is of the kind of the strip's cell at its distance from the side
// that it is nearest to.
struct PlaneSheet {
  PlaneSheet(const Line& line, PlaneGrid grid);
  PlaneSheet(const PlaneSheet&) = delete;  // the strips keep an eye on the line
  std::size_t lites() const { return line.glazing.lites.size(); }
  Line line;
  PlaneGrid grid;
  StripRows along_x, along_y;          // strips from the cut edge to the first plain cell
  std::vector<std::uint16_t> kind_of;  // of each cell: the cell of along_x, or past those of along_y
  std::vector<double> area_m2;         // of each cell
  std::vector<bool> in_rim;            // of each cell
  std::vector<RimPlace> rim;
  double stored_j_m2k[most_lites];  // of a lite, half of an interlayer with it
  double diffusivity_m2_s(std::size_t lite) const {
    return line.glazing.material.conductivity_w_mk * line.glazing.lites[lite].thickness_m / stored_j_m2k[lite];
  }
};

}  // namespace sunstrain::internal
