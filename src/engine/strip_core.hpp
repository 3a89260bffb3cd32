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
  bool streams;               // air streams through a cavity
  std::size_t first_contact;  // the first row of the first cell that touches a frame node
  std::vector<double> stored_j_mk, fixed_w_mk, to_outer_w_mk, to_inner_w_mk, to_next_w_mk, bulk_m, rim_m;
  std::vector<double> spacer_w_mk, gap_m;                        // to the lite before in the same cell
  std::vector<double> outdoor_m, room_m, room_corner_m, open_m;  // per cell, in the order of the rows
  double outer_sum_w_mk = 0.0, inner_sum_w_mk = 0.0;
  double outdoor_sum_m = 0.0, room_sum_m = 0.0, corner_sum_m = 0.0, open_sum_m = 0.0, rim_sum_m = 0.0;
};

// The step's exchanges as each row feels them: a conductance per area, and what flows in at 0 K.
template <class R>
struct Felt {
  R outdoor, outdoor_in, room, room_in, corner, corner_in;
  R cavity[most_lites], from_before[most_lites], from_after[most_lites];
  R more_before[most_lites], more_after[most_lites];  // beyond `cavity`, to air that streams through it
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
    const Bridge<R> b = bridge<R>(glazing, k, loads, c);
    f.cavity[k] = b.between;
    f.from_after[k] = b.in_a;
    f.from_before[k + 1] = b.in_b;
    f.more_after[k] = b.own_a - b.between;
    f.more_before[k + 1] = b.own_b - b.between;
  }
  const JointOf<R> joint = joint_of<R>(s.mesh, c.outdoor.conductance_w_m2k);
  f.joint_w_mk = joint.conductance_w_mk;
  f.joint_in_w_m = joint.conductance_w_mk * c.outdoor.temperature_k +
                   joint.source_share * loads.frame_absorbed_w_m2 * s.mesh.joint_area_m;
}

// Storage that is used again from step to step. inverse: per cell, of what its lites' matrix is once the cells before
// it are taken out; the lower half, row by row.
template <class R>
struct StripScratch {
  std::vector<R> inverse, base, outer, inner;
};

inline constexpr std::size_t half_matrix(std::size_t size) { return size * (size + 1) / 2; }
inline constexpr std::size_t in_half(std::size_t i, std::size_t j) {
  return i >= j ? half_matrix(i) + j : half_matrix(j) + i;
}

// Of a symmetric matrix that is diagonally dominant, so without pivoting: two rows by their determinant, which divides
// once; else swept row by row, which leaves the inverse with its sign turned.
template <std::size_t fixed, class R>
SUNSTRAIN_INLINE void invert(std::size_t size, R* m) {
  if constexpr (fixed == 2) {
    const R share = 1.0 / (m[0] * m[2] - m[1] * m[1]), first = m[0];
    m[0] = m[2] * share;
    m[1] = -(m[1] * share);
    m[2] = first * share;
  } else {
    for (std::size_t k = 0; k < size; ++k) {
      const R share = 1.0 / m[in_half(k, k)];
      R column[most_lites];
      for (std::size_t i = 0; i < size; ++i) column[i] = m[in_half(i, k)];
      for (std::size_t i = 0; i < size; ++i)
        for (std::size_t j = 0; j <= i; ++j) m[in_half(i, j)] -= column[i] * column[j] * share;
      for (std::size_t i = 0; i < size; ++i) m[in_half(i, k)] = column[i] * share;
      m[in_half(k, k)] = -share;
    }
    for (std::size_t i = 0; i < half_matrix(size); ++i) m[i] = -m[i];
  }
}

// Row i of a symmetric matrix times a column.
template <class R>
SUNSTRAIN_INLINE R row_times(const R* half, std::size_t i, std::size_t size, const R* column) {
  R sum = half[in_half(i, 0)] * column[0];
  for (std::size_t j = 1; j < size; ++j) sum += half[in_half(i, j)] * column[j];
  return sum;
}

// Sums that take the glass out of the frame's equations.
template <class R>
struct GlassOnFrame {
  R outer_outer, outer_inner, inner_inner, outer_base, inner_base;
};

