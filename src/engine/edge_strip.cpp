#include "edge_strip.hpp"

#include <algorithm>
#include <cmath>

namespace sunstrain::internal {

StripSolver::StripSolver(const Line& line, StripMesh mesh)
    : line_(&line),
      mesh_(std::move(mesh)),
      lites_(line.glazing.lites.size()),
      rows_(lites_ * mesh_.cells()),
      band_(lites_ <= 4 ? lites_ : most_lites),
      matrix_(rows_ * (band_ + 1)),
      sources_(rows_),
      to_outer_(rows_),
      to_inner_(rows_),
      response_(rows_) {}

// Half the thickness between mean and face on open glass: exact for the heat that goes straight through.
static double half_resistance_m2k_w(const Line& line, std::size_t lite) {
  return 0.5 * line.glazing.lites[lite].thickness_m / line.glazing.material.conductivity_w_mk;
}

void StripSolver::add_surface(std::size_t lite, const Exchange& exchange, double source_w_m2, bool room_side) {
  const double r = half_resistance_m2k_w(*line_, lite);
  const bool bare_to_edge = !room_side && !line_->edge.frame.outer_lip;
  const auto add = [&](std::size_t cell, double area_m, double factor) {
    if (area_m <= 0.0) return;
    const double path = 1.0 + r * factor * exchange.conductance_w_m2k;
    const double u = factor * exchange.conductance_w_m2k / path * area_m;
    matrix_[row(lite, cell) * (band_ + 1)] += u;
    sources_[row(lite, cell)] += u * exchange.temperature_k + source_w_m2 / path * area_m;
  };
  for (std::size_t cell = 0; cell < mesh_.cells(); ++cell) {
    const double width = mesh_.width_m[cell];
    const double corner = room_side ? mesh_.corner[cell] : 0.0;
    const double open = bare_to_edge ? 1.0 : mesh_.exposed[cell] - corner;
    add(cell, width * open, 1.0);
    add(cell, width * corner, line_->edge.room_corner_factor);
  }
}

void StripSolver::add_cavity(std::size_t k, double gas_w_m2k, double source_a, double source_b) {
  const double ra = half_resistance_m2k_w(*line_, k), rb = half_resistance_m2k_w(*line_, k + 1);
  const double u = 1.0 / (ra + 1.0 / gas_w_m2k + rb);
  const double crossing = u * (ra * source_a - rb * source_b);  // what the face sources push across the gap
  for (std::size_t cell = 0; cell < mesh_.cells(); ++cell) {
    const double width = mesh_.width_m[cell];
    const double exchange = mesh_.spacer_w_mk[k][cell] + u * mesh_.gap_share[k][cell] * width;
    const double open = mesh_.exposed[cell] * width;
    const std::size_t a = row(k, cell), b = row(k + 1, cell);
    matrix_[a * (band_ + 1)] += exchange;
    matrix_[b * (band_ + 1)] += exchange;
    matrix_[b * (band_ + 1) + 1] -= exchange;
    sources_[a] += (source_a - crossing) * open;
    sources_[b] += (source_b + crossing) * open;
  }
}

void StripSolver::add_contacts() {
  const std::size_t last = lites_ - 1;
  for (std::size_t cell = 0; cell < mesh_.cells(); ++cell) {
    to_outer_[row(0, cell)] += mesh_.outer_contact_w_mk[cell];
    to_inner_[row(last, cell)] += mesh_.inner_contact_w_mk[cell];
  }
  for (std::size_t lite = 0; lite < lites_; ++lite) {
    to_outer_[row(lite, 0)] += mesh_.edge_to_outer_w_mk[lite];
    to_inner_[row(lite, 0)] += mesh_.edge_to_inner_w_mk[lite];
  }
  for (std::size_t i = 0; i < rows_; ++i) matrix_[i * (band_ + 1)] += to_outer_[i] + to_inner_[i];
}

// The half joint outside structural silicone: film on the joint's face, sun on it, then to the first lite's cut edge.
struct Joint {
  double conductance_w_mk, source_share;
};
static Joint joint_of(const StripMesh& mesh, double outdoor_w_m2k) {
  if (mesh.joint_area_m <= 0.0) return {0.0, 0.0};
  const double film = 1.0 / (mesh.joint_area_m * outdoor_w_m2k);
  return {1.0 / (film + mesh.joint_resistance_mk_w), film / (film + mesh.joint_resistance_mk_w)};
}

void StripSolver::assemble(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage) {
  std::fill(matrix_.begin(), matrix_.end(), 0.0);
  std::fill(sources_.begin(), sources_.end(), 0.0);
  std::fill(to_outer_.begin(), to_outer_.end(), 0.0);
  std::fill(to_inner_.begin(), to_inner_.end(), 0.0);
  const std::size_t cells = mesh_.cells();
  for (std::size_t lite = 0; lite < lites_; ++lite) {
    const double capacity = heat_capacity_j_m2k(line_->glazing, lite);
    const bool bare_to_edge = lite == 0 && !line_->edge.frame.outer_lip;
    for (std::size_t cell = 0; cell < cells; ++cell) {
      const std::size_t i = row(lite, cell);
      const double stored = capacity * mesh_.width_m[cell];
      matrix_[i * (band_ + 1)] += stored * storage.weight_per_s;
      if (storage.weight_per_s > 0.0) sources_[i] += stored * (*storage.cell_history_k_per_s)[lite * cells + cell];
      sources_[i] += loads.absorbed[lite].bulk_w_m2 * mesh_.width_m[cell] * (bare_to_edge ? 1.0 : mesh_.exposed[cell]);
      if (cell + 1 == cells) continue;
      const double g = mesh_.conduction_w_mk[lite][cell];
      const std::size_t next = row(lite, cell + 1);
      matrix_[i * (band_ + 1)] += g;
      matrix_[next * (band_ + 1)] += g;
      matrix_[next * (band_ + 1) + lites_] -= g;
    }
  }
  add_surface(0, center.outdoor, loads.absorbed.front().outer_face_w_m2, false);
  add_surface(lites_ - 1, center.room, loads.absorbed.back().inner_face_w_m2, true);
  for (std::size_t k = 0; k + 1 < lites_; ++k) {
    add_cavity(k, center.cavity_w_m2k[k], loads.absorbed[k].inner_face_w_m2, loads.absorbed[k + 1].outer_face_w_m2);
  }
  const Joint joint = joint_of(mesh_, center.outdoor.conductance_w_m2k);
  matrix_[row(0, 0) * (band_ + 1)] += joint.conductance_w_mk;
  sources_[row(0, 0)] += joint.conductance_w_mk * center.outdoor.temperature_k +
                         joint.source_share * loads.frame_absorbed_w_m2 * mesh_.joint_area_m;
  add_contacts();
}

// L D L^T of the banded symmetric matrix, in place, and the three right-hand sides with it. Every row is diagonally
// dominant, so no pivoting. The band is a constant so that the inner loops unroll.
template <std::size_t band>
void StripSolver::factorize_and_substitute() {
  constexpr std::size_t stride = band + 1;
  double* m = matrix_.data();
  Response* x = response_.data();
  for (std::size_t i = 0; i < rows_; ++i) {
    double* ri = m + i * stride;
    Response value{sources_[i], to_outer_[i], to_inner_[i]};
    const std::size_t left = std::min(i, band);
    for (std::size_t d = left; d >= 1; --d) {
      double l = ri[d];
      for (std::size_t e = d + 1; e <= left; ++e) l -= ri[e] * m[(i - d) * stride + (e - d)];
      ri[d] = l;  // L times D of its column, until the row is done
    }
    for (std::size_t d = 1; d <= left; ++d) {
      const double scaled = ri[d] * m[(i - d) * stride];  // the diagonal is kept as its reciprocal
      ri[0] -= ri[d] * scaled;
      ri[d] = scaled;
      const Response& other = x[i - d];
      value = {value.base - scaled * other.base, value.outer - scaled * other.outer,
               value.inner - scaled * other.inner};
    }
    ri[0] = 1.0 / ri[0];
    x[i] = value;
  }
  for (std::size_t i = rows_; i-- > 0;) {
    const double diagonal = m[i * stride];
    Response value{x[i].base * diagonal, x[i].outer * diagonal, x[i].inner * diagonal};
    for (std::size_t d = 1; d <= band && i + d < rows_; ++d) {
      const double l = m[(i + d) * stride + d];
      const Response& other = x[i + d];
      value = {value.base - l * other.base, value.outer - l * other.outer, value.inner - l * other.inner};
    }
    x[i] = value;
  }
}

// Frame nodes: outer face - outer node - inner node - inner face. The glass is already known as a linear
// answer to the two inner nodes, so four equations remain.
void StripSolver::solve_frame(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage,
                              StripState& state) {
  const FrameFit& f = *mesh_.frame;
  const double ho = center.outdoor.conductance_w_m2k * f.outer_area_m,
               hi = center.open_room.conductance_w_m2k * f.inner_area_m;
  const double g1 = 1.0 / f.outer_resistance_mk_w, g2 = 1.0 / f.inner_resistance_mk_w, g3 = f.middle_conductance_w_mk;
  double a[4][5] = {{ho + g1, -g1, 0, 0, ho * center.outdoor.temperature_k + f.sun_area_m * loads.frame_absorbed_w_m2},
                    {-g1, g1 + g3, -g3, 0, 0},
                    {0, -g3, g3 + g2, -g2, 0},
                    {0, 0, -g2, g2 + hi, hi * center.open_room.temperature_k}};
  for (std::size_t i = 0; i < rows_; ++i) {
    const Response& glass = response_[i];
    a[1][1] += to_outer_[i] * (1.0 - glass.outer);
    a[1][2] -= to_outer_[i] * glass.inner;
    a[1][4] += to_outer_[i] * glass.base;
    a[2][2] += to_inner_[i] * (1.0 - glass.inner);
    a[2][1] -= to_inner_[i] * glass.outer;
    a[2][4] += to_inner_[i] * glass.base;
  }
  for (std::size_t k = 0; k < 4; ++k) {
    a[k][k] += f.capacity_j_mk[k] * storage.weight_per_s;
    if (storage.weight_per_s > 0.0) a[k][4] += f.capacity_j_mk[k] * (*storage.frame_history_k_per_s)[k];
  }
  for (std::size_t p = 0; p < 4; ++p) {  // Gauss elimination; diagonally dominant
    for (std::size_t q = p + 1; q < 4; ++q) {
      const double factor = a[q][p] / a[p][p];
      for (std::size_t c = p; c < 5; ++c) a[q][c] -= factor * a[p][c];
    }
  }
  for (std::size_t p = 4; p-- > 0;) {
    double value = a[p][4];
    for (std::size_t c = p + 1; c < 4; ++c) value -= a[p][c] * state.frame_k[c];
    state.frame_k[p] = value / a[p][p];
  }
}

StripAudit StripSolver::solve(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage,
                              StripState& state) {
  assemble(loads, center, storage);
  switch (band_) {
    case 1:
      factorize_and_substitute<1>();
      break;
    case 2:
      factorize_and_substitute<2>();
      break;
    case 3:
      factorize_and_substitute<3>();
      break;
    case 4:
      factorize_and_substitute<4>();
      break;
    default:
      factorize_and_substitute<most_lites>();
  }
  solve_frame(loads, center, storage, state);
  const std::size_t cells = mesh_.cells();
  state.cell_k.resize(rows_);
  for (std::size_t lite = 0; lite < lites_; ++lite) {
    for (std::size_t cell = 0; cell < cells; ++cell) {
      const Response& glass = response_[row(lite, cell)];
      state.cell_k[lite * cells + cell] = glass.base + glass.outer * state.frame_k[1] + glass.inner * state.frame_k[2];
    }
  }
  return audit(loads, center, storage, state);
}

// What goes in less what goes out and what is stored, worked from the temperatures alone. Exchanges inside
// (spacer, contacts, conduction) cancel in a sound assembly, so any slip in them shows here.
StripAudit StripSolver::audit(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage,
                              const StripState& state) const {
  const std::size_t cells = mesh_.cells(), last = lites_ - 1;
  const bool bare = !line_->edge.frame.outer_lip;
  double in = 0.0, out = 0.0, gross = 0.0, stored = 0.0;
  const auto leave = [&](double watts) {
    out += watts;
    gross += std::abs(watts);
  };
  const double r0 = half_resistance_m2k_w(*line_, 0), rn = half_resistance_m2k_w(*line_, last);
  const double ho = center.outdoor.conductance_w_m2k, hi = center.room.conductance_w_m2k;
  for (std::size_t cell = 0; cell < cells; ++cell) {
    const double width = mesh_.width_m[cell], corner = mesh_.corner[cell] * width;
    const double open0 = bare ? width : mesh_.exposed[cell] * width, open = mesh_.exposed[cell] * width;
    for (std::size_t lite = 0; lite < lites_; ++lite) {
      const FaceSources& s = loads.absorbed[lite];
      in += s.bulk_w_m2 * (lite == 0 ? open0 : open) + s.inner_face_w_m2 * open +
            s.outer_face_w_m2 * (lite == 0 ? open0 : open);
      const double t = state.cell_k[lite * cells + cell];
      if (storage.weight_per_s > 0.0) {
        stored += heat_capacity_j_m2k(line_->glazing, lite) * width *
                  (storage.weight_per_s * t - (*storage.cell_history_k_per_s)[lite * cells + cell]);
      }
    }
    // Face temperature from the mean, then the face's own exchange with its surroundings.
    const double s0 = loads.absorbed.front().outer_face_w_m2, sn = loads.absorbed.back().inner_face_w_m2;
    const double face0 = (state.cell_k[cell] + r0 * (ho * center.outdoor.temperature_k + s0)) / (1.0 + r0 * ho);
    leave(ho * (face0 - center.outdoor.temperature_k) * open0);
    const auto room = [&](double area, double h) {
      const double face =
          (state.cell_k[last * cells + cell] + rn * (h * center.room.temperature_k + sn)) / (1.0 + rn * h);
      leave(h * (face - center.room.temperature_k) * area);
    };
    room(open - corner, hi);
    room(corner, hi * line_->edge.room_corner_factor);
  }
  const FrameFit& f = *mesh_.frame;
  leave(ho * f.outer_area_m * (state.frame_k[0] - center.outdoor.temperature_k));
  leave(center.open_room.conductance_w_m2k * f.inner_area_m * (state.frame_k[3] - center.open_room.temperature_k));
  const Joint joint = joint_of(mesh_, ho);
  leave(joint.conductance_w_mk * (state.cell_k[0] - center.outdoor.temperature_k));
  in += (f.sun_area_m + joint.source_share * mesh_.joint_area_m) * loads.frame_absorbed_w_m2;
  for (std::size_t k = 0; k < 4 && storage.weight_per_s > 0.0; ++k) {
    stored += f.capacity_j_mk[k] * (storage.weight_per_s * state.frame_k[k] - (*storage.frame_history_k_per_s)[k]);
  }
  return {in - out - stored, in + gross};
}

}  // namespace sunstrain::internal
