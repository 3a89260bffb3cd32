// The section of glass in a frame of one solid material, as the rows of reference/frames.toml for such frames were
// fitted to: glass upright, y from its cut edge inwards, x from outdoors.
#pragma once

#include "linear_strip.hpp"
#include "section.hpp"

namespace sunstrain::test {

struct BoxFrame {
  double conductivity_w_mk;
  double depth_single_m, depth_sealed_m;  // outdoors to room
  double visible_m;                       // frame seen from outdoors, from the sightline on
  double outer_leg_m;                     // thickness of what stands before the glass
  double seal_thickness_m, seal_height_m, seal_conductivity_w_mk;
};

// Lites of 6 mm (one or two, 12 mm apart). The spacer as one material, from 5 to 11.5 mm from the cut edge.
struct FrameCase {
  BoxFrame frame;
  bool sealed;
  double bite_m;
  double spacer_conductivity_w_mk;
};

// What outdoors, room, sun in either lite (from the sightline on) and sun on the frame's outer face do to a lite's mean
// temperature over its thickness, at a distance from the cut edge.
Influence section_influence(const FrameCase& of, const Films& films, std::size_t lite, double depth_m);

}  // namespace sunstrain::test