// A cell's own equations: matrix (lower half) and right-hand side, before the cells ahead of it are taken out.
template <std::size_t fixed, class R>
SUNSTRAIN_INLINE void cell_equations(const StripRows& s, std::size_t cell, const LoadsOf<R>& loads, const Felt<R>& f,
                                     const StripHistory<R>& past, R* matrix, R* right) {
  const std::size_t lites = fixed > 0 ? fixed : s.lites, first = cell * lites, last = lites - 1;
  for (std::size_t lite = 0; lite < lites; ++lite) {
    const std::size_t row = first + lite;
    const double stored = s.stored_j_mk[row];
    for (std::size_t j = 0; j < lite; ++j) matrix[in_half(lite, j)] = R{};
    matrix[in_half(lite, lite)] = R{} + (s.fixed_w_mk[row] + stored * past.weight_per_s);
    right[lite] = s.bulk_m[row] * loads.bulk_w_m2[lite] - s.rim_m[row] * loads.rim_less_w_m2;
    if (past.weight_per_s > 0.0)
      right[lite] += stored * (past.one_per_s * past.one->row_k[row] - past.two_per_s * past.two->row_k[row]);
    if (lite == 0) continue;
    const R across = s.spacer_w_mk[row] + s.gap_m[row] * f.cavity[lite - 1];
    matrix[in_half(lite, lite)] += across;
    matrix[in_half(lite - 1, lite - 1)] += across;
    matrix[in_half(lite, lite - 1)] = -across;
    right[lite] += s.open_m[cell] * f.from_before[lite];
    right[lite - 1] += s.open_m[cell] * f.from_after[lite - 1];
    if (!s.streams) continue;
    matrix[in_half(lite, lite)] += s.gap_m[row] * f.more_before[lite];
    matrix[in_half(lite - 1, lite - 1)] += s.gap_m[row] * f.more_after[lite - 1];
  }
  matrix[0] += s.outdoor_m[cell] * f.outdoor;
  right[0] += s.outdoor_m[cell] * f.outdoor_in;
  matrix[in_half(last, last)] += s.room_m[cell] * f.room + s.room_corner_m[cell] * f.corner;
  right[last] += s.room_m[cell] * f.room_in + s.room_corner_m[cell] * f.corner_in;
  if (cell + 1 < s.cells) return;
  matrix[0] += f.joint_w_mk;
  right[0] += f.joint_in_w_m;
}

// Block elimination from the middle to the cut edge, a cell a block, the right-hand side with it, and from
// first_contact on the two columns of the frame's inner nodes.
template <std::size_t fixed, class R>
SUNSTRAIN_INLINE GlassOnFrame<R> eliminate(const StripRows& s, const LoadsOf<R>& loads, const Felt<R>& f,
                                           const StripHistory<R>& past, StripScratch<R>& scratch) {
  const std::size_t lites = fixed > 0 ? fixed : s.lites;  // a constant where it can be, so that the inner loops unroll
  constexpr std::size_t room_for = fixed > 0 ? fixed : most_lites;
  GlassOnFrame<R> sums{};
  for (std::size_t cell = 0; cell < s.cells; ++cell) {
    const std::size_t row = cell * lites;
    const double* to_before = &s.to_next_w_mk[row];
    R *inverse = &scratch.inverse[cell * half_matrix(lites)], *base = &scratch.base[row];
    R matrix[half_matrix(room_for)], right[room_for];
    cell_equations<fixed, R>(s, cell, loads, f, past, matrix, right);
    const R* before = inverse - (cell > 0 ? half_matrix(lites) : 0);
    for (std::size_t i = 0; i < lites && cell > 0; ++i) {
      right[i] += to_before[i] * row_times(before, i, lites, base - lites);
      for (std::size_t j = 0; j <= i; ++j) matrix[in_half(i, j)] -= to_before[i] * to_before[j] * before[in_half(i, j)];
    }
    invert<fixed, R>(lites, matrix);
    std::copy_n(matrix, half_matrix(lites), inverse);
    std::copy_n(right, lites, base);
    if (row + lites <= s.first_contact) continue;
    R *outer = &scratch.outer[row], *inner = &scratch.inner[row];
    for (std::size_t i = 0; i < lites; ++i) {
      outer[i] = R{} + s.to_outer_w_mk[row + i];
      inner[i] = R{} + s.to_inner_w_mk[row + i];
      if (row <= s.first_contact) continue;
      outer[i] += to_before[i] * row_times(before, i, lites, outer - lites);
      inner[i] += to_before[i] * row_times(before, i, lites, inner - lites);
    }
    for (std::size_t i = 0; i < lites; ++i) {
      const R by_outer = row_times(matrix, i, lites, outer), by_inner = row_times(matrix, i, lites, inner);
      sums.outer_outer += by_outer * outer[i];
      sums.outer_inner += by_outer * inner[i];
      sums.inner_inner += by_inner * inner[i];
      sums.outer_base += by_outer * right[i];
      sums.inner_base += by_inner * right[i];
    }
  }
  return sums;
}

// What a frame has around it in one step, per metre of edge: its contacts with the glass in sum, the surroundings of
// its two faces, the sun on it, and the heat it held (rate = capacity (weight T - history), weight 0: steady).
template <class R>
struct FrameStep {
  double to_outer_w_mk, to_inner_w_mk;
  ExchangeOf<R> outdoor, room;
  R sun_w_m2;
  double weight_per_s;
  R history_k_per_s[4];
};

