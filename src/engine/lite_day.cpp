// The edge stress of one lite through one day.
#include "lite_day.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "stress_kernels.hpp"
#include "sunstrain/bending.hpp"

namespace sunstrain::internal {
namespace {

struct GlassShape {
  double width_m, height_m, bite_m;
};  // edge to edge

GlassShape glass_shape(const Case& pane) {
  return {pane.width_m + 2 * pane.edge.bite_m, pane.height_m + 2 * pane.edge.bite_m, pane.edge.bite_m};
}

// What sets a pane's solver and everything made with it: its glass, and how sharp its shadows may be.
std::vector<double> pane_key(const Case& pane, double sharpest_m) {
  const GlassShape shape = glass_shape(pane);
  std::vector<double> key{shape.width_m,
                          shape.height_m,
                          shape.bite_m,
                          sharpest_m,
                          pane.shadow.moves() ? 1.0 : 0.0,
                          pane.shadow.mirrored_in_x() ? 1.0 : 0.0};
  for (const LightPart& part : light_of(pane.shadow, pane.width_m, pane.height_m, shape.bite_m, {}).parts) {
    const LitArea& lit = part.lit;
    key.insert(key.end(), {lit.left_m, lit.right_m, lit.bottom_m, lit.top_m, lit.diagonal ? 1.0 : 0.0});
  }
  return key;
}

// The value under a key, made when it is met first.
template <class Made, class Make>
const Made& kept(std::map<std::vector<double>, std::shared_ptr<const Made>>& store, std::vector<double> key,
                 Make make) {
  auto& slot = store[std::move(key)];
  if (!slot) slot = make();
  return *slot;
}

double highest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }

GlassShape turned(const GlassShape& shape) { return {shape.height_m, shape.width_m, shape.bite_m}; }

LitArea turned(const LitArea& lit) {
  LitArea other = lit;
  std::swap(other.left_m, other.bottom_m);
  std::swap(other.right_m, other.top_m);
  return other;
}

// Bottom, right, top, left of the turned pane are left, top, right, bottom of the pane.
void add_turned(std::span<const double> from, std::span<double> pa) {
  const std::size_t side = pa.size() / 4;
  for (std::size_t s = 0; s < 4; ++s)
    for (std::size_t i = 0; i < side; ++i) pa[(3 - s) * side + i] += from[s * side + i];
}

// How a pane's maps are told from its turned ones in the store.
constexpr double turned_mark = -1.0;

const EdgeStressSolver& solver_for(const Case& pane, const GlassShape& shape, std::vector<double> key,
                                   double sharpness_m, ChainCache::Store& store) {
  return kept(store.solvers, std::move(key), [&] {
    const FieldFeatures features =
        field_features(shape.width_m, shape.height_m, shape.bite_m, pane.shadow, sharpness_m);
    return std::make_shared<const EdgeStressSolver>(shape.width_m, shape.height_m, features, pane.elasticity);
  });
}

const StripRamps& ramps_for(const EdgeStressSolver& solver, const GlassShape& shape, std::vector<double> key,
                            std::span<const double> depth_m, ChainCache::Store& store) {
  key.insert(key.end(), depth_m.begin(), depth_m.end());
  return kept(store.ramps, std::move(key),
              [&] { return std::make_shared<const StripRamps>(solver, shape.width_m, shape.height_m, depth_m); });
}

const SoftBorders& borders_for(const StripRamps& ramps, std::vector<double> key, double blur,
                               ChainCache::Store& store) {
  const SharpBorders& sharp =
      kept(store.sharp_borders, key, [&] { return std::make_shared<const SharpBorders>(ramps); });
  key.push_back(blur);
  return kept(store.soft_borders, std::move(key), [&] { return std::make_shared<const SoftBorders>(sharp, blur); });
}

// What differs most comes first: most comparisons of two keys end there.
std::vector<double> border_map_key(const PaneMaps& maps, std::size_t nodes, const LitArea& lit, double blur) {
  std::vector<double> key{
      lit.top_m, lit.bottom_m, lit.left_m, lit.right_m, blur, lit.everything ? 1.0 : 0.0, static_cast<double>(nodes)};
  key.insert(key.end(), maps.key.begin(), maps.key.end());
  return key;
}

const StripStress& still_map(const PaneMaps& maps, const Case& pane, std::span<const double> depth_m,
                             const LitArea& lit, double blur, ChainCache::Store& store) {
  return kept(store.maps, border_map_key(maps, depth_m.size(), lit, blur), [&] {
    return std::make_shared<const StripStress>(ramps_for(*maps.solver, glass_shape(pane), maps.key, depth_m, store),
                                               lit, blur);
  });
}

// sharpest_m: the shortest blur of all lites, for which the solver is made.
PaneMaps pane_maps(const Case& pane, std::span<const double> depth_m, double blur, double sharpest_m,
                   ChainCache::Store& store) {
  const GlassShape shape = glass_shape(pane);
  const double sharpness_m = pane.shadow.uneven() ? sharpest_m : 0.0;
  PaneMaps maps{pane_key(pane, sharpness_m), blur, nullptr, nullptr, nullptr, nullptr, nullptr, nullptr};
  maps.solver = &solver_for(pane, shape, maps.key, sharpness_m, store);
  maps.whole = &still_map(maps, pane, depth_m, LitArea{}, 0.0, store);
  const bool diagonal = pane.shadow.pattern == ShadowPlan::Pattern::diagonal;
  if (!pane.shadow.moves() && !diagonal) return maps;
  maps.nodes = &kept(store.nodes, maps.key,
                     [&] { return std::make_shared<const StripNodes>(few_nodes(depth_m, shape.bite_m)); });
  if (diagonal) return maps;
  const StripRamps& ramps = ramps_for(*maps.solver, shape, maps.key, maps.nodes->depth_m, store);
  maps.light = std::make_shared<const StripLight>(ramps, blur);
  maps.borders = &borders_for(ramps, maps.key, blur, store);
  if (!pane.shadow.moves_sideways()) return maps;
  std::vector<double> key = maps.key;
  key.push_back(turned_mark);
  const EdgeStressSolver& solver = solver_for(pane, turned(shape), key, sharpness_m, store);
  const StripRamps& turned_ramps = ramps_for(solver, turned(shape), key, maps.nodes->depth_m, store);
  maps.turned = &borders_for(turned_ramps, key, blur, store);
  return maps;
}

}  // namespace

