#include "loads.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace sunstrain::internal {
namespace {

constexpr int angles = 180;  // half a degree apart: linear between them is good to 2e-5 of the sun

// What a sash in front takes up, and what gets through to the room.
struct Beside {
  double transmitted = 0.0;
  std::array<double, most_lites> sash_w_m2{};
};

void mix(const Absorption& from, double weight, std::size_t before, StepLoads& loads, Beside& beside) {
  beside.transmitted += weight * from.transmitted;
  for (std::size_t j = 0; j < before; ++j) beside.sash_w_m2[j] += weight * from.lites[j].total();
  // Heat made evenly through a sheet warms its mean by a third of what the same heat made at the middle would
  // (q t/12 against q t/4 over lambda): a third of it on each face and a third in the mean is exact when steady.
  for (std::size_t j = 0; j < loads.absorbed.size(); ++j) {
    const LiteAbsorption& lite = from.lites[before + j];
    const double third = lite.bulk / 3.0;
    loads.absorbed[j].outer_face_w_m2 += weight * (lite.outer_face + third);
    loads.absorbed[j].bulk_w_m2 += weight * third;
    loads.absorbed[j].inner_face_w_m2 += weight * (lite.inner_face + third);
  }
}

// The glass behind a sash meets still air and, beyond it, the sash, which holds no heat: resistances in a row. What
// each of its lites takes up raises the temperature at the end of the row by q times the resistance from there to
// outdoors.
void behind_sash(const SashBefore& sash, std::span<const double> takes_up_w_m2, StepLoads& loads) {
  const Exchange out = outdoor_exchange(loads.outdoor_air_k, sash.emissivity, loads);
  const double film_m2kw = 1.0 / out.conductance_w_m2k;
  loads.outdoor_air_k = out.temperature_k;
  for (std::size_t j = 0; j < sash.to_lite_m2kw.size(); ++j)
    loads.outdoor_air_k += takes_up_w_m2[j] * (film_m2kw + sash.to_lite_m2kw[j]);
  loads.outdoor_convection_w_m2k = 1.0 / (film_m2kw + sash.own_m2kw + sash.gap_m2kw);
  loads.sky_view = 0.0;
}

}  // namespace

AbsorptionTable::AbsorptionTable(const GlazingState& state, double back_reflectance)
    : diffuse_(absorb_diffuse(state.optics, back_reflectance)), before_(state.optics_before) {
  const std::size_t rim = before_ + state.thermal.rim_lite;
  for (int i = 0; i < angles; ++i) {
    const double angle_rad = 0.5 * std::numbers::pi * i / angles;
    beam_.push_back(absorb_beam(state.optics, angle_rad, back_reflectance));
    if (state.without_film.empty()) continue;
    const Absorption bare = absorb_beam(state.without_film, angle_rad, back_reflectance);
    rim_less_.push_back(beam_.back().lites[rim].total() - bare.lites[rim].total());
  }
  if (!state.without_film.empty())
    rim_less_of_diffuse_ =
        diffuse_.lites[rim].total() - absorb_diffuse(state.without_film, back_reflectance).lites[rim].total();
}

AbsorptionTable::Place AbsorptionTable::place(double cos_incidence) const {
  const double at = std::acos(std::clamp(cos_incidence, 0.0, 1.0)) / (0.5 * std::numbers::pi) * angles;
  const auto below = std::min(static_cast<std::size_t>(at), beam_.size() - 2);
  return {below, std::min(at - static_cast<double>(below), 1.0)};
}

AbsorptionTable::Between AbsorptionTable::beam(double cos_incidence) const {
  const auto [below, share] = place(cos_incidence);
  return {beam_[below], beam_[below + 1], share};
}

double AbsorptionTable::rim_less_of_beam(double cos_incidence) const {
  if (rim_less_.empty()) return 0.0;
  const auto [below, share] = place(cos_incidence);
  return (1.0 - share) * rim_less_[below] + share * rim_less_[below + 1];
}

Case pane_of_part(const Case& pane, const OtherPart& part) {
  Case other = pane;
  other.room = part.room;
  other.sash = part.sash;
  return other;
}

StepLoads step_loads(const Case& pane, const AbsorptionTable& table, const DayStep& step, DayKind day,
                     double beam_on_glass) {
  const RoomSide& room = pane.room;
  const double room_k = day == DayKind::cold_clear ? room.winter_k : room.summer_k;
  StepLoads loads{step.outdoor_air_k,
                  pane.outdoor_convection_w_m2k,
                  step.sky_k,
                  pane.sky_view,
                  room.forced_convection_w_m2k > 0.0 ? std::max(room.forced_air_k, room_k) : room_k,
                  room_k,
                  room.forced_convection_w_m2k,
                  {},
                  0.0,
                  0.0};
  const double diffuse_w_m2 = step.pane.diffuse_w_m2();
  loads.absorbed.resize(table.diffuse().lites.size() - table.before());
  Beside beside;
  mix(table.diffuse(), diffuse_w_m2, table.before(), loads, beside);
  const auto add_beam = [&](double beam_w_m2, double cos_incidence) {
    if (beam_w_m2 <= 0.0) return;
    const auto [below, above, share] = table.beam(cos_incidence);
    mix(below, beam_w_m2 * (1.0 - share), table.before(), loads, beside);
    mix(above, beam_w_m2 * share, table.before(), loads, beside);
    loads.rim_less_w_m2 += beam_w_m2 * table.rim_less_of_beam(cos_incidence);
  };
  add_beam(step.pane.beam_w_m2 * beam_on_glass, step.pane.cos_incidence);
  add_beam(step.pane.water_w_m2, step.pane.water_cos_incidence);
  loads.rim_less_w_m2 += diffuse_w_m2 * table.rim_less_of_diffuse();
  if (room.sign_reflectance)
    loads.absorbed.back().inner_face_w_m2 += beside.transmitted;  // nothing passes it
  else
    loads.shade_absorbed_w_m2 = beside.transmitted * room.shade_absorptance;
  loads.frame_absorbed_w_m2 = pane.frame_solar_absorptance *
                              ((step.pane.beam_w_m2 + step.pane.water_w_m2) * pane.frame_beam_share + diffuse_w_m2);
  if (pane.sash) behind_sash(*pane.sash, beside.sash_w_m2, loads);
  return loads;
}

}  // namespace sunstrain::internal
