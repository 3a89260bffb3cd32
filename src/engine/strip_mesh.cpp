// Where the cells of the strip lie and what each touches.
#include <algorithm>
#include <cmath>

#include "edge_strip.hpp"

namespace sunstrain::internal {
namespace {

// Face to mean through a third of the thickness: at the edge, where heat turns from the face into the
// sheet, this reproduces the two-dimensional section better than half the thickness does.
double turning_resistance_m2k_w(const Line& line, std::size_t lite) {
  return line.glazing.lites[lite].thickness_m / (3.0 * line.glazing.material.conductivity_w_mk);
}

// Contact of one cell's face with a frame node: the seal next to the sightline, still air in the pocket below it.
double contact_w_mk(const Line& line, const StripMesh& mesh, std::size_t cell, std::size_t lite,
                    double near_glass_m2k_w) {
  const FrameKind& frame = line.edge.frame;
  const double bite_m = line.edge.bite_m;
  const double seal_m = frame.seal_height_m > 0.0 ? std::min(frame.seal_height_m, bite_m) : bite_m;
  const double in_seal = overlap_m(mesh.edge_m[cell], mesh.edge_m[cell + 1], bite_m - seal_m, bite_m);
  const double in_pocket = overlap_m(mesh.edge_m[cell], mesh.edge_m[cell + 1], 0.0, bite_m - seal_m);
  const double rest = turning_resistance_m2k_w(line, lite) + near_glass_m2k_w;
  return in_seal / (frame.seal_thickness_m / frame.seal_conductivity_w_mk + rest) +
         in_pocket / (frame.seal_thickness_m / line.edge.pocket_conductivity_w_mk + rest);
}

// Structural silicone: beyond the bite a soft strip still lies between the room face and the frame.
double soft_strip_w_mk(const Line& line, const StripMesh& mesh, std::size_t cell, std::size_t lite,
                       double near_glass_m2k_w) {
  const FrameKind& frame = line.edge.frame;
  const double length = overlap_m(mesh.edge_m[cell], mesh.edge_m[cell + 1], line.edge.bite_m, frame.soft_strip_to_m);
  if (length <= 0.0) return 0.0;
  return length / (frame.soft_strip_resistance_m2k_w + turning_resistance_m2k_w(line, lite) + near_glass_m2k_w);
}

// The pane's outer face touches the outer node, its room face the inner one; a panel both faces of the half it stands
// in.
void lay_contacts(const Line& line, StripMesh& mesh) {
  const std::size_t lites = line.glazing.lites.size(), first = line.edge.panels_outdoors,
                    last = lites - 1 - line.edge.panels_indoors;
  const FrameFit& fit = *mesh.frame;
  for (std::size_t lite = 0; lite < lites; ++lite) {
    std::vector<double> outer, inner;
    for (std::size_t cell = 0; cell < mesh.cells(); ++cell) {
      const double to_outer = contact_w_mk(line, mesh, cell, lite, fit.outer_contact_m2k_w),
                   to_inner = contact_w_mk(line, mesh, cell, lite, fit.inner_contact_m2k_w);
      outer.push_back(lite < first ? 2.0 * to_outer : lite == first && line.edge.frame.outer_lip ? to_outer : 0.0);
      inner.push_back(lite > last    ? 2.0 * to_inner
                      : lite == last ? to_inner + soft_strip_w_mk(line, mesh, cell, last, fit.inner_contact_m2k_w)
                                     : 0.0);
    }
    mesh.outer_contact_w_mk.push_back(std::move(outer));
    mesh.inner_contact_w_mk.push_back(std::move(inner));
    const double across =
        line.edge.pocket_conductivity_w_mk / line.edge.edge_clearance_m * line.glazing.lites[lite].thickness_m;
    const Glazing::Joined whole = line.glazing.joined(lite);  // plies of a single lite share its edge between them
    const bool alone = whole.first == first && whole.last == last;
    const bool outermost = lite < first || (alone ? lite == first : whole.first == first),
               innermost = lite > last || (alone ? lite == last : whole.last == last);
    const double outer_share = outermost && innermost ? 0.5 : outermost ? 1.0 : innermost ? 0.0 : 0.5;
    // Structural silicone has no frame outdoors: what leaves the outer lite's cut edge crosses the joint.
    mesh.edge_to_outer_w_mk.push_back(line.edge.frame.outer_lip ? outer_share * across : 0.0);
    mesh.edge_to_inner_w_mk.push_back((1.0 - outer_share) * across);
  }
  mesh.joint_area_m = line.edge.frame.joint_area_m;
  mesh.joint_resistance_mk_w = line.edge.frame.joint_resistance_mk_w;
}

// Between the lites, from the cut edge: outer seal, then the spacer between its two butyl beads, then gas; between the
// plies of a laminated one its interlayer.
void lay_spacers(const Line& line, StripMesh& mesh) {
  const EdgeSection& edge = line.edge;
  for (std::size_t k = 0; k < line.glazing.cavities.size(); ++k) {
    if (line.glazing.cavities[k].solid()) {  // an interlayer reaches to the cut edge
      mesh.spacer_w_mk.emplace_back(mesh.cells(), 0.0);
      mesh.gap_share.emplace_back(mesh.cells(), 1.0);
      continue;
    }
    if (line.glazing.cavities[k].apart) {  // air down to the sightline
      mesh.spacer_w_mk.emplace_back(mesh.cells(), 0.0);
      mesh.gap_share.push_back(mesh.exposed);
      continue;
    }
    const double s = line.glazing.cavities[k].width_m;
    const double rest = turning_resistance_m2k_w(line, k) + turning_resistance_m2k_w(line, k + 1);
    const double seal = s / edge.spacer.seal_conductivity_w_mk + rest;
    const double spacer = edge.butyl_thickness_m / edge.butyl_conductivity_w_mk +
                          (s - edge.butyl_thickness_m) / edge.spacer.conductivity_w_mk + rest;
    std::vector<double> fixed, gas;
    for (std::size_t cell = 0; cell < mesh.cells(); ++cell) {
      const double a = mesh.edge_m[cell], b = mesh.edge_m[cell + 1];
      fixed.push_back(overlap_m(a, b, 0.0, edge.spacer_from_m) / seal +
                      overlap_m(a, b, edge.spacer_from_m, edge.spacer_to_m) / spacer);
      gas.push_back(overlap_m(a, b, edge.spacer_to_m, 1e9) / (b - a));
    }
    mesh.spacer_w_mk.push_back(std::move(fixed));
    mesh.gap_share.push_back(std::move(gas));
  }
}

}  // namespace

bool is_heavy(const FrameFit& frame) {
  constexpr double heavy_j_mk = 10e3;
  double held = 0.0;
  for (double capacity : frame.capacity_j_mk) held += capacity;
  return held >= heavy_j_mk;
}

// Fine where the temperature bends (the bite and the first centimeter of open glass), then growing to the middle:
// past 100 mm from the sightline nothing of the frame is felt (99 % of the change).
std::vector<double> strip_edges(const Line& line) {
  constexpr double bite_cell_m = 0.0016, first_open_m = 0.0016, growth = 1.3, largest_m = 0.03, reach_m = 0.2;
  const double bite_m = line.edge.bite_m;
  std::vector<double> edges{0.0};
  const int bite_cells = std::max(2, static_cast<int>(std::ceil(bite_m / bite_cell_m)));
  for (int i = 1; i <= bite_cells; ++i) edges.push_back(bite_m * i / bite_cells);
  double size_m = first_open_m;
  while (edges.back() < bite_m + reach_m) {
    edges.push_back(edges.back() + size_m);
    if (edges.size() > static_cast<std::size_t>(bite_cells) + 4) size_m = std::min(largest_m, size_m * growth);
  }
  return edges;
}

StripMesh strip_mesh(const Line& line) { return strip_mesh(line, strip_edges(line)); }

StripMesh strip_mesh(const Line& line, std::vector<double> edges) {
  StripMesh mesh;
  mesh.frame = &fit_of(line.edge);
  mesh.edge_m = std::move(edges);
  const double bite_m = line.edge.bite_m;
  for (std::size_t cell = 0; cell + 1 < mesh.edge_m.size(); ++cell) {
    const double a = mesh.edge_m[cell], b = mesh.edge_m[cell + 1];
    mesh.depth_m.push_back(0.5 * (a + b));
    mesh.width_m.push_back(b - a);
    mesh.exposed.push_back(overlap_m(a, b, bite_m, 1e9) / (b - a));
    mesh.corner.push_back(overlap_m(a, b, bite_m, bite_m + line.edge.room_corner_length_m) / (b - a));
  }
  for (const ThermalLite& lite : line.glazing.lites) {
    std::vector<double> conduction;
    for (std::size_t cell = 0; cell + 1 < mesh.cells(); ++cell) {
      conduction.push_back(line.glazing.material.conductivity_w_mk * lite.thickness_m /
                           (mesh.depth_m[cell + 1] - mesh.depth_m[cell]));
    }
    mesh.conduction_w_mk.push_back(std::move(conduction));
  }
  lay_contacts(line, mesh);
  lay_spacers(line, mesh);
  return mesh;
}

}  // namespace sunstrain::internal
