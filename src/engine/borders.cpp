// What a shadow's border across the whole width gives along the edge, wherever it lies.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "stress_kernels.hpp"
#include "sunstrain/field.hpp"

namespace sunstrain {
namespace {

struct Bounds {
  double least, most;
};

// Storage that nothing has been written to yet.
class Rows {
 public:
  explicit Rows(std::size_t size) : values_(new double[size]) {}
  double* operator[](std::size_t at) { return values_.get() + at; }
  const double* operator[](std::size_t at) const { return values_.get() + at; }

 private:
  std::unique_ptr<double[]> values_;
};

// Of values, or of what is left of `of` without them.
template <class At>
SUNSTRAIN_INLINE Bounds extremes(std::size_t count, At at) {
  constexpr std::size_t side_by_side = 16;
  double least[side_by_side], most[side_by_side];
  std::fill_n(least, side_by_side, std::numeric_limits<double>::infinity());
  std::fill_n(most, side_by_side, -std::numeric_limits<double>::infinity());
  std::size_t i = 0;
  for (; i + side_by_side <= count; i += side_by_side)
    for (std::size_t l = 0; l < side_by_side; ++l) {
      least[l] = std::min(least[l], at(i + l));
      most[l] = std::max(most[l], at(i + l));
    }
  for (; i < count; ++i) {
    least[0] = std::min(least[0], at(i));
    most[0] = std::max(most[0], at(i));
  }
  return {*std::min_element(least, least + side_by_side), *std::max_element(most, most + side_by_side)};
}

SUNSTRAIN_WIDE_CLONES
Bounds extremes_of(const double* values, std::size_t count) {
  return extremes(count, [=](std::size_t i) { return values[i]; });
}

SUNSTRAIN_WIDE_CLONES
Bounds extremes_of_rest(const double* all, const double* values, std::size_t count) {
  return extremes(count, [=](std::size_t i) { return all[i] - values[i]; });
}

// Of each node's stress while the border is in a piece of the lower half, and while it is in the piece's mirror image.
struct Piece {
  Bounds lower, upper;
};

}  // namespace

// Rows of all nodes, `points` each, the points below the middle first: the field mirrors itself in x, so half of bottom
// and top and one side tell all. Borders up to the middle: the strip is the same from above as from below, so the light
// below a higher one is all light less, upside down, the light below its mirror image.
struct SharpBorders::Table {
  const StripRamps* ramps;
  std::size_t nodes, points;
  std::vector<double> cut_m;   // ascending: where the samples lie, and the middle
  Rows above_cut;              // [cut * row()]: Pa per K of each ramp with the border between that cut and the next
  std::vector<double> all_pa;  // one row: all light
  std::vector<Piece> pieces;   // [cut * nodes + node]: extremes of above_cut over the points
  std::vector<Bounds> all;     // of each node, of all_pa
  std::size_t row() const { return nodes * points; }
};

namespace {

// A sample along y below the middle, and where it stands among those of its half.
struct Sample {
  double at_m;
  std::size_t index, in_half;
};

// Ascending. The solver's samples come in groups that mirror themselves: quadrature, edge points, ends, inside the
// ends.
std::vector<Sample> samples_to_middle(const EdgeStressSolver& solver) {
  const auto at = solver.y_sample_points();
  const auto edge = static_cast<std::size_t>(solver.points_per_side());
  std::vector<Sample> samples;
  std::size_t first = 0;
  for (std::size_t count : {at.size() - edge - 4, edge, std::size_t{2}, std::size_t{2}}) {
    for (std::size_t i = 0; 2 * i < count; ++i) samples.push_back({at[first + i], first + i, samples.size()});
    first += count;
  }
  std::sort(samples.begin(), samples.end(), [](const Sample& a, const Sample& b) { return a.at_m < b.at_m; });
  return samples;
}

SUNSTRAIN_WIDE_CLONES
void add_sample(double* sum, double factor, const double* lower, const double* upper, std::size_t half, double* row) {
  for (std::size_t i = 0; i < half; ++i) row[i] = sum[i] += factor * lower[i];
  for (std::size_t i = 0; i < half; ++i) row[half + i] = sum[half + i] += factor * upper[i];
}

// One node's stress, sample after sample that the border passes on its way up; `of_sample`: room.
void fill_node(const std::vector<Sample>& samples, std::size_t node, Rows& of_sample, SharpBorders::Table& table) {
  const EdgeStressSolver& solver = *table.ramps->solver;
  const std::size_t points = table.points, half = points / 2, profile = solver.x_profile_size();
  solver.stress_of_y_samples(std::span(table.ramps->x_profiles).subspan(node * profile, profile),
                             {of_sample[0], samples.size() * points});
  const double* ramp = &table.ramps->y_up[node * table.ramps->solver->y_sample_size()];
  double *row = table.above_cut[node * points], *all = &table.all_pa[node * points];
  for (const Sample& sample : samples) {
    // Told of the mirror image, above the middle.
    const double *below = of_sample[sample.in_half * points], *above = below + half;
    add_sample(all, ramp[sample.index], above, below, half, row);
    row += table.row();
  }
  std::copy_n(row - table.row(), points, row);  // from the middle on, up to the next sample
  for (std::size_t i = 0; i < half; ++i) all[i] = all[half + i] = all[i] + all[half + i];
}

void find_extremes(const SharpBorders::Table& table, const Rows& rows, std::vector<Piece>& pieces) {
  for (std::size_t i = 0; i < table.cut_m.size() * table.nodes; ++i) {
    const double* values = rows[i * table.points];
    pieces.push_back({extremes_of(values, table.points),
                      extremes_of_rest(&table.all_pa[i % table.nodes * table.points], values, table.points)});
  }
}

}  // namespace

SharpBorders::SharpBorders(const StripRamps& ramps) {
  const std::vector<Sample> samples = samples_to_middle(*ramps.solver);
  const std::size_t nodes = ramps.depth_m.size(), cuts = samples.size() + 1;
  const auto points = 2 * static_cast<std::size_t>(ramps.solver->points_per_side());
  auto made = std::make_shared<Table>(
      Table{&ramps, nodes, points, {}, Rows(cuts * nodes * points), std::vector<double>(nodes * points), {}, {}});
  for (const Sample& sample : samples) made->cut_m.push_back(sample.at_m);
  made->cut_m.push_back(0.5 * ramps.height_m);
  Rows of_sample(samples.size() * points);
  for (std::size_t node = 0; node < nodes; ++node) fill_node(samples, node, of_sample, *made);
  find_extremes(*made, made->above_cut, made->pieces);
  for (std::size_t node = 0; node < nodes; ++node)
    made->all.push_back(extremes_of(&made->all_pa[node * points], points));
  table = std::move(made);
}

struct SoftBorders::Impl {
  std::shared_ptr<const SharpBorders::Table> sharp;
  double smoothing_m;
  Rows at_cut;                  // [cut * row]: Pa per K with the soft border there
  std::vector<Piece> anywhere;  // [cut * nodes + node]: with it anywhere from there to the next cut
};

namespace {

// A soft border between two cuts is a mixture: of soft ones at either and of the sharp one between them.
struct Mixture {
  double lower, upper, between;
};
// sinh((d - a)/l)/sinh(d/l), sinh(a/l)/sinh(d/l) and what is left of 1; a: from the lower cut, d: from cut to cut.
Mixture mixture(double from_lower_m, double apart_m, double smoothing_m) {
  if (!(apart_m > 0.0)) return {1.0, 0.0, 0.0};
  const double a = from_lower_m / smoothing_m, b = (apart_m - from_lower_m) / smoothing_m;
  const double whole = std::sinh(a + b), lower = std::sinh(b) / whole, upper = std::sinh(a) / whole;
  return {lower, upper, std::max(0.0, 1.0 - lower - upper)};
}

SUNSTRAIN_WIDE_CLONES
void fade_in(const double* carried, double fade, const double* sharp, std::size_t size, double* next) {
  const double own = 0.5 * (1.0 - fade);
  for (std::size_t i = 0; i < size; ++i) next[i] = fade * carried[i] + own * sharp[i];
}

SUNSTRAIN_WIDE_CLONES
void fade_in_and_add(double* carried, double fade, const double* sharp, std::size_t size, double* sum) {
  const double own = 0.5 * (1.0 - fade);
  for (std::size_t i = 0; i < size; ++i) sum[i] += carried[i] = fade * carried[i] + own * sharp[i];
}

// sigma_l(p) = integral exp(-|p - c|/l)/2l sigma_sharp(c) dc: what lies below each cut, carried upwards (below the
// glass there is no light), and what lies above, carried down; at the middle the one is the other's mirror image.
void soften(const SharpBorders::Table& sharp, double smoothing_m, Rows& at_cut) {
  const std::size_t size = sharp.row(), half = sharp.points / 2, middle = sharp.cut_m.size() - 1;
  const auto fade = [&](std::size_t cut) { return std::exp(-(sharp.cut_m[cut + 1] - sharp.cut_m[cut]) / smoothing_m); };
  std::fill_n(at_cut[0], size, 0.0);
  for (std::size_t cut = 0; cut < middle; ++cut)
    fade_in(at_cut[cut * size], fade(cut), sharp.above_cut[cut * size], size, at_cut[(cut + 1) * size]);
  std::vector<double> from_above(size);
  double* const at_middle = at_cut[middle * size];
  for (std::size_t first = 0; first < size; first += sharp.points)
    for (std::size_t i = 0; i < half; ++i) {
      from_above[first + i] = 0.5 * sharp.all_pa[first + i] - at_middle[first + half + i];
      from_above[first + half + i] = 0.5 * sharp.all_pa[first + half + i] - at_middle[first + i];
    }
  for (std::size_t i = 0; i < size; ++i) at_middle[i] += from_above[i];
  for (std::size_t cut = middle; cut-- > 0;)
    fade_in_and_add(from_above.data(), fade(cut), sharp.above_cut[cut * size], size, at_cut[cut * size]);
}

// The weights of a mixture are no less than 0 and 1 in sum, and the sharp border's is most halfway.
Bounds of_mixture(const Bounds& lower, const Bounds& upper, const Bounds& sharp, double most_sharp) {
  const double least = std::min(lower.least, upper.least), most = std::max(lower.most, upper.most);
  return {least + most_sharp * std::min(0.0, sharp.least - least),
          most + most_sharp * std::max(0.0, sharp.most - most)};
}

std::vector<Piece> bounds_anywhere(const SharpBorders::Table& sharp, double smoothing_m, const Rows& at_cut) {
  std::vector<Piece> at, anywhere;
  find_extremes(sharp, at_cut, at);
  for (std::size_t cut = 0; cut + 1 < sharp.cut_m.size(); ++cut) {
    const double apart_m = sharp.cut_m[cut + 1] - sharp.cut_m[cut];
    const double most_sharp = mixture(0.5 * apart_m, apart_m, smoothing_m).between;
    for (std::size_t i = cut * sharp.nodes; i < (cut + 1) * sharp.nodes; ++i) {
      const Piece &lower = at[i], &upper = at[i + sharp.nodes], &between = sharp.pieces[i];
      anywhere.push_back({of_mixture(lower.lower, upper.lower, between.lower, most_sharp),
                          of_mixture(lower.upper, upper.upper, between.upper, most_sharp)});
    }
  }
  return anywhere;
}

// Where a border lies among the cuts, itself or its mirror image.
struct Spot {
  std::size_t cut;
  double above_cut_m;
  bool mirrored;
};
Spot spot_of(const SharpBorders::Table& sharp, double border_m) {
  const double height_m = sharp.ramps->height_m;
  const bool mirrored = border_m > 0.5 * height_m;
  const double at_m = std::max(0.0, mirrored ? height_m - border_m : border_m);  // none or all light beyond the ends
  const auto above = std::upper_bound(sharp.cut_m.begin() + 1, sharp.cut_m.end() - 1, at_m);
  const auto cut = static_cast<std::size_t>(above - sharp.cut_m.begin()) - 1;
  return {cut, at_m - sharp.cut_m[cut], mirrored};
}

// Light between two borders is the light below the upper one less the light below the lower one. Calls
// term(K that each node adds to the one before it, border) for each.
template <class Term>
void each_border(std::span<const double> node_k, const LitArea& lit, Term term) {
  stress_detail::Scratch rise(node_k.size());
  const auto rises = [&](double factor) {
    for (std::size_t k = 0; k < node_k.size(); ++k)
      rise.data()[k] = factor * (k == 0 ? node_k[0] : node_k[k] - node_k[k - 1]);
    return std::span<const double>(rise.data(), node_k.size());
  };
  term(rises(1.0), lit.top_m);
  if (lit.bottom_m > 0.0) term(rises(-1.0), lit.bottom_m);
}

void add_unfolded(const double* points, std::size_t side, std::span<double> whole) {
  const std::size_t half = side / 2;
  const double *bottom = points, *low = bottom + half, *top = low + half, *high = top + half;
  for (std::size_t i = 0; i < half; ++i) {
    const std::size_t far = side - 1 - i;
    whole[i] += bottom[i];
    whole[far] += bottom[i];
    whole[2 * side + i] += top[i];
    whole[2 * side + far] += top[i];
    for (std::size_t vertical : {side, 3 * side}) {
      whole[vertical + i] += low[i];
      whole[vertical + far] += high[i];
    }
  }
}

void require_covered(bool covered) {
  if (!covered) throw std::invalid_argument("SoftBorders: a border that does not cross the whole width");
}

// Adds Pa at the points with K rise_k of each node below a border within the lower half.
void add_lower(const SharpBorders::Table& sharp, const Rows& at_cut, const Spot& spot, double smoothing_m,
               std::span<const double> rise_k, double* pa) {
  const std::size_t nodes = sharp.nodes, first = spot.cut * sharp.row();
  const Mixture share = mixture(spot.above_cut_m, sharp.cut_m[spot.cut + 1] - sharp.cut_m[spot.cut], smoothing_m);
  stress_detail::Scratch room(3 * nodes);
  double *const at_lower = room.data(), *const at_upper = at_lower + nodes, *const between = at_upper + nodes;
  for (std::size_t k = 0; k < nodes; ++k) {
    at_lower[k] = share.lower * rise_k[k];
    at_upper[k] = share.upper * rise_k[k];
    between[k] = share.between * rise_k[k];
  }
  stress_detail::multiply_add(at_cut[first], at_lower, sharp.points, 2 * nodes, pa);
  stress_detail::multiply_add(sharp.above_cut[first], between, sharp.points, nodes, pa);
}

}  // namespace

SoftBorders::SoftBorders(const SharpBorders& sharp, double smoothing_m) {
  const SharpBorders::Table& table = *sharp.table;
  auto impl = std::make_shared<Impl>(Impl{sharp.table, smoothing_m, Rows(table.cut_m.size() * table.row()), {}});
  soften(table, smoothing_m, impl->at_cut);
  impl->anywhere = bounds_anywhere(table, smoothing_m, impl->at_cut);
  impl_ = std::move(impl);
}

bool SoftBorders::covers(const LitArea& lit) const {
  const StripRamps& ramps = *impl_->sharp->ramps;
  return !lit.everything && !lit.nothing && !lit.diagonal && lit.left_m <= 0.0 && lit.right_m >= ramps.width_m &&
         lit.top_m >= 0.0 && lit.bottom_m <= ramps.height_m;
}

double SoftBorders::highest_possible_pa(std::span<const double> node_k, const LitArea& lit) const {
  require_covered(covers(lit));
  const SharpBorders::Table& sharp = *impl_->sharp;
  double bound = 0.0;
  each_border(node_k, lit, [&](std::span<const double> rise_k, double border_m) {
    const bool all_light = border_m >= sharp.ramps->height_m;
    const Spot spot = spot_of(sharp, border_m);
    const Piece* piece = &impl_->anywhere[spot.cut * sharp.nodes];
    for (std::size_t k = 0; k < rise_k.size(); ++k) {
      const Bounds& of_node = all_light ? sharp.all[k] : spot.mirrored ? piece[k].upper : piece[k].lower;
      bound += rise_k[k] * (rise_k[k] >= 0.0 ? of_node.most : of_node.least);
    }
  });
  return bound;
}

void SoftBorders::add(std::span<const double> node_k, const LitArea& lit, std::span<double> stress_pa) const {
  require_covered(covers(lit));
  const SharpBorders::Table& sharp = *impl_->sharp;
  const std::size_t points = sharp.points, half = points / 2;
  stress_detail::Scratch room(2 * points);
  double *const upright = room.data(), *const upside_down = upright + points;
  std::fill_n(upright, 2 * points, 0.0);
  each_border(node_k, lit, [&](std::span<const double> rise_k, double border_m) {
    const Spot spot = spot_of(sharp, border_m);
    if (spot.mirrored) stress_detail::multiply_add(sharp.all_pa.data(), rise_k.data(), points, sharp.nodes, upright);
    if (border_m < sharp.ramps->height_m)
      add_lower(sharp, impl_->at_cut, spot, impl_->smoothing_m, rise_k, spot.mirrored ? upside_down : upright);
  });
  for (std::size_t i = 0; i < half; ++i) {
    upright[i] -= upside_down[half + i];
    upright[half + i] -= upside_down[i];
  }
  add_unfolded(upright, half, stress_pa);
}

}  // namespace sunstrain