// Rounded down to steps of 2.5 mm, so that runs on one pane share their solver and maps.
double blur_m(const GlazingState& state, std::span<const DayStrips> days, std::size_t steps_a_day, std::size_t lite) {
  constexpr double step_m = 0.0025, least_m = 0.005;
  const std::size_t cavities = state.thermal.cavities.size();
  const auto [first, last] = state.thermal.joined(lite);
  double most_w_m2k = 0.0, thickness_m = 0.0;
  for (std::size_t sheet = first; sheet <= last; ++sheet) thickness_m += state.thermal.lites[sheet].thickness_m;
  for (const DayStrips& day : days) {
    const LineDay& line = *day.lit;
    for (std::size_t midday = steps_a_day / 2; midday < line.steps(); midday += steps_a_day) {
      const double* cavity_w_m2k = line.cavity_w_m2k.data() + midday * cavities;
      const double outside = first == 0 ? line.outdoor[midday].conductance_w_m2k : cavity_w_m2k[first - 1];
      const double inside = last == cavities ? line.room[midday].conductance_w_m2k : cavity_w_m2k[last];
      most_w_m2k = std::max(most_w_m2k, outside + inside);
    }
  }
  const double length_m = smearing_length_m(state.thermal.material.conductivity_w_mk, thickness_m, most_w_m2k);
  return std::max(least_m, std::floor(length_m / step_m) * step_m);
}

