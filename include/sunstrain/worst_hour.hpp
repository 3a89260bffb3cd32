// The hour that governs an answer and the day that it belongs to, as a picture or a table shows them: with film, at the
// bad end, of the lite that governs. It is the hour that the answer already names, worked once more; it informs.
#pragma once

#include <array>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "sunstrain/pane_map.hpp"

namespace sunstrain {

// The design day in equal steps from local midnight (standard time), values at mid-step.
struct DayCurves {
  std::vector<double> local_hour;
  std::vector<double> middle_k;   // of the lite, in the sun
  std::vector<double> edge_k;     // of the lite, the cut edge; of its bottom edge where that is the stretched one
  std::vector<double> frame_k;    // its outdoor half
  std::vector<double> outdoor_k;  // air
  std::vector<double> sun_w_m2;   // on the pane, all of it: beam, sky, ground and what is reflected over
  double room_k = 0.0;            // air, all day
};

struct WorstHour {
  Case pane;    // what was worked
  Light light;  // how the sun lies on it in that hour (field.hpp), in coordinates of the glass from its lower left
  bool sun_lies = false;  // whether any beam reaches the plane of the pane in that hour
  PaneMap map;
  // Along the cut edge in that hour, indexed by Side: positions from the left or lower end, tensile stress. Bending,
  // and what the full transient in the plane raises (PlaneCheck::raised_by), are in it: the highest is the answer's
  // peak.
  std::array<std::vector<double>, 4> position_m, stress_pa;
  DayCurves day;

  double glass_width_m() const { return pane.width_m + 2.0 * pane.edge.bite_m; }
  double glass_height_m() const { return pane.height_m + 2.0 * pane.edge.bite_m; }
};

// `assessment` as assess() returned it; columns and rows as pane_map() takes them.
WorstHour worst_hour(const Assessment& assessment, const Reference& reference, std::size_t columns, std::size_t rows);

// A rectangle of the glass on which the light is the same, and the share of the beam that reaches it, 0 to 1. Lengths
// from the lower left corner of the glass.
struct LightField {
  double left_m, bottom_m, right_m, top_m;
  double share;
};

// The glass in such rectangles, from left to right and from below; together they are all of it. A slanting border is
// given in `steps` steps.
std::vector<LightField> light_fields(const Light& light, double width_m, double height_m, int steps = 40);

}  // namespace sunstrain
