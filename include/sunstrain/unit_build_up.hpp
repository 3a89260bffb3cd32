// What a sealed unit of a known overall thickness may be made of: "24 mm" is 4-16-4 or 6-12-6.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// Lites and cavities from outdoors, in m; one cavity less than there are lites. A laminated lite's interlayer is not
// in it.
struct BuildUp {
  std::vector<double> lites_m, cavities_m;
};

// "4-16-4", in mm to a hundredth, and back; nothing for a text that is not of that form (two or three lites).
std::string build_up_text(const BuildUp& unit);
std::optional<BuildUp> build_up_of(const std::string& text);

// What `values`, a job's own and what was taken so far, leaves of a unit.
struct BuildUps {
  std::vector<std::string> plausible;  // texts, the thickest lites first; empty: there is no such unit
  std::string likely;                  // one of them
  bool open = false;                   // some lite or cavity is not given
  std::string nearest;                 // of all that were tried, the one nearest to the thickness
  double nearest_m = 0.0;              // its thickness, interlayers included
};

// The build-ups of `panes` lites (2 or 3) whose thickness is "unit.thickness" of `values`, within the reference
// constant unit_thickness_tolerance_m. What is given of lites and cavities stands; open lites are alike and of a
// thickness that is plausible for the pane (the takings of lite.*.thickness; of a pane of any size where none of these
// fits), open cavities alike and as wide as a spacer, the one that comes nearest for each lite. Likely: a usual spacer,
// then what comes nearest, then the lite nearest to the most likely one. The method is ours; the widths are common
// practice.
BuildUps build_ups(const Facts& values, int panes, const Reference& reference);

// Throws BadInput for a completed job of a known unit thickness for which no build-up was found.
void require_build_up(const Job& complete);

// Where `values` hold a "unit.build_up", what is absent of its panes, lites and cavities is filled from it.
void take_apart(Facts& values);

}  // namespace sunstrain