std::vector<PaneMaps> maps_of_lites(const Case& pane, const GlazingState& state, std::span<const DayStrips> days,
                                    std::size_t steps_a_day, ChainCache::Store& store) {
  std::vector<double> blurs;
  for (std::size_t lite = 0; lite < state.thermal.lites.size(); ++lite)
    blurs.push_back(blur_m(state, days, steps_a_day, lite));
  const double sharpest_m = *std::min_element(blurs.begin(), blurs.end());
  std::vector<PaneMaps> maps;
  for (double blur : blurs) maps.push_back(pane_maps(pane, days.front().lit->depth_m, blur, sharpest_m, store));
  return maps;
}

DayLight light_through(const Case& pane, std::span<const DayStep> steps) {
  DayLight light;
  if (!pane.shadow.uneven()) return light;
  const double bite_m = pane.edge.bite_m;
  const bool changes = pane.shadow.moves() || pane.shadow.leafless_pass;
  for (const DayStep& step : changes ? steps : steps.first(1))
    light.push_back(light_of(pane.shadow.in_month(step.month), pane.width_m, pane.height_m, bite_m, step.slope));
  return light;
}

std::vector<DayLight> light_of_days(const Case& pane, std::span<const DesignDay> days) {
  std::vector<DayLight> light;
  for (const DesignDay& day : days) light.push_back(light_through(pane, day.steps));
  return light;
}

LiteDay::LiteDay(const Case& pane, const DayLight& light, const DayStrips& strips, std::size_t lite,
                 const PaneMaps& maps, ChainCache::Store& store)
    : maps_(&maps), elasticity_(pane.elasticity), strips_(&strips), lite_(lite), light_(light) {
  const std::span<const double> nodes(maps.nodes == nullptr ? strips.lit->depth_m : maps.nodes->depth_m);
  for (const Light& at_step : light)
    for (const LightPart& part : at_step.parts)
      if ((maps.borders == nullptr || part.adds == LightPart::Adds::part) && still_of(part) == nullptr)
        still_.emplace_back(part.lit, &still_map(maps, pane, nodes, part.lit, maps.blur_m, store));
  if (pane.bottom_is_colder(lite)) {
    std::vector<double> key = maps.key;
    key.push_back(maps.blur_m);
    colder_pa_per_k_ = &kept(store.colder_bottoms, std::move(key), [&] {
      return std::make_shared<const std::vector<double>>(
          colder_bottom_stress_pa_per_k(*maps.solver, pane.edge.bite_m, maps.blur_m));
    });
    colder_k_ = pane.bottom_edge_colder_k;
    most_colder_pa_ = colder_k_ * highest(*colder_pa_per_k_);
  }
}

// Null: a border that moves.
const StripStress* LiteDay::still_of(const LightPart& part) const {
  for (const auto& [lit, map] : still_)
    if (lit == part.lit) return map;
  return nullptr;
}

LiteDay::Source LiteDay::source_of(const LightPart& part) const {
  if (const StripStress* still = still_of(part)) return {still};
  if (maps_->borders->covers(part.lit)) return {nullptr, maps_->borders};
  if (maps_->turned != nullptr && maps_->turned->covers(turned(part.lit))) return {nullptr, maps_->turned, true};
  return {};
}

std::span<const LightPart> LiteDay::parts_at(std::size_t step) const {
  if (light_.empty()) return {};
  return light_[light_.size() == 1 ? 0 : step].parts;
}

bool LiteDay::sun_under(std::size_t step) const {
  return light_.empty() || light_[light_.size() == 1 ? 0 : step].sun_under;
}

// The strip that lies under everything.
std::span<const double> LiteDay::under(std::size_t step) const {
  return sun_under(step) ? strips_->lit->strip(step, lite_) : strips_->in_shade(step, lite_);
}