// Outer face - outer node - inner node - inner face, the glass already taken out: four equations in a row.
template <class R>
SUNSTRAIN_INLINE void solve_frame(const FrameFit& fit, const FrameStep<R>& step, const GlassOnFrame<R>& glass,
                                  R* frame_k) {
  const R ho = fit.outer_area_m * step.outdoor.conductance_w_m2k, hi = fit.inner_area_m * step.room.conductance_w_m2k;
  const double g1 = 1.0 / fit.outer_resistance_mk_w, g2 = 1.0 / fit.inner_resistance_mk_w,
               g3 = fit.middle_conductance_w_mk;
  R diagonal[4] = {ho + g1, g1 + g3 + step.to_outer_w_mk - glass.outer_outer,
                   g3 + g2 + step.to_inner_w_mk - glass.inner_inner, g2 + hi};
  const R off[3] = {R{} - g1, -g3 - glass.outer_inner, R{} - g2};
  R right[4] = {ho * step.outdoor.temperature_k + fit.sun_area_m * step.sun_w_m2, glass.outer_base, glass.inner_base,
                hi * step.room.temperature_k};
  for (std::size_t k = 0; k < 4 && step.weight_per_s > 0.0; ++k) {
    diagonal[k] += fit.capacity_j_mk[k] * step.weight_per_s;
    right[k] += fit.capacity_j_mk[k] * step.history_k_per_s[k];
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
  for (std::size_t cell = s.cells; cell-- > 0;) {
    const std::size_t row = cell * lites;
    R right[fixed > 0 ? fixed : most_lites];
    for (std::size_t i = 0; i < lites; ++i) {
      right[i] = scratch.base[row + i];
      if (row + lites > s.first_contact)
        right[i] += t.frame_k[1] * scratch.outer[row + i] + t.frame_k[2] * scratch.inner[row + i];
      if (cell + 1 < s.cells) right[i] += s.to_next_w_mk[row + lites + i] * t.row_k[row + lites + i];
    }
    for (std::size_t i = 0; i < lites; ++i)
      t.row_k[row + i] = row_times(&scratch.inverse[cell * half_matrix(lites)], i, lites, right);
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
  R held_odd_j_m{};  // two sums side by side wait half as long for each other
  for (std::size_t row = 0; row + 1 < s.rows; row += 2) {
    sums.held_j_m += s.stored_j_mk[row] * t.row_k[row];
    held_odd_j_m += s.stored_j_mk[row + 1] * t.row_k[row + 1];
  }
  if (s.rows % 2 > 0) sums.held_j_m += s.stored_j_mk[s.rows - 1] * t.row_k[s.rows - 1];
  sums.held_j_m += held_odd_j_m;
  for (std::size_t k = 0; k < 4; ++k) sums.held_j_m += s.mesh.frame->capacity_j_mk[k] * t.frame_k[k];
  return sums;
}

template <class R>
SUNSTRAIN_INLINE R into_stream_w_m(const StripRows& s, const LoadsOf<R>& loads, const CenterOf<R>& c, std::size_t k,
                                   const StripTemperatures<R>& t) {
  R a_k_m{}, b_k_m{};
  for (std::size_t cell = 0; cell < s.cells; ++cell) {
    a_k_m += s.open_m[cell] * t.row_k[cell * s.lites + k];
    b_k_m += s.open_m[cell] * t.row_k[cell * s.lites + k + 1];
  }
  return given_to_stream<R>(s.line->glazing, k, loads, c, a_k_m, b_k_m, s.open_sum_m);
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
  const StripSums<R> now = sum_rows<R>(s, t);
  t.held_j_m = now.held_j_m;
  const double r0 = half_resistance_m2k_w(glazing, 0), rn = half_resistance_m2k_w(glazing, last);
  const R &ho = c.outdoor.conductance_w_m2k, &hi = c.room.conductance_w_m2k, &to = c.outdoor.temperature_k;
  const R hc = s.line->edge.room_corner_factor * hi;
  const R &tr = c.room.temperature_k, &room_source = loads.inner_face_w_m2[last];
  leave(given_by_face<R>(r0, ho, to, loads.outer_face_w_m2[0], now.outdoor_k_m, s.outdoor_sum_m));
  leave(given_by_face<R>(rn, hi, tr, room_source, now.room_k_m, s.room_sum_m));
  leave(given_by_face<R>(rn, hc, tr, room_source, now.corner_k_m, s.corner_sum_m));
  for (std::size_t lite = 0; lite < s.lites; ++lite) {
    in += (loads.bulk_w_m2[lite] + loads.outer_face_w_m2[lite]) * (lite == 0 ? s.outdoor_sum_m : s.open_sum_m) +
          loads.inner_face_w_m2[lite] * s.open_sum_m;
  }
  in += -(s.rim_sum_m * loads.rim_less_w_m2);
  for (std::size_t k = 0; k < last && s.streams; ++k)
    if (glazing.cavities[k].opening_m > 0.0) leave(into_stream_w_m<R>(s, loads, c, k, t));
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
  FrameStep<R> around{s.outer_sum_w_mk,
                      s.inner_sum_w_mk,
                      center.outdoor,
                      center.open_room,
                      loads.frame_absorbed_w_m2,
                      past.weight_per_s,
                      {}};
  for (std::size_t k = 0; k < 4 && past.weight_per_s > 0.0; ++k)
    around.history_k_per_s[k] = past.one_per_s * past.one->frame_k[k] - past.two_per_s * past.two->frame_k[k];
  R frame_k[4];
  solve_frame<R>(*s.mesh.frame, around, glass, frame_k);
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
