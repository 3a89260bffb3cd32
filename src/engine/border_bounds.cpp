// What a shadow's border can do at most, wherever it lies.
#include <algorithm>
#include <limits>

#include "border_table.hpp"
#include "stress_kernels.hpp"

namespace sunstrain {

using internal::BorderTable;

struct BorderBounds::Impl {
  const StripRamps* ramps;
  BorderTable table;
};

namespace {

// What each node adds to the one before it.
std::span<const double> rises(std::span<const double> node_k, double factor, stress_detail::Scratch& room) {
  for (std::size_t k = 0; k < node_k.size(); ++k)
    room.data()[k] = factor * (k == 0 ? node_k[0] : node_k[k] - node_k[k - 1]);
  return {room.data(), node_k.size()};
}

// The table speaks of borders across the whole width, no nearer to an end than their softness: there the end's own
// field is too steep to be read off between places.
bool in_table(const StripRamps& ramps, const LitArea& lit, double smoothing_m) {
  const auto inside = [&](double border_m) {
    return border_m >= smoothing_m && border_m <= ramps.height_m - smoothing_m;
  };
  return !lit.diagonal && lit.left_m <= 0.0 && lit.right_m >= ramps.width_m &&
         (lit.bottom_m <= 0.0 || inside(lit.bottom_m)) && (lit.top_m >= ramps.height_m || inside(lit.top_m));
}

// Light between two borders is the light below the upper one less the light below the lower one. Calls
// term(K at every node, border) for each.
template <class Term>
void each_border(std::span<const double> node_k, const LitArea& lit, Term term) {
  stress_detail::Scratch room(node_k.size());
  term(rises(node_k, 1.0, room), lit.top_m);
  if (lit.bottom_m > 0.0) term(rises(node_k, -1.0, room), lit.bottom_m);
}

}  // namespace

BorderBounds::BorderBounds(const StripRamps& ramps, double smoothing_m, PaneElasticity elasticity)
    : impl_(std::make_shared<const Impl>(Impl{
          &ramps, internal::border_table(ramps, smoothing_m, elasticity.young_pa * elasticity.expansion_per_k)})) {}

BorderBounds::BorderBounds(const BorderBounds& sharper, double smoothing_m)
    : impl_(std::make_shared<const Impl>(
          Impl{sharper.impl_->ramps, internal::softened(sharper.impl_->table, smoothing_m)})) {}

bool BorderBounds::bounds(const LitArea& lit) const { return in_table(*impl_->ramps, lit, impl_->table.smoothing_m); }

double BorderBounds::highest_possible_pa(std::span<const double> node_k, const LitArea& lit) const {
  if (!bounds(lit)) return std::numeric_limits<double>::infinity();
  double bound = 0.0;
  each_border(node_k, lit, [&](std::span<const double> rise_k, double border_m) {
    for (std::size_t k = 0; k < rise_k.size(); ++k) {
      const internal::Bounds sigma = internal::sigma_anywhere(impl_->table, k, border_m);
      bound += rise_k[k] * (rise_k[k] >= 0.0 ? sigma.most : sigma.least);
    }
  });
  return bound;
}

void BorderBounds::add_highest_possible(std::span<const double> node_k, const LitArea& lit,
                                        std::span<double> pa) const {
  if (!bounds(lit)) {
    std::fill(pa.begin(), pa.end(), std::numeric_limits<double>::infinity());
    return;
  }
  each_border(node_k, lit, [&](std::span<const double> rise_k, double border_m) {
    internal::add_highest(impl_->table, rise_k, border_m, pa);
  });
}

}  // namespace sunstrain
