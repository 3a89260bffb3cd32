#include "edge_strip.hpp"

#include <algorithm>
#include <numeric>

namespace sunstrain::internal {

StripRows::StripRows(const Line& of, StripMesh its_mesh)
    : line(&of),
      mesh(std::move(its_mesh)),
      lites(of.glazing.lites.size()),
      cells(mesh.cells()),
      rows(lites * cells),
      streams(std::any_of(of.glazing.cavities.begin(), of.glazing.cavities.end(),
                          [](const ThermalCavity& cavity) { return cavity.opening_m > 0.0; })),
      first_contact(rows),
      to_next_w_mk(rows),
      spacer_w_mk(rows),
      gap_m(rows) {
  const bool bare = !of.edge.frame.outer_lip;
  for (std::size_t i = 0; i < cells; ++i) {
    const std::size_t cell = cells - 1 - i;  // the rows run from the middle to the cut edge
    const double width = mesh.width_m[cell], open = mesh.exposed[cell];
    outdoor_m.push_back(width * (bare ? 1.0 : open));
    room_m.push_back(width * (open - mesh.corner[cell]));
    room_corner_m.push_back(width * mesh.corner[cell]);
    open_m.push_back(width * open);
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const std::size_t row = i * lites + lite;
      double outer = mesh.outer_contact_w_mk[lite][cell], inner = mesh.inner_contact_w_mk[lite][cell];
      if (cell == 0) {
        outer += mesh.edge_to_outer_w_mk[lite];
        inner += mesh.edge_to_inner_w_mk[lite];
      }
      if (first_contact == rows && (outer > 0.0 || inner > 0.0)) first_contact = i * lites;
      if (cell + 1 < cells) to_next_w_mk[row] = mesh.conduction_w_mk[lite][cell];
      const double to_before = cell > 0 ? mesh.conduction_w_mk[lite][cell - 1] : 0.0;
      if (lite > 0) {
        spacer_w_mk[row] = mesh.spacer_w_mk[lite - 1][cell];
        gap_m[row] = mesh.gap_share[lite - 1][cell] * width;
      }
      stored_j_mk.push_back(heat_capacity_j_m2k(of.glazing, lite) * width);
      fixed_w_mk.push_back(to_next_w_mk[row] + to_before + outer + inner);
      bulk_m.push_back(width * (lite == 0 && bare ? 1.0 : open));
      const double from_m = std::max(mesh.edge_m[cell], of.edge.bite_m),
                   to_m = std::min(mesh.edge_m[cell + 1], of.edge.bite_m + of.glazing.rim_m);
      rim_m.push_back(lite == of.glazing.rim_lite ? std::max(0.0, to_m - from_m) : 0.0);
      to_outer_w_mk.push_back(outer);
      to_inner_w_mk.push_back(inner);
    }
  }
  const auto sum = [](const std::vector<double>& each) { return std::accumulate(each.begin(), each.end(), 0.0); };
  outer_sum_w_mk = sum(to_outer_w_mk);
  inner_sum_w_mk = sum(to_inner_w_mk);
  outdoor_sum_m = sum(outdoor_m);
  room_sum_m = sum(room_m);
  corner_sum_m = sum(room_corner_m);
  open_sum_m = sum(open_m);
  rim_sum_m = sum(rim_m);
}

StripSolver::StripSolver(const Line& line, StripMesh mesh)
    : rows_(line, std::move(mesh)),
      scratch_(scratch_for<double>(rows_)),
      temperatures_{std::vector<double>(rows_.rows), {}, 0.0} {}

StripAudit StripSolver::solve(const StepLoads& loads, const CenterBalance& center, StripState& state) {
  const AuditOf<double> found =
      solve_strip<double>(rows_, loads_of(loads), center_of(center), {}, scratch_, temperatures_);
  state.cell_k.resize(rows_.rows);
  for (std::size_t lite = 0; lite < rows_.lites; ++lite)
    for (std::size_t cell = 0; cell < rows_.cells; ++cell)
      state.cell_k[lite * rows_.cells + cell] = temperatures_.row_k[row_of(rows_, lite, cell)];
  std::copy_n(temperatures_.frame_k, 4, state.frame_k.begin());
  return {found.residual_w_m, found.exchanged_w_m};
}

}  // namespace sunstrain::internal
