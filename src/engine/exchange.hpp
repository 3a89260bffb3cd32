// The exchanges of a glazing's faces, for one pane or for several side by side (R a double or Lanes). Internal.
#pragma once

#include "lanes.hpp"
#include "sunstrain/heat.hpp"

namespace sunstrain::internal {

template <class R>
struct ExchangeOf {
  R conductance_w_m2k, temperature_k;
};

// What surrounds the glazing, and the sun it takes up.
template <class R>
struct LoadsOf {
  R outdoor_air_k, outdoor_convection_w_m2k, sky_k, sky_view, room_air_k, room_radiant_k, room_convection_w_m2k;
  R outer_face_w_m2[most_lites], bulk_w_m2[most_lites], inner_face_w_m2[most_lites];
  R shade_absorbed_w_m2, frame_absorbed_w_m2, rim_less_w_m2;
};

inline constexpr double gas_constant_j_mol_k = 8.314462618;  // CODATA 2018

// Ra = rho^2 L^3 g cp dT / (mu lambda T_m)
template <class R>
struct Buoyancy {
  R rayleigh, conductivity_w_mk;
};
template <class R>
SUNSTRAIN_INLINE Buoyancy<R> buoyancy(const Gas& gas, const R& mean_k, double length_m, const R& difference_k) {
  const R conductivity = gas.conductivity_a + gas.conductivity_b * mean_k;
  const R viscosity = gas.viscosity_a + gas.viscosity_b * mean_k, heat = gas.heat_a + gas.heat_b * mean_k;
  const R density = (101325.0 * gas.molar_mass_kg_mol / gas_constant_j_mol_k) / mean_k;
  const double cube_m3 = length_m * length_m * length_m;
  return {
      density * density * (cube_m3 * gravity_m_s2) * heat * size_of(difference_k) / (mean_k * viscosity * conductivity),
      conductivity};
}

// ISO 15099 8.3.2.2, vertical: Nu = 0.56 Ra^(1/4) with Ra on the height, properties at T_air + (T_s - T_air)/4.
template <class R>
SUNSTRAIN_INLINE R natural_convection_w_m2k(const R& face_k, const R& air_k, double height_m, const Gas& air) {
  const Buoyancy<R> b = buoyancy<R>(air, air_k + 0.25 * (face_k - air_k), height_m, face_k - air_k);
  return 0.56 / height_m * root(root(b.rayleigh)) * b.conductivity_w_mk;
}

template <class R>
SUNSTRAIN_INLINE R radiation_w_m2k(double emissivity, const R& face_k, const R& surrounding_k) {
  return emissivity * stefan_boltzmann_w_m2k4 * (face_k * face_k + surrounding_k * surrounding_k) *
         (face_k + surrounding_k);
}

template <class R>
SUNSTRAIN_INLINE ExchangeOf<R> outdoor_exchange(const R& face_k, double emissivity, const LoadsOf<R>& loads) {
  const R to_sky = loads.sky_view * radiation_w_m2k<R>(emissivity, face_k, loads.sky_k);
  const R to_surroundings = (1.0 - loads.sky_view) * radiation_w_m2k<R>(emissivity, face_k, loads.outdoor_air_k);
  const R total = loads.outdoor_convection_w_m2k + to_sky + to_surroundings;
  return {total,
          ((loads.outdoor_convection_w_m2k + to_surroundings) * loads.outdoor_air_k + to_sky * loads.sky_k) / total};
}

template <class R>
SUNSTRAIN_INLINE ExchangeOf<R> open_room(const R& face_k, double emissivity, double height_m, const LoadsOf<R>& loads,
                                         const Gas& air) {
  const R natural = natural_convection_w_m2k<R>(face_k, loads.room_air_k, height_m, air);
  const R convection = choose(loads.room_convection_w_m2k > 0.0, loads.room_convection_w_m2k, natural);
  const R radiation = radiation_w_m2k<R>(emissivity, face_k, loads.room_radiant_k);
  const R total = convection + radiation;
  return {total, (convection * loads.room_air_k + radiation * loads.room_radiant_k) / total};
}

// Nu of a vertical cavity, ISO 15099 5.3.3.5: the larger of the one over Ra and the one over Ra and the aspect ratio.
double cavity_nusselt(double rayleigh, double width_over_height);

template <class R>
SUNSTRAIN_INLINE R cavity_convection_w_m2k(const Gas& gas, double width_m, double height_m, const R& face1_k,
                                           const R& face2_k) {
  const Buoyancy<R> b = buoyancy<R>(gas, 0.5 * (face1_k + face2_k), width_m, face1_k - face2_k);
  return each(b.rayleigh, [&](double rayleigh) { return cavity_nusselt(rayleigh, width_m / height_m); }) *
         b.conductivity_w_mk / width_m;
}

template <class R>
SUNSTRAIN_INLINE R cavity_radiation_w_m2k(double emissivity1, double emissivity2, const R& face1_k, const R& face2_k) {
  return stefan_boltzmann_w_m2k4 / (1.0 / emissivity1 + 1.0 / emissivity2 - 1.0) *
         (face1_k * face1_k + face2_k * face2_k) * (face1_k + face2_k);
}

// A cavity that air streams through by buoyancy, in at one end and out at the other: each face gives hcv = 2 hc + 4 v
// to air at T_gap = T_ave - share (T_ave - T_in) (ISO 15099, ventilated layers), which is hcv (1 - share)/2 from face
// to face and hcv share from each face to the air that comes in.
struct Stream {
  double between_w_m2k, to_air_w_m2k;
};
Stream stream_through(const ThermalCavity& cavity, double height_m, double face1_k, double face2_k, double inlet_k,
                      double closed_w_m2k);

// The blind and the air behind it, from where their balance is looked for and then where it was found, and how their
// temperatures answered what was off (surface_exchange.cpp); blind_k 0: nothing known.
template <class R>
struct BlindGuessOf {
  R blind_k, gap_k, answers[4];
};
using BlindGuess = BlindGuessOf<double>;

// Behind the closed part of a blind, whose balance is settled to the given error: see surface_exchange.cpp. Of lanes
// only those that are wanted.
void put_behind_shade(double face_k, double face_emissivity, double height_m, const LoadsOf<double>& loads,
                      const RoomShade& shade, const Gas& air, double settled_k, bool wanted, BlindGuess& guess,
                      ExchangeOf<double>& exchange);
void put_behind_shade(const Lanes& face_k, double face_emissivity, double height_m, const LoadsOf<Lanes>& loads,
                      const RoomShade& shade, const Gas& air, double settled_k, const LaneMask& wanted,
                      BlindGuessOf<Lanes>& guess, ExchangeOf<Lanes>& exchange);

// Where nothing stands before the glass its room side is the open room; else the open and the closed part share it.
// Lanes that are not wanted have the open room.
template <class R>
SUNSTRAIN_INLINE ExchangeOf<R> room_exchange(const R& face_k, double emissivity, double height_m,
                                             const LoadsOf<R>& loads, const ExchangeOf<R>& open, const RoomShade& shade,
                                             const Gas& air, double blind_settled_k,
                                             const typename MaskOf<R>::Type& wanted, BlindGuessOf<R>& guess) {
  if (shade.closure <= 0.0) return open;
  ExchangeOf<R> shut = open;
  put_behind_shade(face_k, emissivity, height_m, loads, shade, air, blind_settled_k, wanted, guess, shut);
  const R open_part = (1.0 - shade.closure) * open.conductance_w_m2k;
  const R shut_part = shade.closure * shut.conductance_w_m2k;
  return {open_part + shut_part,
          (open_part * open.temperature_k + shut_part * shut.temperature_k) / (open_part + shut_part)};
}

// Puts one pane's loads into a lane.
template <class R>
void put_loads(const StepLoads& from, std::size_t at, LoadsOf<R>& into) {
  set_lane(into.outdoor_air_k, at, from.outdoor_air_k);
  set_lane(into.outdoor_convection_w_m2k, at, from.outdoor_convection_w_m2k);
  set_lane(into.sky_k, at, from.sky_k);
  set_lane(into.sky_view, at, from.sky_view);
  set_lane(into.room_air_k, at, from.room_air_k);
  set_lane(into.room_radiant_k, at, from.room_radiant_k);
  set_lane(into.room_convection_w_m2k, at, from.room_convection_w_m2k);
  set_lane(into.shade_absorbed_w_m2, at, from.shade_absorbed_w_m2);
  set_lane(into.frame_absorbed_w_m2, at, from.frame_absorbed_w_m2);
  set_lane(into.rim_less_w_m2, at, from.rim_less_w_m2);
  for (std::size_t j = 0; j < from.absorbed.size(); ++j) {
    set_lane(into.outer_face_w_m2[j], at, from.absorbed[j].outer_face_w_m2);
    set_lane(into.bulk_w_m2[j], at, from.absorbed[j].bulk_w_m2);
    set_lane(into.inner_face_w_m2[j], at, from.absorbed[j].inner_face_w_m2);
  }
}

inline LoadsOf<double> loads_of(const StepLoads& loads) {
  LoadsOf<double> of{};
  put_loads(loads, 0, of);
  return of;
}

}  // namespace sunstrain::internal
