#include "other_part.hpp"

#include "sunstrain/job_keys.hpp"

namespace sunstrain::internal {
namespace {

// The share of the pane that lies along one of its sides, seen from outdoors.
ShadowPlan::Part along(const std::string& name, const std::string& side, double share) {
  ShadowPlan::Part part{name};
  if (side == "top") part.bottom = 1.0 - share;
  if (side == "bottom") part.top = share;
  if (side == "left") part.right = share;
  if (side == "right") part.left = 1.0 - share;
  return part;
}

void put(const ShadowPlan::Part& part, const OtherPart& before, const OtherPart& after, Case& pane) {
  pane.shadow.part = part;
  pane.before.other = std::make_shared<const OtherPart>(before);
  pane.after.other = std::make_shared<const OtherPart>(after);
}

// Before film the pane is alike all over.
void put_bare(const std::string& side, double share, Case& pane) {
  pane.shadow.part = along("bare part", side, share);
  pane.after.other = std::make_shared<const OtherPart>(OtherPart{pane.before, pane.room});
}

void put_blind(const std::string& side, Case& pane) {
  const double share = pane.room.shade.closure;
  if (share <= 0.0 || share >= 1.0) return;  // all open or all closed
  RoomSide behind = pane.room;
  behind.shade.closure = 1.0;
  pane.room.shade.closure = 0.0;
  put(along("half-drawn blind", side, share), {pane.before, behind}, {pane.after, behind}, pane);
}

ShadowPlan::Part place_of_sign(const Job& job, const Case& pane) {
  const double left_m = *number_of(job, "sign.left"), bottom_m = *number_of(job, "sign.bottom");
  return {"sign", left_m / pane.width_m, (left_m + *number_of(job, "sign.width")) / pane.width_m,
          bottom_m / pane.height_m, (bottom_m + *number_of(job, "sign.height")) / pane.height_m};
}

// On the room face what passes the glazing meets it; on the outdoor face nothing gets past it into the glass.
OtherPart under_sign(const GlazingState& state, const RoomSide& room, bool inside, double reflectance,
                     double emissivity) {
  OtherPart part{state, room};
  if (inside) {
    part.room.sign_reflectance = reflectance;
    part.state.thermal.lites.back().emissivity_inner = emissivity;
    return part;
  }
  part.state.optics.front().outer_face = {0.0, reflectance, reflectance};
  part.state.thermal.lites.front().emissivity_outer = emissivity;
  if (!part.state.without_film.empty())
    part.state.without_film.front().outer_face = part.state.optics.front().outer_face;
  return part;
}

void put_sign(const Job& job, bool inside, const Reference& reference, Case& pane) {
  const double reflectance = *number_of(job, "sign.reflectance"), emissivity = constant(reference, "sign_emissivity");
  const auto under = [&](const GlazingState& state) {
    return under_sign(state, pane.room, inside, reflectance, emissivity);
  };
  put(place_of_sign(job, pane), under(pane.before), under(pane.after), pane);
}

// Of a sash of this glazing, without film.
SashBefore sash_of(const Glazing& glazing, const Reference& reference) {
  constexpr double mean_k = 283.15, difference_k = 15.0;  // as EN 673 declares
  SashBefore sash{{}, 0.0, constant(reference, "sash_gap_resistance_m2kw"), glazing.lites.front().emissivity_outer};
  for (std::size_t k = 0; k < glazing.lites.size(); ++k) {
    const double half_m2kw = 0.5 * glazing.lites[k].thickness_m / glazing.material.conductivity_w_mk;
    sash.to_lite_m2kw.push_back(sash.own_m2kw + half_m2kw);
    sash.own_m2kw += 2.0 * half_m2kw;
    if (k >= glazing.cavities.size()) break;
    const ThermalCavity& cavity = glazing.cavities[k];
    if (cavity.solid()) {
      sash.own_m2kw += cavity.width_m / cavity.solid_w_mk;
      continue;
    }
    sash.own_m2kw += 1.0 / (cavity_convection_en673_w_m2k(cavity.gas, cavity.width_m, mean_k, difference_k) +
                            cavity_radiation_w_m2k(glazing.lites[k].emissivity_inner,
                                                   glazing.lites[k + 1].emissivity_outer, mean_k, mean_k));
  }
  return sash;
}

// The same sash, without film, stands before the part: its optics come first, and the part's outer face sees it alone.
OtherPart behind_sash(const GlazingState& state, const GlazingState& bare, const RoomSide& room,
                      const Reference& reference) {
  OtherPart part{state, room};
  const auto put_before = [&](std::vector<OpticalLite>& optics) {
    if (!optics.empty()) optics.insert(optics.begin(), bare.optics.begin(), bare.optics.end());
  };
  put_before(part.state.optics);
  put_before(part.state.without_film);
  part.state.optics_before = bare.optics.size();
  part.state.thermal.lites.front().emissivity_outer = 0.0;  // counted in the gap's conductance
  part.sash = sash_of(bare.thermal, reference);
  return part;
}

void put_sash(const Job& job, const std::string& side, const Reference& reference, Case& pane) {
  if (2 * pane.before.optics.size() > most_lites)
    throw BadInput("{}: sash.side: two such sashes are more sheets of glass than are worked, {}", job.source,
                   most_lites);
  const double share = *number_of(job, "sash.share");
  const OtherPart before = behind_sash(pane.before, pane.before, pane.room, reference),
                  after = behind_sash(pane.after, pane.before, pane.room, reference);
  put(along("sash in front", side, share), before, after, pane);
}

}  // namespace

void put_other_part(const Job& job, const Reference& reference, Case& pane) {
  const std::string drawn = word_of(job, "inside.drawn").value_or("evenly"),
                    side = word_of(job, "sign.side").value_or("none"),
                    bare = word_of(job, "film.bare").value_or("none");
  if (drawn != "evenly") put_blind(drawn.substr(std::string("from-").size()), pane);
  if (side != "none") put_sign(job, side == "inside", reference, pane);
  if (const std::string sash = word_of(job, "sash.side").value_or("none"); sash != "none")
    put_sash(job, sash, reference, pane);
  if (bare != "none") put_bare(bare, *number_of(job, "film.bare_share"), pane);
}

}  // namespace sunstrain::internal
