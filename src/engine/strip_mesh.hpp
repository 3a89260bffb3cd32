// Internal: where the cells of the strip of glass along the edge lie and what each touches.
#pragma once

#include <algorithm>

#include "sunstrain/heat.hpp"

namespace sunstrain::internal {

// The part of the strip that does not change from step to step. All conductances per metre of edge.
struct StripMesh {
  std::vector<double> edge_m;                                  // cells + 1 positions from the cut edge
  std::vector<double> depth_m;                                 // cells
  std::vector<double> width_m;                                 // cells
  std::vector<double> exposed;                                 // share of each cell in front of the sightline
  std::vector<double> corner;                                  // share within the room-side corner (weaker film)
  std::vector<std::vector<double>> conduction_w_mk;            // [lite][cell]: to the next cell
  std::vector<std::vector<double>> outer_contact_w_mk;         // [lite][cell]: its faces to the outer node
  std::vector<std::vector<double>> inner_contact_w_mk;         // [lite][cell]: its faces to the inner node
  std::vector<double> edge_to_outer_w_mk, edge_to_inner_w_mk;  // per lite: cut edge across the clearance
  std::vector<std::vector<double>> spacer_w_mk;                // [cavity][cell]: fixed part (spacer and seals)
  std::vector<std::vector<double>> gap_share;                  // [cavity][cell]: share that faces gas or interlayer
  double joint_area_m = 0.0, joint_resistance_mk_w = 0.0;      // structural silicone's half joint
  const FrameFit* frame = nullptr;
  std::size_t cells() const { return depth_m.size(); }
};

// Length of [a, b] that lies in [from, to].
inline double overlap_m(double a, double b, double from, double to) {
  return std::max(0.0, std::min(b, to) - std::max(a, from));
}

// Where the strip's cells end, from the cut edge inwards.
std::vector<double> strip_edges(const Line& line);
StripMesh strip_mesh(const Line& line);
// The same on other cells: edges ascending from 0, the cut edge.
StripMesh strip_mesh(const Line& line, std::vector<double> edges);

// The frame's fit that goes with the glass.
inline const FrameFit& fit_of(const EdgeSection& edge) { return edge.sealed ? edge.frame.sealed : edge.frame.single; }

// Masonry remembers for days; light frames forget within hours (lags under an hour, see theory.md).
bool is_heavy(const FrameFit& frame);

}  // namespace sunstrain::internal
