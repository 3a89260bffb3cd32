// What a blind before the glass does to its room side, and the exchanges of one pane by name.
#include <algorithm>
#include <cmath>

#include "exchange.hpp"

namespace sunstrain {
namespace internal {
namespace {

struct GapFlow {
  double velocity_m_s, gap_k;
  double share;  // gap_k = average - share (average - inlet)
};
struct GapEnds {
  double z_in, z_out;  // pressure factors of the openings
};

// The buoyant stream between two faces that is open at head and sill, ISO 15099:
// rho0 T0 g H |Tgap - Tin|/(Tgap Tin) = rho v^2/2 (1 + Zin + Zout) + 12 mu H v/s^2, and the air's
// temperature along the way: Tgap = Tave - (H0/H)(Tout - Tin), H0 = rho cp s v/(2 hcv).
GapFlow vented_gap(double glass_k, double blind_k, double gap_k, double closed_w_m2k, double height_m, double gap_m,
                   double room_k, const GapEnds& ends, const Gas& air) {
  constexpr double reference_k = 283.0;
  const double density0 = gas_state(air, reference_k).density_kg_m3;
  const GasState state = gas_state(air, gap_k);
  const double driving_pa =
      density0 * reference_k * gravity_m_s2 * height_m * std::abs(gap_k - room_k) / (gap_k * room_k);
  const double quadratic = 0.5 * state.density_kg_m3 * (1.0 + ends.z_in + ends.z_out);
  const double linear = 12.0 * state.viscosity_pa_s * height_m / (gap_m * gap_m);
  const double velocity = (-linear + std::sqrt(linear * linear + 4.0 * quadratic * driving_pa)) / (2.0 * quadratic);
  const double face_w_m2k = 2.0 * closed_w_m2k + 4.0 * velocity;  // hcv = 2 hc + 4 v
  const double average_k = 0.5 * (glass_k + blind_k);
  const double length_m = state.density_kg_m3 * state.heat_j_kgk * gap_m * velocity / (2.0 * face_w_m2k);
  if (length_m < 1e-9) return {velocity, average_k, 0.0};
  const double out_k = average_k - (average_k - room_k) * std::exp(-height_m / length_m);
  return {velocity, average_k - length_m / height_m * (out_k - room_k),
          length_m / height_m * (1.0 - std::exp(-height_m / length_m))};
}

// Z = (A_s / (0.6 A_open) - 1)^2, A_s the gap's own section.
double slot_factor(double gap_m, double opening_m) { return std::pow(gap_m / (0.60 * opening_m) - 1.0, 2); }

// As wide as the gap at head and sill.
GapEnds open_ends() { return {std::pow(1.0 / 0.66 - 1.0, 2), std::pow(1.0 / 0.60 - 1.0, 2)}; }

}  // namespace

// The share is halved in on: the nearer the air in the gap stays to the air that comes in, the less drives it, so what
// the stream makes of a share falls as the share rises.
Stream stream_through(const ThermalCavity& cavity, double height_m, double face1_k, double face2_k, double inlet_k,
                      double closed_w_m2k) {
  constexpr int halvings = 48;
  const double z = slot_factor(cavity.width_m, cavity.opening_m), average_k = 0.5 * (face1_k + face2_k);
  double low = 0.0, high = 1.0;
  GapFlow flow{};
  for (int i = 0; i < halvings; ++i) {
    const double share = 0.5 * (low + high);
    flow = vented_gap(face1_k, face2_k, average_k - share * (average_k - inlet_k), closed_w_m2k, height_m,
                      cavity.width_m, inlet_k, {z, z}, cavity.gas);
    (flow.share > share ? low : high) = share;
  }
  const double face_w_m2k = 2.0 * closed_w_m2k + 4.0 * flow.velocity_m_s;
  return {0.5 * face_w_m2k * (1.0 - flow.share), face_w_m2k * flow.share};
}

// Glass behind a closed part of a blind: the blind's own balance is settled with the gap's.
ExchangeOf<double> behind_shade(double face_k, double face_emissivity, double height_m, const LoadsOf<double>& loads,
                                const RoomShade& shade, const Gas& air) {
  double blind_k = 0.5 * (face_k + loads.room_air_k), gap_k = 0.5 * (face_k + blind_k);
  double face_w_m2k = 0.0, radiation = 0.0;
  for (int round = 0; round < 200; ++round) {
    const double closed = sunstrain::cavity_convection_w_m2k(air, shade.gap_m, height_m, face_k, blind_k);
    double velocity = 0.0, next_gap_k = 0.5 * (face_k + blind_k);
    if (shade.vented) {
      const GapFlow flow =
          vented_gap(face_k, blind_k, gap_k, closed, height_m, shade.gap_m, loads.room_air_k, open_ends(), air);
      velocity = flow.velocity_m_s;
      next_gap_k = flow.gap_k;
    }
    gap_k = 0.5 * (gap_k + next_gap_k);  // halved steps: the stream and its temperature chase each other
    face_w_m2k = 2.0 * closed + 4.0 * velocity;
    radiation = sunstrain::cavity_radiation_w_m2k(face_emissivity, shade.emissivity, face_k, blind_k);
    const double room_w_m2k = natural_convection_w_m2k<double>(blind_k, loads.room_air_k, height_m, air);
    const double room_radiation = radiation_w_m2k<double>(shade.emissivity, blind_k, loads.room_radiant_k);
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

}  // namespace internal

Exchange room_exchange(double face_k, double face_emissivity, double height_m, const StepLoads& loads,
                       const RoomShade& shade, const Gas& air) {
  const internal::LoadsOf<double> of = internal::loads_of(loads);
  const auto open = internal::open_room<double>(face_k, face_emissivity, height_m, of, air);
  const auto found = internal::room_exchange<double>(face_k, face_emissivity, height_m, of, open, shade, air);
  return {found.conductance_w_m2k, found.temperature_k};
}

Exchange outdoor_exchange(double face_k, double face_emissivity, const StepLoads& loads) {
  const auto found = internal::outdoor_exchange<double>(face_k, face_emissivity, internal::loads_of(loads));
  return {found.conductance_w_m2k, found.temperature_k};
}

}  // namespace sunstrain
