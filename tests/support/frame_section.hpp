// The section of glass in a frame: what the rows of reference/frames.toml are fitted to. Glass upright, y from its cut
// edge inwards, x from its outdoor face.
#pragma once

#include "frame_shape.hpp"
#include "linear_strip.hpp"

namespace sunstrain::test {

// Lites of 6 mm (one to three, 12 mm apart). A spacer is one material, from 5 to 11.5 mm from the cut edge.
struct FrameCase {
  const FrameShape& shape;
  std::size_t lites;
  double bite_m;
  const Spacer& spacer;
};

struct LitePlace {
  std::size_t lite;
  double depth_m;
};

// At each place, what outdoors, room, sun in the outer lite, in the inmost one, and sun on the frame's outer face do to
// the lite's mean temperature over its thickness. The sun in a lite begins where outdoors sees it: at the sightline,
// for the outer lite of structural silicone at its cut edge.
std::vector<Influence> section_influences(const FrameCase& of, const Films& films,
                                          const std::vector<LitePlace>& places);

// What outdoor air that swings once a day does there: amplitude over the steady answer, lag.
struct EdgeSwing {
  double amplitude, lag_min;
};
EdgeSwing section_swing(const FrameCase& of, const Films& films, const LitePlace& place);

// Thermal transmittance of the frame alone, W/m2K of its visible face, as ISO 10077-2 takes it: a panel of 0.035 W/mK
// in place of the glass, 190 mm of it seen, 0.04 and 0.13 m2K/W on plane faces.
double section_frame_u_w_m2k(const FrameShape& shape, double glass_thickness_m, double bite_m);

}  // namespace sunstrain::test
