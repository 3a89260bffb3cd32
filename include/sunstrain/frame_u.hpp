// A frame of a kind's build whose own thermal transmittance is known.
#pragma once

#include "sunstrain/reference.hpp"

namespace sunstrain {

// Thermal transmittances, W/m2K, that a frame of this build may have: half to twice its section's own, and where metal
// halves are joined not so much that the joint would have to conduct more than four times as well. Judgement: within
// that the row stays as near to its section as tests/unit/frame_u_test.cpp says.
// Throws std::invalid_argument where the kind has no transmittance of its own (FrameKind::body none).
struct FrameURange {
  double lowest_w_m2k, highest_w_m2k;
};
FrameURange frame_u_range(const FrameKind& kind, bool sealed);

// The eight numbers of such a frame. R, the row's resistance from outdoors to the room with the films of ISO 10077-2
// (0.04 and 0.13 m2K/W), becomes R U0/U:
//   halves   by the link between the metal halves alone, which is what a thermal break changes;
//   solid    by the body's conductivity, to 1/m of what it was: resistances and contacts go as m, and the faces, fed
//            by the body from beside the glass as a fin is, as 1/sqrt(m). With F the films and S the rest of R:
//            F sqrt(m) + S m = R U0/U.
// Derived here and held to sections of other conductivity. Throws std::invalid_argument outside the range.
FrameFit with_frame_u(const FrameKind& kind, bool sealed, double u_w_m2k);

}  // namespace sunstrain
