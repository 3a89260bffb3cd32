#include "sunstrain/frame_u.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sunstrain {
namespace {

constexpr double outdoor_m2k_w = 0.04, room_m2k_w = 0.13;  // ISO 10077-2, plane faces
constexpr double widest = 2.0, best_link = 4.0;

struct Resistances {
  double films, body;  // m K/W
  double all() const { return films + body; }
};

Resistances resistances(const FrameFit& fit) {
  return {outdoor_m2k_w / fit.outer_area_m + room_m2k_w / fit.inner_area_m,
          fit.outer_resistance_mk_w + 1.0 / fit.middle_conductance_w_mk + fit.inner_resistance_mk_w};
}

const FrameFit& fit_of(const FrameKind& kind, bool sealed) { return sealed ? kind.sealed : kind.single; }

FrameFit joined(FrameFit fit, double wanted_mk_w) {
  const double rest = resistances(fit).all() - 1.0 / fit.middle_conductance_w_mk;
  fit.middle_conductance_w_mk = 1.0 / (wanted_mk_w - rest);
  return fit;
}

FrameFit of_other_stuff(FrameFit fit, double wanted_mk_w) {
  const auto [films, body] = resistances(fit);
  const double root = (std::sqrt(films * films + 4.0 * body * wanted_mk_w) - films) / (2.0 * body);
  const double m = root * root;
  for (double* resistance :
       {&fit.outer_resistance_mk_w, &fit.inner_resistance_mk_w, &fit.outer_contact_m2k_w, &fit.inner_contact_m2k_w})
    *resistance *= m;
  fit.middle_conductance_w_mk /= m;
  for (double* area : {&fit.outer_area_m, &fit.inner_area_m, &fit.sun_area_m}) *area /= root;
  return fit;
}

}  // namespace

FrameURange frame_u_range(const FrameKind& kind, bool sealed) {
  const FrameFit& fit = fit_of(kind, sealed);
  if (kind.body == FrameKind::Body::none)
    throw std::invalid_argument("a frame kind without a transmittance of its own");
  FrameURange range{fit.u_value_w_m2k / widest, fit.u_value_w_m2k * widest};
  if (kind.body == FrameKind::Body::solid) return range;
  const double whole = resistances(fit).all(), least = whole - (1.0 - 1.0 / best_link) / fit.middle_conductance_w_mk;
  range.highest_w_m2k = std::min(range.highest_w_m2k, fit.u_value_w_m2k * whole / least);
  return range;
}

FrameFit with_frame_u(const FrameKind& kind, bool sealed, double u_w_m2k) {
  const FrameURange range = frame_u_range(kind, sealed);
  if (!(u_w_m2k >= range.lowest_w_m2k && u_w_m2k <= range.highest_w_m2k))
    throw std::invalid_argument("a frame's transmittance outside the range of its kind");
  const FrameFit& fit = fit_of(kind, sealed);
  const double wanted_mk_w = resistances(fit).all() * fit.u_value_w_m2k / u_w_m2k;
  return kind.body == FrameKind::Body::solid ? of_other_stuff(fit, wanted_mk_w) : joined(fit, wanted_mk_w);
}

}  // namespace sunstrain
