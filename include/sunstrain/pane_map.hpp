// How warm the governing lite is from place to place in its worst hour: for a picture of the pane.
#pragma once

#include <cstddef>
#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain {

struct PaneMap {
  std::size_t columns = 0, rows = 0;  // the edge's included
  std::vector<double> kelvin;         // [row * columns + column], the first row at the top
  double along = 0.0;                 // where the edge is stretched most, as a share of its side from the left or below
  Side side = Side::bottom;           // which side that is, seen from outdoors
  double at(std::size_t row, std::size_t column) const { return kelvin[row * columns + column]; }
};

// With film, at the bad end, seen from outdoors: the glass that one sees in equal fields, at their middles, and round
// it one field of the cut edge behind the frame. From the strips along the edge and the light as it lies in that hour
// (field.hpp), borders sharp. `assessment` as `assess` returned it. columns and rows, of what one sees, at least 1.
PaneMap pane_map(const Assessment& assessment, const Reference& reference, std::size_t columns, std::size_t rows);

}  // namespace sunstrain