// What a part of the light adds where it lies, at the border's nodes.
std::span<const double> LiteDay::adds(std::size_t step, const LightPart& part, stress_detail::Scratch& room) const {
  using Adds = LightPart::Adds;
  const auto lit_k = strips_->lit->strip(step, lite_), shaded_k = strips_->in_shade(step, lite_);
  const std::size_t cells = lit_k.size();
  double* const at_cells = room.data();
  if (part.adds == Adds::sun) {
    for (std::size_t i = 0; i < cells; ++i) at_cells[i] = part.share * (lit_k[i] - shaded_k[i]);
  } else {
    const auto other_lit_k = strips_->other_in_sun(step, lite_), other_shaded_k = strips_->other_in_shade(step, lite_);
    const auto base_k = under(step), other_k = sun_under(step) ? other_lit_k : other_shaded_k;
    for (std::size_t i = 0; i < cells; ++i) {
      const double sun_k = (other_lit_k[i] - other_shaded_k[i]) - (lit_k[i] - shaded_k[i]);
      at_cells[i] = part.share * (part.adds == Adds::part ? other_k[i] - base_k[i] : sun_k);
    }
  }
  if (maps_->nodes == nullptr) return {at_cells, cells};
  const std::size_t nodes = maps_->nodes->depth_m.size();
  double* const at_nodes = std::fill_n(at_cells + cells, nodes, 0.0) - nodes;
  stress_detail::multiply_add(maps_->nodes->weights.data(), at_cells, nodes, cells, at_nodes);
  return {at_nodes, nodes};
}

// Wherever sun lies on the pane, as if it lay all over: more than a pane in part shade bends.
double LiteDay::bending_pa(std::size_t step) const {
  const bool any_sun = sun_under(step) || !parts_at(step).empty();
  const LineDay& line = any_sun ? *strips_->lit : strips_->shade_at(step);
  const double of_pane_k = line.between_faces_k(step, lite_);
  if (strips_->other_lit == nullptr) return held_straight_pa(of_pane_k, elasticity_);
  const double of_part_k = strips_->other_lit->between_faces_k(step, lite_);
  return held_straight_pa(std::max(std::abs(of_pane_k), std::abs(of_part_k)), elasticity_);
}

// Stress without what the parts' sun adds.
std::vector<double> LiteDay::without_parts(std::size_t step) const {
  std::vector<double> pa(4 * static_cast<std::size_t>(maps_->solver->points_per_side()), bending_pa(step));
  if (colder_pa_per_k_ != nullptr) {
    for (std::size_t i = 0; i < pa.size(); ++i) pa[i] += colder_k_ * (*colder_pa_per_k_)[i];
  }
  maps_->whole->add(under(step), pa);
  return pa;
}

double LiteDay::highest_possible_pa(std::size_t step) const {
  double bound = bending_pa(step) + most_colder_pa_ + maps_->whole->highest_possible_pa(under(step));
  stress_detail::Scratch room(2 * strips_->lit->depth_m.size());
  for (const LightPart& part : parts_at(step)) {
    const std::span<const double> added = adds(step, part, room);
    const Source source = source_of(part);
    if (source.still != nullptr)
      bound += source.still->highest_possible_pa(added);
    else if (source.borders != nullptr)
      bound += source.borders->highest_possible_pa(added, source.turned ? turned(part.lit) : part.lit);
    else
      return std::numeric_limits<double>::infinity();
  }
  return bound;
}

std::vector<double> LiteDay::stress(std::size_t step) const {
  std::vector<double> pa = without_parts(step);
  stress_detail::Scratch room(2 * strips_->lit->depth_m.size());
  for (const LightPart& part : parts_at(step)) {
    const std::span<const double> added = adds(step, part, room);
    const Source source = source_of(part);
    if (source.still != nullptr) {
      source.still->add(added, pa);
    } else if (source.turned) {
      std::vector<double> turned_pa(pa.size(), 0.0);
      source.borders->add(added, turned(part.lit), turned_pa);
      add_turned(turned_pa, pa);
    } else if (source.borders != nullptr) {
      source.borders->add(added, part.lit, pa);
    } else {
      add_strip_stress(*maps_->light, part.lit, added, pa);
    }
  }
  return pa;
}

std::vector<LiteDay> days_of_lite(const Case& pane, std::span<const DayLight> light, std::span<const DayStrips> strips,
                                  std::size_t lite, const PaneMaps& maps, ChainCache::Store& store) {
  std::vector<LiteDay> of_lite;
  for (std::size_t d = 0; d < light.size(); ++d) of_lite.emplace_back(pane, light[d], strips[d], lite, maps, store);
  return of_lite;
}

}  // namespace sunstrain::internal
