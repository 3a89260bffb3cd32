// The edge stress of one lite through one day.
#include "lite_day.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sunstrain::internal {
namespace {

GlassShape glass_shape(const Case& pane) {
  return {pane.width_m + 2 * pane.edge.bite_m, pane.height_m + 2 * pane.edge.bite_m, pane.edge.bite_m};
}

// Exchange of a lite's two faces at a settled moment: over which length shadows blur. Kept to half a millimeter
// so that runs which differ in the last digit share their maps.
double blur_m(const GlazingState& state, const CenterBalance& center, std::size_t lite) {
  const double outside = lite == 0 ? center.outdoor.conductance_w_m2k : center.cavity_w_m2k[lite - 1];
  const double inside =
      lite + 1 == state.thermal.lites.size() ? center.room.conductance_w_m2k : center.cavity_w_m2k[lite];
  const double length_m = smearing_length_m(state.thermal.material.conductivity_w_mk,
                                            state.thermal.lites[lite].thickness_m, outside + inside);
  return std::max(0.005, std::round(length_m / 0.0005) * 0.0005);
}

// What sets a pane's solver and everything made with it: its glass, and how sharp its shadows are.
std::vector<double> pane_key(const Case& pane, double blur) {
  const GlassShape shape = glass_shape(pane);
  const LitArea lit = lit_area(pane.shadow, pane.width_m, pane.height_m, shape.bite_m, {0, 0, false});
  return {shape.width_m,
          shape.height_m,
          shape.bite_m,
          pane.shadow.any() ? blur : 0.0,
          pane.shadow.moves() ? 1.0 : 0.0,
          lit.left_m,
          lit.right_m,
          lit.bottom_m,
          lit.top_m,
          lit.diagonal ? 1.0 : 0.0};
}

// The value under a key, made when it is met first.
template <class Made, class Make>
const Made& kept(std::map<std::vector<double>, std::shared_ptr<const Made>>& store, std::vector<double> key,
                 Make make) {
  auto& slot = store[std::move(key)];
  if (!slot) slot = make();
  return *slot;
}

const EdgeStressSolver& solver_for(const Case& pane, double blur, ChainCache::Store& store) {
  return kept(store.solvers, pane_key(pane, blur), [&] {
    const GlassShape shape = glass_shape(pane);
    return std::make_shared<const EdgeStressSolver>(
        shape.width_m, shape.height_m, field_features(shape.width_m, shape.height_m, shape.bite_m, pane.shadow, blur),
        pane.elasticity);
  });
}

const StripStress& map_for(const Case& pane, std::span<const double> depth_m, const LitArea& lit, double blur,
                           ChainCache::Store& store) {
  std::vector<double> key = pane_key(pane, blur);
  key.push_back(static_cast<double>(depth_m.size()));
  const StripRamps& ramps = kept(store.ramps, key, [&] {
    const GlassShape shape = glass_shape(pane);
    return std::make_shared<const StripRamps>(solver_for(pane, blur, store), shape.width_m, shape.height_m, depth_m);
  });
  key.insert(key.end(),
             {lit.everything ? 1.0 : 0.0, lit.nothing ? 1.0 : 0.0, lit.left_m, lit.right_m, lit.bottom_m, lit.top_m});
  return kept(store.maps, std::move(key), [&] { return std::make_shared<const StripStress>(ramps, lit, blur); });
}

std::vector<double> strip_of(const LineDay& day, std::size_t lite) {
  const std::size_t cells = day.depth_m.size();
  std::vector<double> strip;
  strip.reserve(day.steps.size() * cells);
  for (const LineStep& step : day.steps) {
    const auto* first = step.cell_k.data() + lite * cells;
    strip.insert(strip.end(), first, first + cells);
  }
  return strip;
}

}  // namespace

LiteDay::LiteDay(const Case& pane, const GlazingState& state, const DesignDay& day, const DayStrips& strips,
                 std::size_t lite, ChainCache::Store& store)
    : cells_(strips.lit.depth_m.size()), lit_(strip_of(strips.lit, lite)) {
  const GlassShape shape = glass_shape(pane);
  const std::span<const double> depth_m(strips.lit.depth_m);
  const double blur = blur_m(state, strips.lit.steps[day.steps.size() / 2].center, lite);
  solver_ = &solver_for(pane, blur, store);
  whole_ = &map_for(pane, depth_m, LitArea{}, blur, store);
  if (pane.shadow.any()) {
    shaded_ = strip_of(strips.shaded, lite);
    nodes_.resize(cells_);
    std::iota(nodes_.begin(), nodes_.end(), std::size_t{0});
    const bool many_maps = pane.shadow.moves(), dear_map = pane.shadow.pattern == ShadowPlan::Pattern::diagonal;
    if (many_maps || dear_map) nodes_ = few_nodes(depth_m, shape.bite_m);
    std::vector<double> node_depth_m;
    for (std::size_t node : nodes_) node_depth_m.push_back(depth_m[node]);
    for (const DayStep& step : day.steps) {
      const LitArea area =
          lit_area(pane.shadow, pane.width_m, pane.height_m, shape.bite_m, shadow_slope(step.sun, pane.facing_rad));
      border_.push_back(area.everything || area.nothing ? nullptr : &map_for(pane, node_depth_m, area, blur, store));
      dark_.push_back(area.nothing);
    }
  }
  if (pane.bottom_edge_colder_k > 0.0 && lite + 1 == state.thermal.lites.size()) {
    colder_pa_ = colder_bottom_stress_pa_per_k(*solver_, pane.edge.bite_m, blur);
    for (double& pa : colder_pa_) pa *= pane.bottom_edge_colder_k;
    most_colder_pa_ = *std::max_element(colder_pa_.begin(), colder_pa_.end());
  }
}

std::size_t LiteDay::points() const { return 4 * static_cast<std::size_t>(solver_->points_per_side()); }

// The strip that lies under everything: in the sun when no border is on the glass, else in the shade.
std::span<const double> LiteDay::under(std::size_t step) const {
  const bool shade = !border_.empty() && (border_[step] != nullptr || dark_[step]);
  return std::span(shade ? shaded_ : lit_).subspan(step * cells_, cells_);
}

// What the sun adds where it reaches, at the border's nodes.
std::vector<double> LiteDay::sun_adds(std::size_t step) const {
  std::vector<double> difference;
  for (std::size_t node : nodes_) difference.push_back(lit_[step * cells_ + node] - shaded_[step * cells_ + node]);
  return difference;
}

double LiteDay::highest_possible_pa(std::size_t step) const {
  const StripStress* border = border_.empty() ? nullptr : border_[step];
  return most_colder_pa_ + whole_->highest_possible_pa(under(step)) +
         (border == nullptr ? 0.0 : border->highest_possible_pa(sun_adds(step)));
}

std::vector<double> LiteDay::stress(std::size_t step) const {
  std::vector<double> pa = colder_pa_;
  pa.resize(points(), 0.0);
  whole_->add(under(step), pa);
  if (!border_.empty() && border_[step] != nullptr) border_[step]->add(sun_adds(step), pa);
  return pa;
}

}  // namespace sunstrain::internal
