// A frame's section as a file in tests/section/frames says it: what the frame is made of, placed about its glass.
#pragma once

#include <string>
#include <vector>

#include "section.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::test {

// A place beside a line of the glass, so that one file draws the frame about any glass and any bite. Across the pane
// (x, from outdoors) the lines are the glass's outdoor face, its middle and its room face, "out", "middle" and "in";
// along it (y, from the cut edge inwards) the cut edge and the sightline, "edge" and "sight".
struct FramePlace {
  double share;  // where the line is: 0 at the outdoor face or the cut edge, 1 at the room face or the sightline
  double offset_m;
};

// One material, or a cavity whose conductivity follows from its size and its walls' emissivity (ISO 10077-2, 10 K
// between its sides about 10 C, heat flowing from outdoors to the room).
struct FramePart {
  FramePlace x0, x1, y0, y1;
  double conductivity_w_mk;  // 0: a cavity
  double emissivity;
  double heat_j_m3k;  // 0 where the file does not say
};

struct FrameShape {
  FrameKind seals;               // name, seal and joint as a row of reference/frames.toml has them; no numbers
  std::vector<FramePart> parts;  // what lies where two overlap is the later one's
};

// Throws std::runtime_error in one line: file, part, what was wrong, what is allowed.
FrameShape read_frame_shape(const std::string& path);

// The faces of the glass, m from its outdoor face, and the bite.
struct FramedGlass {
  double thickness_m, bite_m;
};
Box place(const FramePart& part, const FramedGlass& glass);
double conductivity_w_mk(const FramePart& part, const FramedGlass& glass);

}  // namespace sunstrain::test
