// The eight numbers of a frame row, fitted to the frame's section: how the rows of reference/frames.toml come about.
#pragma once

#include "frame_section.hpp"

namespace sunstrain::test {

// What the section gives in one case, and the strip that must give it.
struct FitTarget {
  double bite_m;
  Films films;
  std::string spacer;
  std::size_t lites, lite;
  double depth_m;
  Influence whole;
};

// Bites of 12, 16 and 20 mm, 12 and 30 W/m2K outdoors, the cut edge and the sightline; a sealed unit with metal and
// warm spacer, 6.3 and 2 W/m2K across each cavity; the sun in the outer lite and in the inmost one.
std::vector<FitTarget> fit_targets(const FrameShape& shape, std::size_t lites);

// Strip less section, K, in four weathers: -18/21 C in the sun and dark, 32/24 C in the sun, 0/21 C with film on the
// outer lite.
std::vector<double> misses_k(const FrameKind& kind, const std::vector<FitTarget>& targets);
double rms(const std::vector<double>& values);

// Least squares over those, by Levenberg and Marquardt, from the numbers of `start`. What is no part of the eight
// numbers (seal, lip, heat capacity) stays as it is, and what the section hardly tells stays near it. The row is the
// one for a single pane or for a sealed unit, as the targets are.
FrameKind fitted_row(FrameKind start, const std::vector<FitTarget>& targets);

FrameFit& fit_of(FrameKind& kind, bool sealed);

}  // namespace sunstrain::test
