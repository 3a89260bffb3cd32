// What a blind before the glass does to its room side, and the exchanges of one pane by name.
#include <algorithm>
#include <array>
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
  const double left = std::exp(-height_m / length_m);
  const double out_k = average_k - (average_k - room_k) * left;
  return {velocity, average_k - length_m / height_m * (out_k - room_k), length_m / height_m * (1.0 - left)};
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

namespace {

// The blind and the air between it and the glass, at some temperatures of theirs; next_blind_k and next_gap_k are what
// the balances then ask for.
struct BehindShade {
  double blind_k, gap_k;
  double face_w_m2k = 0.0, radiation_w_m2k = 0.0, next_blind_k = 0.0, next_gap_k = 0.0;
  double blind_off_k() const { return next_blind_k - blind_k; }
  double gap_off_k() const { return next_gap_k - gap_k; }
  double off_k() const { return std::abs(blind_off_k()) + std::abs(gap_off_k()); }
};

struct ShadedFace {
  double face_k, emissivity, height_m;
  const LoadsOf<double>& loads;
  const RoomShade& shade;
  const Gas& air;

  BehindShade at(double blind_k, double gap_k) const {
    BehindShade found{blind_k, gap_k};
    const double closed = sunstrain::cavity_convection_w_m2k(air, shade.gap_m, height_m, face_k, blind_k);
    double velocity = 0.0;
    found.next_gap_k = 0.5 * (face_k + blind_k);
    if (shade.vented) {
      const GapFlow flow =
          vented_gap(face_k, blind_k, gap_k, closed, height_m, shade.gap_m, loads.room_air_k, open_ends(), air);
      velocity = flow.velocity_m_s;
      found.next_gap_k = flow.gap_k;
    }
    const double face = 2.0 * closed + 4.0 * velocity;
    const double radiation = sunstrain::cavity_radiation_w_m2k(emissivity, shade.emissivity, face_k, blind_k);
    const double room_w_m2k = natural_convection_w_m2k<double>(blind_k, loads.room_air_k, height_m, air);
    const double room_radiation = radiation_w_m2k<double>(shade.emissivity, blind_k, loads.room_radiant_k);
    found.next_blind_k = (radiation * face_k + face * gap_k + room_w_m2k * loads.room_air_k +
                          room_radiation * loads.room_radiant_k + loads.shade_absorbed_w_m2) /
                         (radiation + face + room_w_m2k + room_radiation);
    found.face_w_m2k = face;
    found.radiation_w_m2k = radiation;
    return found;
  }
  BehindShade first() const {
    const double blind_k = 0.5 * (face_k + loads.room_air_k);
    return at(blind_k, 0.5 * (face_k + blind_k));
  }
};

// Broyden's good method (Mathematics of Computation 19 (1965) 577-593) on the two temperatures: a third of the rounds
// that halved steps take. Where it leaves the track it begins anew from a halved step; it may not settle. `h`: of what
// is off, the step that is taken, two rows; in and out.
using Answers = std::array<double, 4>;
constexpr Answers halved{1.0, 0.0, 0.0, 0.5};
BehindShade settled_by_secants(const ShadedFace& face, BehindShade now, double settled_k, Answers& h) {
  constexpr int most_rounds = 30;
  constexpr double longest = 3.0;  // step, in sizes of what is off
  for (int round = 0; round < most_rounds && now.off_k() >= settled_k; ++round) {
    const double blind_off = now.blind_off_k(), gap_off = now.gap_off_k();
    double blind = h[0] * blind_off + h[1] * gap_off, gap = h[2] * blind_off + h[3] * gap_off;
    if (!(std::abs(blind) + std::abs(gap) <= longest * now.off_k())) {
      h = halved;
      blind = blind_off;
      gap = 0.5 * gap_off;
    }
    now = face.at(now.blind_k + blind, now.gap_k + gap);
    const double blind_change = now.blind_off_k() - blind_off, gap_change = now.gap_off_k() - gap_off;
    const double blind_moved = h[0] * blind_change + h[1] * gap_change;
    const double gap_moved = h[2] * blind_change + h[3] * gap_change;
    const double along = blind * blind_moved + gap * gap_moved;
    if (along == 0.0) continue;
    const double to_blind = (blind * h[0] + gap * h[2]) / along, to_gap = (blind * h[1] + gap * h[3]) / along;
    h[0] -= (blind + blind_moved) * to_blind;
    h[1] -= (blind + blind_moved) * to_gap;
    h[2] -= (gap + gap_moved) * to_blind;
    h[3] -= (gap + gap_moved) * to_gap;
  }
  return now;
}

// Halved steps: the stream and its temperature chase each other.
BehindShade settled_by_halves(const ShadedFace& face, double settled_k) {
  BehindShade now = face.first();
  for (int round = 0; round < 200 && now.off_k() >= settled_k; ++round)
    now = face.at(now.next_blind_k, 0.5 * (now.gap_k + now.next_gap_k));
  return now;
}

// Glass behind a closed part of a blind: the blind's own balance is settled with the gap's.
ExchangeOf<double> behind_shade(double face_k, double face_emissivity, double height_m, const LoadsOf<double>& loads,
                                const RoomShade& shade, const Gas& air, double settled_k, BlindGuess& guess) {
  const ShadedFace face{face_k, face_emissivity, height_m, loads, shade, air};
  const bool guessed = guess.blind_k > 0.0;
  Answers answers = halved;
  if (guessed) std::copy_n(guess.answers, answers.size(), answers.begin());
  BehindShade found =
      settled_by_secants(face, guessed ? face.at(guess.blind_k, guess.gap_k) : face.first(), settled_k, answers);
  if (!(found.off_k() < settled_k)) {
    found = settled_by_halves(face, settled_k);
    answers = halved;
  }
  guess.blind_k = found.blind_k;
  guess.gap_k = found.gap_k;
  std::copy(answers.begin(), answers.end(), guess.answers);
  const double total = found.face_w_m2k + found.radiation_w_m2k;
  return {total, (found.face_w_m2k * found.gap_k + found.radiation_w_m2k * found.blind_k) / total};
}

}  // namespace

