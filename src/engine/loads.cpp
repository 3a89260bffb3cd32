#include "loads.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunstrain::internal {
namespace {

constexpr int angles = 180;  // half a degree apart: linear between them is good to 2e-5 of the sun

void mix(Absorption& into, const Absorption& from, double weight) {
  into.transmitted += weight * from.transmitted;
  into.reflected += weight * from.reflected;
  into.lites.resize(from.lites.size());
  for (std::size_t j = 0; j < from.lites.size(); ++j) {
    into.lites[j].outer_face += weight * from.lites[j].outer_face;
    into.lites[j].bulk += weight * from.lites[j].bulk;
    into.lites[j].inner_face += weight * from.lites[j].inner_face;
  }
}

}  // namespace

AbsorptionTable::AbsorptionTable(std::span<const OpticalLite> lites, double back_reflectance)
    : diffuse_(absorb_diffuse(lites, back_reflectance)) {
  for (int i = 0; i < angles; ++i) {
    beam_.push_back(absorb_beam(lites, 0.5 * std::numbers::pi * i / angles, back_reflectance));
  }
}

Absorption AbsorptionTable::beam(double cos_incidence) const {
  const double position = std::acos(std::clamp(cos_incidence, 0.0, 1.0)) / (0.5 * std::numbers::pi) * angles;
  const auto below = std::min(static_cast<std::size_t>(position), beam_.size() - 2);
  const double share = std::min(position - static_cast<double>(below), 1.0);
  Absorption result{0.0, 0.0, {}};
  mix(result, beam_[below], 1.0 - share);
  mix(result, beam_[below + 1], share);
  return result;
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
  const double diffuse_w_m2 = step.pane.sky_w_m2 + step.pane.ground_w_m2;
  Absorption taken{0.0, 0.0, {}};
  mix(taken, table.diffuse(), diffuse_w_m2);
  const double beam_w_m2 = step.pane.beam_w_m2 * beam_on_glass;
  if (beam_w_m2 > 0.0) mix(taken, table.beam(step.pane.cos_incidence), beam_w_m2);
  // Heat made evenly through a sheet warms its mean by a third of what the same heat made at the middle would
  // (q t/12 against q t/4 over lambda): a third of it on each face and a third in the mean is exact when steady.
  for (const LiteAbsorption& lite : taken.lites) {
    loads.absorbed.push_back({lite.outer_face + lite.bulk / 3.0, lite.bulk / 3.0, lite.inner_face + lite.bulk / 3.0});
  }
  loads.shade_absorbed_w_m2 = taken.transmitted * room.shade_absorptance;
  loads.frame_absorbed_w_m2 =
      pane.frame_solar_absorptance * (step.pane.beam_w_m2 * pane.frame_beam_share + diffuse_w_m2);
  return loads;
}

}  // namespace sunstrain::internal
