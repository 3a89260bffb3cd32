// What the two outer faces of a glazing exchange with outdoors and with the room, a blind included.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "sunstrain/heat.hpp"

namespace sunstrain {
namespace {

// ISO 15099 8.3.2.2, vertical: Nu = 0.56 Ra^(1/4) with Ra on the height, properties at T_air + (T_s - T_air)/4.
double natural_convection_w_m2k(double face_k, double air_k, double height_m, const Gas& air) {
  const double film_k = air_k + 0.25 * (face_k - air_k);
  const GasState state = gas_state(air, film_k);
  const double rayleigh = state.density_kg_m3 * state.density_kg_m3 * std::pow(height_m, 3) * gravity_m_s2 *
                          state.heat_j_kgk * std::abs(face_k - air_k) /
                          (film_k * state.viscosity_pa_s * state.conductivity_w_mk);
  return 0.56 * std::sqrt(std::sqrt(rayleigh)) * state.conductivity_w_mk / height_m;
}

double radiation_w_m2k(double emissivity, double face_k, double surrounding_k) {
  return emissivity * stefan_boltzmann_w_m2k4 * (face_k * face_k + surrounding_k * surrounding_k) *
         (face_k + surrounding_k);
}

struct GapFlow {
  double velocity_m_s, gap_k;
};

// The buoyant stream behind a blind that is open at head and sill by the width of its gap, ISO 15099:
// rho0 T0 g H |Tgap - Tin|/(Tgap Tin) = rho v^2/2 (1 + Zin + Zout) + 12 mu H v/s^2, and the air's
// temperature along the way: Tgap = Tave - (H0/H)(Tout - Tin), H0 = rho cp s v/(2 hcv).
GapFlow vented_gap(double glass_k, double blind_k, double gap_k, double closed_w_m2k, double height_m, double gap_m,
                   double room_k, const Gas& air) {
  constexpr double reference_k = 283.0;
  const double density0 = gas_state(air, reference_k).density_kg_m3;
  const GasState state = gas_state(air, gap_k);
  const double driving_pa =
      density0 * reference_k * gravity_m_s2 * height_m * std::abs(gap_k - room_k) / (gap_k * room_k);
  const double z_in = std::pow(1.0 / 0.66 - 1.0, 2), z_out = std::pow(1.0 / 0.60 - 1.0, 2);
  const double quadratic = 0.5 * state.density_kg_m3 * (1.0 + z_in + z_out);
  const double linear = 12.0 * state.viscosity_pa_s * height_m / (gap_m * gap_m);
  const double velocity = (-linear + std::sqrt(linear * linear + 4.0 * quadratic * driving_pa)) / (2.0 * quadratic);
  const double face_w_m2k = 2.0 * closed_w_m2k + 4.0 * velocity;  // hcv = 2 hc + 4 v
  const double average_k = 0.5 * (glass_k + blind_k);
  const double length_m = state.density_kg_m3 * state.heat_j_kgk * gap_m * velocity / (2.0 * face_w_m2k);
  if (length_m < 1e-9) return {velocity, average_k};
  const double out_k = average_k - (average_k - room_k) * std::exp(-height_m / length_m);
  return {velocity, average_k - length_m / height_m * (out_k - room_k)};
}

// Glass behind a closed part of a blind: the blind's own balance is settled with the gap's.
Exchange behind_shade(double face_k, double face_emissivity, double height_m, const StepLoads& loads,
                      const RoomShade& shade, const Gas& air) {
  double blind_k = 0.5 * (face_k + loads.room_air_k), gap_k = 0.5 * (face_k + blind_k);
  double face_w_m2k = 0.0, radiation = 0.0;
  for (int round = 0; round < 200; ++round) {
    const double closed = cavity_convection_w_m2k(air, shade.gap_m, height_m, face_k, blind_k);
    double velocity = 0.0, next_gap_k = 0.5 * (face_k + blind_k);
    if (shade.vented) {
      const GapFlow flow = vented_gap(face_k, blind_k, gap_k, closed, height_m, shade.gap_m, loads.room_air_k, air);
      velocity = flow.velocity_m_s;
      next_gap_k = flow.gap_k;
    }
    gap_k = 0.5 * (gap_k + next_gap_k);  // halved steps: the stream and its temperature chase each other
    face_w_m2k = 2.0 * closed + 4.0 * velocity;
    radiation = cavity_radiation_w_m2k(face_emissivity, shade.emissivity, face_k, blind_k);
    const double room_w_m2k = natural_convection_w_m2k(blind_k, loads.room_air_k, height_m, air);
    const double room_radiation = radiation_w_m2k(shade.emissivity, blind_k, loads.room_radiant_k);
    const double next_blind_k = (radiation * face_k + face_w_m2k * gap_k + room_w_m2k * loads.room_air_k +
                                 room_radiation * loads.room_radiant_k + loads.shade_absorbed_w_m2) /
                                (radiation + face_w_m2k + room_w_m2k + room_radiation);
    const double change = std::abs(next_blind_k - blind_k) + std::abs(next_gap_k - gap_k);
    blind_k = next_blind_k;
    if (change < 1e-6) break;  // well below what the glass itself is settled to, or that would never settle
  }
  const double total = face_w_m2k + radiation;
  return {total, (face_w_m2k * gap_k + radiation * blind_k) / total};
}

Exchange open_room(double face_k, double face_emissivity, double height_m, const StepLoads& loads, const Gas& air) {
  const double convection = loads.room_convection_w_m2k > 0.0
                                ? loads.room_convection_w_m2k
                                : natural_convection_w_m2k(face_k, loads.room_air_k, height_m, air);
  const double radiation = radiation_w_m2k(face_emissivity, face_k, loads.room_radiant_k);
  const double total = convection + radiation;
  return {total, (convection * loads.room_air_k + radiation * loads.room_radiant_k) / total};
}

}  // namespace

Exchange room_exchange(double face_k, double face_emissivity, double height_m, const StepLoads& loads,
                       const RoomShade& shade, const Gas& air) {
  const Exchange open = open_room(face_k, face_emissivity, height_m, loads, air);
  if (shade.closure <= 0.0) return open;
  const Exchange shut = behind_shade(face_k, face_emissivity, height_m, loads, shade, air);
  const double open_part = (1.0 - shade.closure) * open.conductance_w_m2k;
  const double shut_part = shade.closure * shut.conductance_w_m2k;
  return {open_part + shut_part,
          (open_part * open.temperature_k + shut_part * shut.temperature_k) / (open_part + shut_part)};
}

Exchange outdoor_exchange(double face_k, double face_emissivity, const StepLoads& loads) {
  const double to_sky = loads.sky_view * radiation_w_m2k(face_emissivity, face_k, loads.sky_k);
  const double to_surroundings = (1.0 - loads.sky_view) * radiation_w_m2k(face_emissivity, face_k, loads.outdoor_air_k);
  const double total = loads.outdoor_convection_w_m2k + to_sky + to_surroundings;
  return {total,
          ((loads.outdoor_convection_w_m2k + to_surroundings) * loads.outdoor_air_k + to_sky * loads.sky_k) / total};
}

}  // namespace sunstrain