void put_behind_shade(double face_k, double face_emissivity, double height_m, const LoadsOf<double>& loads,
                      const RoomShade& shade, const Gas& air, double settled_k, bool wanted, BlindGuess& guess,
                      ExchangeOf<double>& exchange) {
  if (wanted) exchange = behind_shade(face_k, face_emissivity, height_m, loads, shade, air, settled_k, guess);
}

void put_behind_shade(const Lanes& face_k, double face_emissivity, double height_m, const LoadsOf<Lanes>& loads,
                      const RoomShade& shade, const Gas& air, double settled_k, const LaneMask& wanted,
                      BlindGuessOf<Lanes>& guess, ExchangeOf<Lanes>& exchange) {
  for (std::size_t i = 0; i < lane_count; ++i) {
    if (!lane(wanted, i)) continue;
    LoadsOf<double> one{};
    one.room_air_k = loads.room_air_k[i];
    one.room_radiant_k = loads.room_radiant_k[i];
    one.shade_absorbed_w_m2 = loads.shade_absorbed_w_m2[i];
    BlindGuess near{guess.blind_k[i], guess.gap_k[i], {}};
    for (std::size_t k = 0; k < 4; ++k) near.answers[k] = guess.answers[k][i];
    const ExchangeOf<double> found =
        behind_shade(face_k[i], face_emissivity, height_m, one, shade, air, settled_k, near);
    exchange.conductance_w_m2k.set(i, found.conductance_w_m2k);
    exchange.temperature_k.set(i, found.temperature_k);
    guess.blind_k.set(i, near.blind_k);
    guess.gap_k.set(i, near.gap_k);
    for (std::size_t k = 0; k < 4; ++k) guess.answers[k].set(i, near.answers[k]);
  }
}

}  // namespace internal

Exchange room_exchange(double face_k, double face_emissivity, double height_m, const StepLoads& loads,
                       const RoomShade& shade, const Gas& air) {
  const internal::LoadsOf<double> of = internal::loads_of(loads);
  const auto open = internal::open_room<double>(face_k, face_emissivity, height_m, of, air);
  internal::BlindGuessOf<double> guess{};
  const auto found = internal::room_exchange<double>(face_k, face_emissivity, height_m, of, open, shade, air,
                                                     MarchCare{}.blind_settled_k, true, guess);
  return {found.conductance_w_m2k, found.temperature_k};
}

Exchange outdoor_exchange(double face_k, double face_emissivity, const StepLoads& loads) {
  const auto found = internal::outdoor_exchange<double>(face_k, face_emissivity, internal::loads_of(loads));
  return {found.conductance_w_m2k, found.temperature_k};
}

}  // namespace sunstrain
