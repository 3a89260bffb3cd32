// The strip of glass from the cut edge to the middle, with the frame's nodes, in one step: for one strip or for several
// side by side (R a double or Lanes). Internal.
#pragma once

#include "center.hpp"
#include "strip_mesh.hpp"

namespace sunstrain::internal {

// Temperatures of a strip: rows from the middle to the cut edge, the lites of a cell one after another; frame: outer
// face, outer node, inner node, inner face.
template <class R>
struct StripTemperatures {
  std::vector<R> row_k;
  R frame_k[4];
  R held_j_m;  // heat, from 0 K
};

template <class R>
struct AuditOf {
  R residual_w_m, exchanged_w_m;
};

// How each node stores heat over the step: rate = capacity (weight T - history), history = one T1 - two T2 of the two
// states before.
template <class R>
struct StripHistory {
  double weight_per_s = 0.0, one_per_s = 0.0, two_per_s = 0.0;
  const StripTemperatures<R>*one = nullptr, *two = nullptr;
};

// What does not change from step to step, row by row.
struct StripRows {
  explicit StripRows(const Line& line, StripMesh mesh);
  const Line* line;
  StripMesh mesh;
  std::size_t lites, cells, rows;
  std::size_t first_contact;  // rows before it touch no frame node
  std::vector<double> stored_j_mk, fixed_w_mk, to_outer_w_mk, to_inner_w_mk, to_next_w_mk, bulk_m;
  std::vector<double> spacer_w_mk, gap_m;                        // to the lite before in the same cell
  std::vector<double> outdoor_m, room_m, room_corner_m, open_m;  // per cell, in the order of the rows
  double outer_sum_w_mk = 0.0, inner_sum_w_mk = 0.0;
  double outdoor_sum_m = 0.0, room_sum_m = 0.0, corner_sum_m = 0.0, open_sum_m = 0.0;
};

// The step's exchanges as each row feels them: a conductance per area, and what flows in at 0 K.
template <class R>
struct Felt {
  R outdoor, outdoor_in, room, room_in, corner, corner_in;
  R cavity[most_lites], from_before[most_lites], from_after[most_lites];
  R joint_w_mk, joint_in_w_m;
};

// The half joint outside structural silicone: film on the joint's face, sun on it, then to the first lite's cut edge.
template <class R>
struct JointOf {
  R conductance_w_mk, source_share;
};
template <class R>
SUNSTRAIN_INLINE JointOf<R> joint_of(const StripMesh& mesh, const R& outdoor_w_m2k) {
  if (mesh.joint_area_m <= 0.0) return {R{}, R{}};
  const R film = 1.0 / (mesh.joint_area_m * outdoor_w_m2k);
  return {1.0 / (film + mesh.joint_resistance_mk_w), film / (film + mesh.joint_resistance_mk_w)};
}

template <class R>
SUNSTRAIN_INLINE void feel(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& c, Felt<R>& f) {
  const Glazing& glazing = s.line->glazing;
  const std::size_t last = s.lites - 1;
  const auto surface = [](double r, const R& h, const R& t, const R& source, R& conductance, R& in) {
    const R path = 1.0 + r * h;
    conductance = h / path;
    in = (h * t + source) / path;
  };
  surface(half_resistance_m2k_w(glazing, 0), c.outdoor.conductance_w_m2k, c.outdoor.temperature_k,
          loads.outer_face_w_m2[0], f.outdoor, f.outdoor_in);
  const double r_last = half_resistance_m2k_w(glazing, last);
  surface(r_last, c.room.conductance_w_m2k, c.room.temperature_k, loads.inner_face_w_m2[last], f.room, f.room_in);
  surface(r_last, s.line->edge.room_corner_factor * c.room.conductance_w_m2k, c.room.temperature_k,
          loads.inner_face_w_m2[last], f.corner, f.corner_in);
  for (std::size_t k = 0; k < last; ++k) {
    const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
    const R &sa = loads.inner_face_w_m2[k], &sb = loads.outer_face_w_m2[k + 1];
    f.cavity[k] = 1.0 / (ra + 1.0 / c.cavity_w_m2k[k] + rb);
    const R crossing = f.cavity[k] * (ra * sa - rb * sb);  // what the face sources push across the gap
    f.from_after[k] = sa - crossing;
    f.from_before[k + 1] = sb + crossing;
  }
  const JointOf<R> joint = joint_of<R>(s.mesh, c.outdoor.conductance_w_m2k);
  f.joint_w_mk = joint.conductance_w_mk;
  f.joint_in_w_m = joint.conductance_w_mk * c.outdoor.temperature_k +
                   joint.source_share * loads.frame_absorbed_w_m2 * s.mesh.joint_area_m;
}

// Storage that is used again from step to step.
template <class R>
struct StripScratch {
  std::vector<R> lower, inverse, base, outer, inner;
};

// Sums that take the glass out of the frame's equations.
template <class R>
struct GlassOnFrame {
  R outer_outer, outer_inner, inner_inner, outer_base, inner_base;
};

// L D L^T of the banded symmetric matrix from the middle to the cut edge, the right-hand side with it, and from
// first_contact on the two columns of the frame's inner nodes. Diagonally dominant, so no pivoting.
template <std::size_t fixed, class R>
SUNSTRAIN_INLINE GlassOnFrame<R> eliminate(const StripRows& s, const LoadsOf<R>& loads, const Felt<R>& f,
                                           const StripHistory<R>& past, StripScratch<R>& scratch) {
  const std::size_t lites = fixed > 0 ? fixed : s.lites;  // a constant where it can be, so that the inner loops unroll
  GlassOnFrame<R> sums{};
  const double weight = past.weight_per_s;
  R *lower = scratch.lower.data(), *inverse = scratch.inverse.data(), *base = scratch.base.data();
  R *outer = scratch.outer.data(), *inner = scratch.inner.data();
  for (std::size_t cell = 0, row = 0; cell < s.cells; ++cell) {
    for (std::size_t lite = 0; lite < lites; ++lite, ++row) {
      R diagonal = R{} + (s.fixed_w_mk[row] + s.stored_j_mk[row] * weight);
      R value = s.bulk_m[row] * loads.bulk_w_m2[lite];
      if (weight > 0.0)
        value += s.stored_j_mk[row] * (past.one_per_s * past.one->row_k[row] - past.two_per_s * past.two->row_k[row]);
      R a[(fixed > 0 ? fixed : most_lites) + 1];  // to the rows before: L times D, until the row is done
      for (std::size_t d = 1; d <= lites; ++d) a[d] = R{};
      if (lite == 0) {
        diagonal += s.outdoor_m[cell] * f.outdoor;
        value += s.outdoor_m[cell] * f.outdoor_in;
      } else {
        const R across = s.spacer_w_mk[row] + s.gap_m[row] * f.cavity[lite - 1];
        diagonal += across;
        a[1] = -across;
        value += s.open_m[cell] * f.from_before[lite];
      }
      if (lite + 1 == lites) {
        diagonal += s.room_m[cell] * f.room + s.room_corner_m[cell] * f.corner;
        value += s.room_m[cell] * f.room_in + s.room_corner_m[cell] * f.corner_in;
      } else {
        diagonal += s.spacer_w_mk[row + 1] + s.gap_m[row + 1] * f.cavity[lite];
        value += s.open_m[cell] * f.from_after[lite];
      }
      if (cell + 1 == s.cells && lite == 0) {
        diagonal += f.joint_w_mk;
        value += f.joint_in_w_m;
      }
      if (cell > 0) a[lites] = R{} - s.to_next_w_mk[row];
      const std::size_t left = row < lites ? row : lites;
      for (std::size_t d = left; d >= 1; --d)
        for (std::size_t e = d + 1; e <= left; ++e) a[d] -= a[e] * lower[(row - d) * lites + (e - d) - 1];
      for (std::size_t d = 1; d <= left; ++d) {
        const R scaled = a[d] * inverse[row - d];
        diagonal -= a[d] * scaled;
        value -= scaled * base[row - d];
        lower[row * lites + d - 1] = scaled;
      }
      inverse[row] = 1.0 / diagonal;
      base[row] = value;
      if (row < s.first_contact) continue;
      R to_outer = R{} + s.to_outer_w_mk[row], to_inner = R{} + s.to_inner_w_mk[row];
      for (std::size_t d = 1; d <= left && row - d >= s.first_contact && row >= d; ++d) {
        to_outer -= lower[row * lites + d - 1] * outer[row - d];
        to_inner -= lower[row * lites + d - 1] * inner[row - d];
      }
      outer[row] = to_outer;
      inner[row] = to_inner;
      const R by_outer = to_outer * inverse[row], by_inner = to_inner * inverse[row];
      sums.outer_outer += by_outer * to_outer;
      sums.outer_inner += by_outer * to_inner;
      sums.inner_inner += by_inner * to_inner;
      sums.outer_base += by_outer * value;
      sums.inner_base += by_inner * value;
    }
  }
  return sums;
}

// Outer face - outer node - inner node - inner face, the glass already taken out: four equations in a row.
template <class R>
SUNSTRAIN_INLINE void solve_frame(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& c,
                                  const StripHistory<R>& past, const GlassOnFrame<R>& glass, R* frame_k) {
  const FrameFit& fit = *s.mesh.frame;
  const R ho = fit.outer_area_m * c.outdoor.conductance_w_m2k, hi = fit.inner_area_m * c.open_room.conductance_w_m2k;
  const double g1 = 1.0 / fit.outer_resistance_mk_w, g2 = 1.0 / fit.inner_resistance_mk_w,
               g3 = fit.middle_conductance_w_mk;
  R diagonal[4] = {ho + g1, g1 + g3 + s.outer_sum_w_mk - glass.outer_outer,
                   g3 + g2 + s.inner_sum_w_mk - glass.inner_inner, g2 + hi};
  const R off[3] = {R{} - g1, -g3 - glass.outer_inner, R{} - g2};
  R right[4] = {ho * c.outdoor.temperature_k + fit.sun_area_m * loads.frame_absorbed_w_m2, glass.outer_base,
                glass.inner_base, hi * c.open_room.temperature_k};
  for (std::size_t k = 0; k < 4 && past.weight_per_s > 0.0; ++k) {
    diagonal[k] += fit.capacity_j_mk[k] * past.weight_per_s;
    right[k] += fit.capacity_j_mk[k] * (past.one_per_s * past.one->frame_k[k] - past.two_per_s * past.two->frame_k[k]);
  }
  for (std::size_t k = 0; k < 3; ++k) {
    const R factor = off[k] / diagonal[k];
    diagonal[k + 1] -= factor * off[k];
    right[k + 1] -= factor * right[k];
  }
  frame_k[3] = right[3] / diagonal[3];
  for (std::size_t k = 3; k-- > 0;) frame_k[k] = (right[k] - off[k] * frame_k[k + 1]) / diagonal[k];
}

template <std::size_t fixed, class R>
SUNSTRAIN_INLINE void substitute(const StripRows& s, const StripScratch<R>& scratch, StripTemperatures<R>& t) {
  const std::size_t lites = fixed > 0 ? fixed : s.lites;
  const R *lower = scratch.lower.data(), *inverse = scratch.inverse.data(), *base = scratch.base.data();
  for (std::size_t row = s.rows; row-- > 0;) {
    R value = base[row];
    if (row >= s.first_contact) value += t.frame_k[1] * scratch.outer[row] + t.frame_k[2] * scratch.inner[row];
    value *= inverse[row];
    for (std::size_t d = 1; d <= lites && row + d < s.rows; ++d)
      value -= lower[(row + d) * lites + d - 1] * t.row_k[row + d];
    t.row_k[row] = value;
  }
}

// Sums over a strip's rows that its energy balance needs: area times temperature where it meets outdoors, the room and
// the room's corner, and the heat it holds.
template <class R>
struct StripSums {
  R outdoor_k_m, room_k_m, corner_k_m, held_j_m;
};
template <class R>
SUNSTRAIN_INLINE StripSums<R> sum_rows(const StripRows& s, const StripTemperatures<R>& t) {
  StripSums<R> sums{};
  for (std::size_t cell = 0; cell < s.cells; ++cell) {
    const R &first = t.row_k[cell * s.lites], &last = t.row_k[(cell + 1) * s.lites - 1];
    sums.outdoor_k_m += s.outdoor_m[cell] * first;
    sums.room_k_m += s.room_m[cell] * last;
    sums.corner_k_m += s.room_corner_m[cell] * last;
  }
  for (std::size_t row = 0; row < s.rows; ++row) sums.held_j_m += s.stored_j_mk[row] * t.row_k[row];
  for (std::size_t k = 0; k < 4; ++k) sums.held_j_m += s.mesh.frame->capacity_j_mk[k] * t.frame_k[k];
  return sums;
}

// What goes in less what goes out and what is stored, worked from the temperatures alone. Exchanges inside (spacer,
// contacts, conduction) cancel in a sound assembly, so any slip in them shows here.
template <class R>
SUNSTRAIN_INLINE AuditOf<R> audit(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& c,
                                  const StripHistory<R>& past, StripTemperatures<R>& t) {
  const Glazing& glazing = s.line->glazing;
  const std::size_t last = s.lites - 1;
  R in{}, out{}, gross{};
  const auto leave = [&](const R& watts) {
    out += watts;
    gross += size_of(watts);
  };
  // h (face - air) over an area, the face worked from the mean behind it: face = (T + r (h air + source))/(1 + r h).
  const auto surface = [&](double r, const R& h, const R& air_k, const R& source, const R& k_m, double area_m) {
    leave(h * ((k_m + area_m * r * (h * air_k + source)) / (1.0 + r * h) - area_m * air_k));
  };
  const StripSums<R> now = sum_rows<R>(s, t);
  t.held_j_m = now.held_j_m;
  const double r0 = half_resistance_m2k_w(glazing, 0), rn = half_resistance_m2k_w(glazing, last);
  const R &ho = c.outdoor.conductance_w_m2k, &hi = c.room.conductance_w_m2k, &to = c.outdoor.temperature_k;
  const R hc = s.line->edge.room_corner_factor * hi;
  surface(r0, ho, to, loads.outer_face_w_m2[0], now.outdoor_k_m, s.outdoor_sum_m);
  surface(rn, hi, c.room.temperature_k, loads.inner_face_w_m2[last], now.room_k_m, s.room_sum_m);
  surface(rn, hc, c.room.temperature_k, loads.inner_face_w_m2[last], now.corner_k_m, s.corner_sum_m);
  for (std::size_t lite = 0; lite < s.lites; ++lite) {
    in += (loads.bulk_w_m2[lite] + loads.outer_face_w_m2[lite]) * (lite == 0 ? s.outdoor_sum_m : s.open_sum_m) +
          loads.inner_face_w_m2[lite] * s.open_sum_m;
  }
  const FrameFit& fit = *s.mesh.frame;
  leave(ho * fit.outer_area_m * (t.frame_k[0] - to));
  leave(c.open_room.conductance_w_m2k * fit.inner_area_m * (t.frame_k[3] - c.open_room.temperature_k));
  const JointOf<R> joint = joint_of<R>(s.mesh, ho);
  leave(joint.conductance_w_mk * (t.row_k[(s.cells - 1) * s.lites] - to));
  in += (fit.sun_area_m + joint.source_share * s.mesh.joint_area_m) * loads.frame_absorbed_w_m2;
  R stored{};
  if (past.weight_per_s > 0.0) {
    stored = past.weight_per_s * t.held_j_m - past.one_per_s * past.one->held_j_m + past.two_per_s * past.two->held_j_m;
  }
  return {in - out - stored, in + gross};
}

// Solves the strip for one step with the exchanges of the settled middle.
template <std::size_t fixed, class R>
SUNSTRAIN_INLINE AuditOf<R> solve_rows(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& center,
                                       const StripHistory<R>& past, StripScratch<R>& scratch, StripTemperatures<R>& t) {
  Felt<R> felt;
  feel<R>(s, loads, center, felt);
  const GlassOnFrame<R> glass = eliminate<fixed, R>(s, loads, felt, past, scratch);
  R frame_k[4];
  solve_frame<R>(s, loads, center, past, glass, frame_k);
  for (std::size_t k = 0; k < 4; ++k) t.frame_k[k] = frame_k[k];
  substitute<fixed, R>(s, scratch, t);
  return audit<R>(s, loads, center, past, t);
}

template <class R>
SUNSTRAIN_INLINE AuditOf<R> solve_strip(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& center,
                                        const StripHistory<R>& past, StripScratch<R>& scratch,
                                        StripTemperatures<R>& t) {
  switch (s.lites) {
    case 1:
      return solve_rows<1, R>(s, loads, center, past, scratch, t);
    case 2:
      return solve_rows<2, R>(s, loads, center, past, scratch, t);
    case 3:
      return solve_rows<3, R>(s, loads, center, past, scratch, t);
    default:
      return solve_rows<0, R>(s, loads, center, past, scratch, t);
  }
}

}  // namespace sunstrain::internal
