// The balance of the middle of the pane in one step, steady or with heat stored, for one pane or several side by side
// (R a double or Lanes). Internal.
#pragma once

#include <algorithm>
#include <stdexcept>

#include "exchange.hpp"

namespace sunstrain::internal {

template <class R>
struct CenterOf {
  R mean_k[most_lites];
  R face_k[most_lites][2];  // outer, inner
  ExchangeOf<R> outdoor, room, open_room;
  R cavity_w_m2k[most_lites];
  R stream_w_m2k[most_lites], stream_k[most_lites];  // of cavities that air streams through
  BlindGuessOf<R> blind;
};

// Heat stored over a step as a backward formula: rate = capacity (weight T - history), per lite; weight 0: steady.
template <class R>
struct CenterHistory {
  double weight_per_s = 0.0;
  R history_k_per_s[most_lites];
};

// Half of an interlayer goes with each of its plies.
inline double heat_capacity_j_m2k(const Glazing& glazing, std::size_t lite) {
  const auto half = [](const ThermalCavity& between) { return 0.5 * between.solid_j_m3k * between.width_m; };
  double held = glazing.material.density_kg_m3 * glazing.material.specific_heat_j_kgk * glazing.lites[lite].thickness_m;
  if (lite > 0) held += half(glazing.cavities[lite - 1]);
  if (lite < glazing.cavities.size()) held += half(glazing.cavities[lite]);
  return held;
}

// Half the glass lies between a lite's mean and each of its faces.
inline double half_resistance_m2k_w(const Glazing& glazing, std::size_t lite) {
  return 0.5 * glazing.lites[lite].thickness_m / glazing.material.conductivity_w_mk;
}

// Outdoor to room temperature in equal parts.
template <class R>
void first_guess(const Glazing& glazing, const LoadsOf<R>& loads, CenterOf<R>& guess) {
  const std::size_t n = glazing.lites.size();
  for (std::size_t j = 0; j < n; ++j) {
    const double share = (static_cast<double>(j) + 0.5) / static_cast<double>(n);
    guess.mean_k[j] = loads.outdoor_air_k + share * (loads.room_air_k - loads.outdoor_air_k);
    guess.face_k[j][0] = guess.mean_k[j] - 0.1;
    guess.face_k[j][1] = guess.mean_k[j] + 0.1;
  }
}

// Convection across a cavity with slots, face to face, and what goes to the air that streams through it.
template <class R>
void renew_stream(const ThermalCavity& cavity, double height_m, const LoadsOf<R>& loads, const R& from_k, const R& to_k,
                  R& convection, R& stream_w_m2k, R& stream_k) {
  stream_k = cavity.to_room ? loads.room_air_k : loads.outdoor_air_k;
  for (std::size_t i = 0; i < lanes_of(static_cast<const R*>(nullptr)); ++i) {
    const Stream s =
        stream_through(cavity, height_m, lane(from_k, i), lane(to_k, i), lane(stream_k, i), lane(convection, i));
    set_lane(convection, i, s.between_w_m2k);
    set_lane(stream_w_m2k, i, s.to_air_w_m2k);
  }
}

template <class R>
SUNSTRAIN_INLINE void renew_exchanges(const Glazing& glazing, const LoadsOf<R>& loads, const RoomShade& shade,
                                      const Gas& air, double blind_settled_k, const typename MaskOf<R>::Type& wanted,
                                      CenterOf<R>& c) {
  const std::size_t last = glazing.lites.size() - 1;
  c.outdoor = outdoor_exchange<R>(c.face_k[0][0], glazing.lites.front().emissivity_outer, loads);
  const double inside = glazing.lites.back().emissivity_inner;
  c.open_room = open_room<R>(c.face_k[last][1], inside, glazing.height_m, loads, air);
  c.room = room_exchange<R>(c.face_k[last][1], inside, glazing.height_m, loads, c.open_room, shade, air,
                            blind_settled_k, wanted, c.blind);
  for (std::size_t k = 0; k < last; ++k) {
    if (glazing.cavities[k].solid()) {
      c.cavity_w_m2k[k] = R{} + glazing.cavities[k].solid_w_mk / glazing.cavities[k].width_m;
      continue;
    }
    const R &from_k = c.face_k[k][1], &to_k = c.face_k[k + 1][0];
    R convection = cavity_convection_w_m2k<R>(glazing.cavities[k].gas, glazing.cavities[k].width_m, glazing.height_m,
                                              from_k, to_k);
    if (glazing.cavities[k].opening_m > 0.0)
      renew_stream<R>(glazing.cavities[k], glazing.height_m, loads, from_k, to_k, convection, c.stream_w_m2k[k],
                      c.stream_k[k]);
    c.cavity_w_m2k[k] = cavity_radiation_w_m2k<R>(glazing.lites[k].emissivity_inner,
                                                  glazing.lites[k + 1].emissivity_outer, from_k, to_k) +
                        convection;
  }
}

// Of exchanges that swing between values (a buoyant stream that reverses, say, or a gap whose sides are about as warm)
// only a share of each change is taken.
template <class R>
void take_share(const CenterOf<R>& before, std::size_t lites, double share, CenterOf<R>& c) {
  const auto part = [share](const R& from, const R& to) { return (1.0 - share) * from + share * to; };
  const auto meet = [&](const ExchangeOf<R>& a, ExchangeOf<R>& b) {
    b.conductance_w_m2k = part(a.conductance_w_m2k, b.conductance_w_m2k);
    b.temperature_k = part(a.temperature_k, b.temperature_k);
  };
  meet(before.outdoor, c.outdoor);
  meet(before.room, c.room);
  for (std::size_t k = 0; k + 1 < lites; ++k) {
    c.cavity_w_m2k[k] = part(before.cavity_w_m2k[k], c.cavity_w_m2k[k]);
    c.stream_w_m2k[k] = part(before.stream_w_m2k[k], c.stream_w_m2k[k]);
  }
}

// What two sheets' means a and b give across the cavity between them: a's mean loses own_a Ta - between Tb - in_a, b's
// own_b Tb - between Ta - in_b. With face sources sa, sb and ra, rb from mean to face, 1/K = ra + 1/h + rb:
// Q = K (Ta - Tb + ra sa - rb sb). Where air streams through, both faces also give V to air at Ts: with pa = 1 + ra V
// and sa + V Ts in the place of sa, the same with ra/pa for ra, and each mean felt through 1/pa.
template <class R>
struct Bridge {
  R own_a, own_b, between, in_a, in_b, pushed;
};
template <class R>
SUNSTRAIN_INLINE Bridge<R> bridge(const Glazing& glazing, std::size_t k, const LoadsOf<R>& loads,
                                  const CenterOf<R>& c) {
  const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
  const R &sa = loads.inner_face_w_m2[k], &sb = loads.outer_face_w_m2[k + 1];
  if (glazing.cavities[k].opening_m > 0.0) {
    const R &v = c.stream_w_m2k[k], pa = 1.0 + ra * v, pb = 1.0 + rb * v;
    const R through = 1.0 / (ra / pa + 1.0 / c.cavity_w_m2k[k] + rb / pb);
    const R in_a = sa + v * c.stream_k[k], in_b = sb + v * c.stream_k[k];
    const R pushed = through * (ra * in_a / pa - rb * in_b / pb);
    return {v / pa + through / (pa * pa), v / pb + through / (pb * pb), through / (pa * pb),
            (in_a - pushed) / pa,         (in_b + pushed) / pb,         pushed};
  }
  const R through = 1.0 / (ra + 1.0 / c.cavity_w_m2k[k] + rb);
  const R pushed = through * (ra * sa - rb * sb);
  return {through, through, through, sa - pushed, sb + pushed, pushed};
}

// The two faces of such a cavity from the means behind them; of sums over an extent, sums again.
template <class R>
struct Faces {
  R a_k, b_k;
};
template <class R>
SUNSTRAIN_INLINE Faces<R> streamed_faces(const Glazing& glazing, std::size_t k, const Bridge<R>& b, const R& a_k,
                                         const R& b_k, double extent) {
  const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
  return {a_k - ra * (b.own_a * a_k - b.between * b_k - extent * b.in_a),
          b_k - rb * (b.own_b * b_k - b.between * a_k - extent * b.in_b)};
}

// What the two faces give to the air that streams by over an extent: v (face - stream).
template <class R>
SUNSTRAIN_INLINE R given_to_stream(const Glazing& glazing, std::size_t k, const LoadsOf<R>& loads, const CenterOf<R>& c,
                                   const R& a_k, const R& b_k, double extent) {
  const Faces<R> faces = streamed_faces<R>(glazing, k, bridge<R>(glazing, k, loads, c), a_k, b_k, extent);
  return c.stream_w_m2k[k] * (faces.a_k + faces.b_k - 2.0 * extent * c.stream_k[k]);
}

// What a face gives to the air before it over an extent, h (face - air), worked from the mean a resistance r behind it:
// face = (T + r (h air + source))/(1 + r h).
template <class R>
SUNSTRAIN_INLINE R given_by_face(double r, const R& h, const R& air_k, const R& source, const R& mean_k,
                                 double extent) {
  return h * ((mean_k + extent * r * (h * air_k + source)) / (1.0 + r * h) - extent * air_k);
}

// The lites' means for given exchanges (a tridiagonal system, a lite a row: Thomas algorithm), then their faces.
template <class R>
SUNSTRAIN_INLINE void renew_temperatures(const Glazing& glazing, const LoadsOf<R>& loads,
                                         const CenterHistory<R>& stored, CenterOf<R>& c) {
  const std::size_t n = glazing.lites.size();
  R diagonal[most_lites], coupling[most_lites], right[most_lites];
  for (std::size_t j = 0; j < n; ++j) {
    const double capacity = heat_capacity_j_m2k(glazing, j);
    diagonal[j] = R{} + capacity * stored.weight_per_s;
    right[j] = loads.bulk_w_m2[j];
    if (stored.weight_per_s > 0.0) right[j] += capacity * stored.history_k_per_s[j];
  }
  const double r_first = half_resistance_m2k_w(glazing, 0), r_last = half_resistance_m2k_w(glazing, n - 1);
  const R path_first = 1.0 + r_first * c.outdoor.conductance_w_m2k, path_last = 1.0 + r_last * c.room.conductance_w_m2k;
  const R into_first = c.outdoor.conductance_w_m2k * c.outdoor.temperature_k + loads.outer_face_w_m2[0];
  const R into_last = c.room.conductance_w_m2k * c.room.temperature_k + loads.inner_face_w_m2[n - 1];
  diagonal[0] += c.outdoor.conductance_w_m2k / path_first;
  right[0] += into_first / path_first;
  diagonal[n - 1] += c.room.conductance_w_m2k / path_last;
  right[n - 1] += into_last / path_last;
  Bridge<R> across[most_lites];
  for (std::size_t k = 0; k + 1 < n; ++k) {
    across[k] = bridge<R>(glazing, k, loads, c);
    coupling[k] = across[k].between;
    diagonal[k] += across[k].own_a;
    diagonal[k + 1] += across[k].own_b;
    right[k] += across[k].in_a;
    right[k + 1] += across[k].in_b;
  }
  for (std::size_t j = 1; j < n; ++j) {
    const R factor = coupling[j - 1] / diagonal[j - 1];
    diagonal[j] -= factor * coupling[j - 1];
    right[j] += factor * right[j - 1];
  }
  c.mean_k[n - 1] = right[n - 1] / diagonal[n - 1];
  for (std::size_t j = n - 1; j-- > 0;) c.mean_k[j] = (right[j] + coupling[j] * c.mean_k[j + 1]) / diagonal[j];
  c.face_k[0][0] = (c.mean_k[0] + r_first * into_first) / path_first;
  c.face_k[n - 1][1] = (c.mean_k[n - 1] + r_last * into_last) / path_last;
  for (std::size_t k = 0; k + 1 < n; ++k) {
    const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
    const Bridge<R>& b = across[k];
    if (glazing.cavities[k].opening_m > 0.0) {
      const Faces<R> faces = streamed_faces<R>(glazing, k, b, c.mean_k[k], c.mean_k[k + 1], 1.0);
      c.face_k[k][1] = faces.a_k;
      c.face_k[k + 1][0] = faces.b_k;
      continue;
    }
    const R flow = b.between * (c.mean_k[k] - c.mean_k[k + 1]) + b.pushed;
    c.face_k[k][1] = c.mean_k[k] - ra * (flow - loads.inner_face_w_m2[k]);
    c.face_k[k + 1][0] = c.mean_k[k + 1] + rb * (flow + loads.outer_face_w_m2[k + 1]);
  }
}

// Lanes that have settled stay as they are, so that no lane's result depends on its neighbors.
template <class R>
SUNSTRAIN_INLINE void keep_settled(const typename MaskOf<R>::Type& open, const CenterOf<R>& before, std::size_t lites,
                                   CenterOf<R>& c) {
  const auto keep = [&](const R& old, R& now) { now = choose(open, now, old); };
  const auto keep_exchange = [&](const ExchangeOf<R>& old, ExchangeOf<R>& now) {
    keep(old.conductance_w_m2k, now.conductance_w_m2k);
    keep(old.temperature_k, now.temperature_k);
  };
  keep_exchange(before.outdoor, c.outdoor);
  keep_exchange(before.room, c.room);
  keep_exchange(before.open_room, c.open_room);
  for (std::size_t j = 0; j < lites; ++j) {
    keep(before.mean_k[j], c.mean_k[j]);
    for (std::size_t side = 0; side < 2; ++side) keep(before.face_k[j][side], c.face_k[j][side]);
    if (j + 1 < lites) {
      keep(before.cavity_w_m2k[j], c.cavity_w_m2k[j]);
      keep(before.stream_w_m2k[j], c.stream_w_m2k[j]);
    }
  }
}

// How much of each change is taken in a round: all; from `patience` on half, halved again after each `longer`. What has
// not settled by `anew` jumps: the blind has two balances about there, and which of them is found hangs on where it is
// looked for. It is then looked for from the same place every time, and ever less of each change is taken, so that the
// face comes to where the balance jumps, between the two.
struct Patience {
  static constexpr int rounds = 1200, patience = 30, longer = 60, anew = 210;
  double share = 1.0;
  void at(int round) {
    if (round >= anew)
      share = 1.0 / (8.0 + round - anew);
    else if (round >= patience && (round - patience) % longer == 0)
      share *= 0.5;
  }
  // The change in a round that counts as settled, of a face.
  double settled(int round, double settled_k) const {
    return round >= anew ? settled_k : 2.0 * std::min(share, 0.5) * settled_k;
  }
};

// How near to its end the balance of the middle is brought: what no face moves by in a round, and what a blind's own
// balance leaves over, well below that or the faces would never settle.
struct Settled {
  double face_k, blind_k;
};
constexpr Settled settled_of(const MarchCare& care) { return {care.settled_k, care.blind_settled_k}; }

// Settles temperatures and exchanges together from `c` until no face moves by more than that in a round; a round
// leaves less than a third of the one before. Throws std::runtime_error if they do not settle.
template <class R>
SUNSTRAIN_INLINE void settle_center(const Glazing& glazing, const LoadsOf<R>& loads, const RoomShade& shade,
                                    const Gas& air, const CenterHistory<R>& stored, const Settled& settled,
                                    CenterOf<R>& c) {
  const std::size_t n = glazing.lites.size();
  typename MaskOf<R>::Type open = R{} >= 0.0;
  Patience patience;
  for (int round = 0; round < Patience::rounds; ++round) {
    const CenterOf<R> before = c;
    patience.at(round);
    if (round >= Patience::anew) c.blind.blind_k = choose(open, R{}, c.blind.blind_k);
    renew_exchanges<R>(glazing, loads, shade, air, settled.blind_k, open, c);
    if (patience.share < 1.0) take_share(before, n, patience.share, c);
    renew_temperatures<R>(glazing, loads, stored, c);
    R change{};
    for (std::size_t j = 0; j < n; ++j)
      for (std::size_t side = 0; side < 2; ++side)
        change = larger(change, size_of(c.face_k[j][side] - before.face_k[j][side]));
    if (round > 0) keep_settled<R>(open, before, n, c);
    open = open & (change >= patience.settled(round, settled.face_k));
    if (!any(open)) return;
  }
  throw std::runtime_error("the heat balance of the middle of the pane did not settle");
}

CenterBalance balance_of(const CenterOf<double>& center, std::size_t lites);
CenterOf<double> center_of(const CenterBalance& balance);

}  // namespace sunstrain::internal
