// The energy of a step of a plane, from the temperatures alone.
#include <cmath>

#include "plane_step.hpp"

namespace sunstrain::internal {
namespace {

// Areas of cells under one light, and area times temperature, by what they meet.
struct Areas {
  double outdoor_m2, room_m2, corner_m2, open_m2, rim_m2, outdoor_k_m2, room_k_m2, corner_k_m2;
  double open_k_m2[most_lites];  // of each lite
};

struct Both {
  Areas sun, shade;
};

Both sum_cells(const PlaneSheet& sheet, std::span<const double> light, const PlaneState& state) {
  const std::size_t cells = sheet.grid.cells(), last = sheet.lites() - 1;
  Both sums{};
  for (std::size_t cell = 0; cell < cells; ++cell) {
    const std::size_t kind = sheet.kind_of[cell];
    const bool x = kind < sheet.along_x.cells;
    const StripRows& rows = x ? sheet.along_x : sheet.along_y;
    const std::size_t depth = x ? kind : kind - sheet.along_x.cells, at = rows.cells - 1 - depth;
    const double first_k = state.cell_k[cell], last_k = state.cell_k[last * cells + cell];
    const auto add = [&](Areas& sum, double share) {
      const double m = share * sheet.area_m2[cell] / rows.mesh.width_m[depth];
      sum.outdoor_m2 += m * rows.outdoor_m[at];
      sum.room_m2 += m * rows.room_m[at];
      sum.corner_m2 += m * rows.room_corner_m[at];
      sum.open_m2 += m * rows.open_m[at];
      sum.rim_m2 += m * rows.rim_m[at * rows.lites + rows.line->glazing.rim_lite];
      sum.outdoor_k_m2 += m * rows.outdoor_m[at] * first_k;
      sum.room_k_m2 += m * rows.room_m[at] * last_k;
      sum.corner_k_m2 += m * rows.room_corner_m[at] * last_k;
      for (std::size_t lite = 0; lite <= last; ++lite)
        sum.open_k_m2[lite] += m * rows.open_m[at] * state.cell_k[lite * cells + cell];
    };
    add(sums.sun, light[cell]);
    add(sums.shade, 1.0 - light[cell]);
  }
  return sums;
}

// What goes in and out, and the size of all that goes.
struct Flows {
  double in_w = 0.0, out_w = 0.0, gross_w = 0.0;
  void leave(double watts) {
    out_w += watts;
    gross_w += std::abs(watts);
  }
};

void of_cells(const PlaneSheet& sheet, const PlaneLight& light, const Areas& sums, Flows& flows) {
  const Glazing& glazing = sheet.line.glazing;
  const std::size_t last = sheet.lites() - 1;
  const LoadsOf<double>& loads = light.loads;
  const auto surface = [&](double r, const ExchangeOf<double>& e, double factor, double source, double k_m2,
                           double m2) {
    flows.leave(given_by_face<double>(r, factor * e.conductance_w_m2k, e.temperature_k, source, k_m2, m2));
  };
  const double rn = half_resistance_m2k_w(glazing, last), room_source = loads.inner_face_w_m2[last];
  surface(half_resistance_m2k_w(glazing, 0), light.center.outdoor, 1.0, loads.outer_face_w_m2[0], sums.outdoor_k_m2,
          sums.outdoor_m2);
  surface(rn, light.center.room, 1.0, room_source, sums.room_k_m2, sums.room_m2);
  surface(rn, light.center.room, sheet.line.edge.room_corner_factor, room_source, sums.corner_k_m2, sums.corner_m2);
  for (std::size_t lite = 0; lite <= last; ++lite)
    flows.in_w += (loads.bulk_w_m2[lite] + loads.outer_face_w_m2[lite]) * (lite == 0 ? sums.outdoor_m2 : sums.open_m2) +
                  loads.inner_face_w_m2[lite] * sums.open_m2;
  flows.in_w -= sums.rim_m2 * loads.rim_less_w_m2;
  for (std::size_t k = 0; k < last; ++k)
    if (glazing.cavities[k].opening_m > 0.0)
      flows.leave(given_to_stream<double>(glazing, k, loads, light.center, sums.open_k_m2[k], sums.open_k_m2[k + 1],
                                          sums.open_m2));
}

void of_frame(const PlaneSheet& sheet, const PlaneLight& light, double share, double length_m,
              const std::array<double, 4>& frame_k, Flows& flows) {
  const FrameFit& fit = *sheet.along_x.mesh.frame;
  const CenterOf<double>& c = light.center;
  const double m = share * length_m;
  flows.leave(m * c.outdoor.conductance_w_m2k * fit.outer_area_m * (frame_k[0] - c.outdoor.temperature_k));
  flows.leave(m * c.open_room.conductance_w_m2k * fit.inner_area_m * (frame_k[3] - c.open_room.temperature_k));
  flows.in_w += m * fit.sun_area_m * light.loads.frame_absorbed_w_m2;
}

void of_joint(const PlaneSheet& sheet, const PlaneLight& light, double share, double length_m, double edge_k,
              Flows& flows) {
  const StripMesh& mesh = sheet.along_x.mesh;
  const JointOf<double> joint = joint_of<double>(mesh, light.center.outdoor.conductance_w_m2k);
  flows.leave(share * length_m * joint.conductance_w_mk * (edge_k - light.center.outdoor.temperature_k));
  flows.in_w += share * length_m * joint.source_share * mesh.joint_area_m * light.loads.frame_absorbed_w_m2;
}

}  // namespace

double held_j(const PlaneSheet& sheet, const PlaneState& state) {
  const std::size_t cells = sheet.grid.cells();
  double held = 0.0;
  for (std::size_t lite = 0; lite < sheet.lites(); ++lite) {
    double sum = 0.0;
    for (std::size_t cell = 0; cell < cells; ++cell) sum += sheet.area_m2[cell] * state.cell_k[lite * cells + cell];
    held += sheet.stored_j_m2k[lite] * sum;
  }
  for (std::size_t p = 0; p < sheet.rim.size(); ++p)
    for (std::size_t n = 0; n < 4; ++n)
      held += sheet.rim[p].length_m * sheet.along_x.mesh.frame->capacity_j_mk[n] * state.frame_k[p][n];
  return held;
}

PlaneAudit audit(const PlaneSheet& sheet, const PlaneStep& step, const PlaneState& next) {
  const Both sums = sum_cells(sheet, step.light, next);
  Flows flows;
  of_cells(sheet, *step.sun, sums.sun, flows);
  of_cells(sheet, *step.shade, sums.shade, flows);
  for (std::size_t p = 0; p < sheet.rim.size(); ++p) {
    const RimPlace& place = sheet.rim[p];
    const double light = step.light[place.edge_cell];
    of_frame(sheet, *step.sun, light, place.length_m, next.frame_k[p], flows);
    of_frame(sheet, *step.shade, 1.0 - light, place.length_m, next.frame_k[p], flows);
    for (const RimCell& rim : place.cells) {
      if (rim.cut_edge_m == 0.0) continue;
      of_joint(sheet, *step.sun, step.light[rim.cell], rim.cut_edge_m, next.cell_k[rim.cell], flows);
      of_joint(sheet, *step.shade, 1.0 - step.light[rim.cell], rim.cut_edge_m, next.cell_k[rim.cell], flows);
    }
  }
  const double stored_w =
      step.weight_per_s * next.held_j - step.one_per_s * step.one->held_j + step.two_per_s * step.two->held_j;
  return {flows.in_w - flows.out_w - stored_w, flows.in_w + flows.gross_w};
}

}  // namespace sunstrain::internal
