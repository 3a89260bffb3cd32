#include "border_table.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "stress_kernels.hpp"

namespace sunstrain::internal {
namespace {

constexpr double places_apart = 2.0;  // over the softness: no finer detail is left by then

// 1 for the table that was solved, less for one softened more.
double closeness(const BorderTable& table) {
  return std::min(1.0, table.height_m / static_cast<double>(table.places - 3) / (places_apart * table.smoothing_m));
}

double place_m(const BorderTable& table, std::size_t place) {
  return table.height_m * (static_cast<double>(place) - 1.0) / static_cast<double>(table.places - 3);
}

// Light at a height below a border softened over a length; from the top on it is light all over.
double light_below(const BorderTable& table, double height_m, double border_m, double smoothing_m) {
  return border_m >= table.height_m ? 1.0 : 1.0 - soft_step(height_m, border_m, smoothing_m);
}

void set_steps(BorderTable& table) {
  for (std::size_t kind = 0; kind < 2; ++kind) table.steps[kind] = SoftSteps(table.side_height_m, table.local_m[kind]);
}

// Light at the points, as it is or softened over more, as the glass just inside the edge feels it.
void fill_light(const BorderTable& table, double border_m, std::size_t kind, double* light) {
  const std::size_t side = table.side_height_m.size();
  if (border_m >= table.height_m) {
    std::fill_n(light, table.points, 1.0);
    return;
  }
  light = std::fill_n(light, side / 2, light_below(table, 0.0, border_m, table.local_m[kind]));
  table.steps[kind].fill(border_m, light);
  for (std::size_t i = 0; i < side; ++i) light[i] = 1.0 - light[i];
  std::fill_n(light + side, side / 2, light_below(table, table.height_m, border_m, table.local_m[kind]));
}

using EdgeLight = std::array<std::vector<double>, 2>;
EdgeLight light_along_edge(const BorderTable& table, double border_m) {
  EdgeLight light;
  for (std::size_t kind = 0; kind < 2; ++kind) {
    light[kind].resize(table.points);
    fill_light(table, border_m, kind, light[kind].data());
  }
  return light;
}

// The field is its own mirror image in x, so half of bottom and top and one side tell all: the table's points.
void fold(std::span<const double> whole, std::size_t side, double* points) {
  points = std::copy_n(whole.begin(), side / 2, points);
  points = std::copy_n(whole.begin() + static_cast<std::ptrdiff_t>(side), side, points);
  std::copy_n(whole.begin() + static_cast<std::ptrdiff_t>(2 * side), side / 2, points);
}

// The folded point at the same place upside down: half the bottom, the side, half the top.
std::size_t mirrored(const BorderTable& table, std::size_t point) {
  const std::size_t half = table.side_height_m.size() / 2, side_end = table.points - half;
  if (point < half) return side_end + point;
  return point < side_end ? side_end - 1 - (point - half) : point - side_end;
}

void add_unfolded(std::span<const double> points, std::size_t side, std::span<double> whole) {
  for (std::size_t i = 0; i < side / 2; ++i) {
    whole[i] += points[i];
    whole[side - 1 - i] += points[i];
    whole[2 * side + i] += points[side + side / 2 + i];
    whole[3 * side - 1 - i] += points[side + side / 2 + i];
  }
  for (std::size_t i = 0; i < side; ++i) {
    whole[side + i] += points[side / 2 + i];
    whole[3 * side + i] += points[side / 2 + i];
  }
}

void add_all(std::span<const double> values, double factor, double* sum) {
  for (std::size_t i = 0; i < values.size(); ++i) sum[i] += factor * values[i];
}

// Sigma of every node under the light below a place.
void solve_place(const StripLight& light, std::size_t place, BorderTable& table) {
  LitArea area;
  area.everything = place + 1 == table.places;
  area.right_m = light.ramps->width_m;
  area.top_m = std::max(place_m(table, place), 1e-9 * table.height_m);  // at 0 already a border
  const std::size_t side = table.side_height_m.size();
  std::vector<double> stress(table.nodes * 4 * side);
  ramp_stress(light, area, 0, stress);
  for (std::size_t k = 0; k < table.nodes; ++k) {
    fold(std::span(stress).subspan(k * 4 * side, 4 * side), side,
         &table.smooth_pa[(place * table.nodes + k) * table.points]);
  }
}

// The strip is the same from above as from below, so light below a border is all light less, turned upside down, the
// light below its mirror image.
void mirror_place(std::size_t place, BorderTable& table) {
  const std::size_t all_light = table.places - 1, other = all_light - place, size = table.points;
  const double* whole = &table.smooth_pa[all_light * table.nodes * size];
  const double* mirror = &table.smooth_pa[other * table.nodes * size];
  double* to = &table.smooth_pa[place * table.nodes * size];
  for (std::size_t first = 0; first < table.nodes * size; first += size)
    for (std::size_t i = 0; i < size; ++i) to[first + i] = whole[first + i] - mirror[first + mirrored(table, i)];
}

// Least squares over the points: by how much sigma's second differences from place to place follow the two lights'.
std::array<double, 2> following_pa(const BorderTable& table, const std::vector<EdgeLight>& lights, std::size_t node) {
  Eigen::Matrix2d squares = Eigen::Matrix2d::Zero();
  Eigen::Vector2d products = Eigen::Vector2d::Zero();
  const auto sigma = [&](std::size_t place, std::size_t i) {
    return table.smooth_pa[(place * table.nodes + node) * table.points + i];
  };
  for (std::size_t place = 1; place + 1 < table.places; ++place) {
    for (std::size_t i = 0; i < table.points; ++i) {
      Eigen::Vector2d bend;
      for (std::size_t kind = 0; kind < 2; ++kind)
        bend[static_cast<Eigen::Index>(kind)] =
            lights[place - 1][kind][i] - 2.0 * lights[place][kind][i] + lights[place + 1][kind][i];
      products += bend * (sigma(place - 1, i) - 2.0 * sigma(place, i) + sigma(place + 1, i));
      squares += bend * bend.transpose();
    }
  }
  const Eigen::Vector2d share = squares.ldlt().solve(products);
  return {share[0], share[1]};
}

// Takes from every node's sigma what follows the light at the point itself: all of the temperature of the first node,
// whose field is the light alone, and what a thin cool rim beside warm glass has of it.
void take_off_light(BorderTable& table) {
  const std::vector<double> dark(table.points, 0.0);
  std::vector<EdgeLight> lights{{dark, dark}};
  for (std::size_t place = 1; place < table.places; ++place)
    lights.push_back(light_along_edge(table, place_m(table, place)));
  for (std::size_t node = 0; node < table.nodes; ++node) {
    const auto share = following_pa(table, lights, node);
    table.with_light_pa.push_back(share);
    for (std::size_t place = 0; place < table.places; ++place)
      for (std::size_t kind = 0; kind < 2; ++kind)
        add_all(lights[place][kind], -share[kind], &table.smooth_pa[(place * table.nodes + node) * table.points]);
  }
}

// A border between two places: which they are, and how far along.
struct Between {
  std::size_t place;
  double share;
};
Between between(const BorderTable& table, double border_m) {
  if (border_m >= table.height_m) return {table.places - 1, 0.0};
  const double along = border_m / table.height_m * static_cast<double>(table.places - 3);
  const auto stretch = std::min(static_cast<std::size_t>(along), table.places - 4);
  return {stretch + 1, along - static_cast<double>(stretch)};
}

// Places before and after a stretch's two: beyond the ends, as at the ends.
struct Around {
  std::size_t before, from, to, after;
};
Around around(const BorderTable& table, std::size_t place) {
  const std::size_t last = table.places - 1, next = std::min(place + 1, last);
  return {place > 0 ? place - 1 : 0, place, next, std::min(next + 1, last)};
}

// The smooth part between two places is the cubic through them with the slopes of central differences, and off by no
// more than what that departs from the straight line and this, of what the unit step of a node's ramp gives at most.
// The further the ramp's middle lies from the edge, the smoother its sigma; and the closer the places are for the
// softness. Near an end the end's own field is steeper. Measured: theory.md "Stress".
double spare_pa(const BorderTable& table, std::size_t node, double border_m) {
  constexpr double spare_share = 0.055, near_end_share = 0.1, near_end = 3.0, reach = 2.0;
  const double inside_m = std::min(border_m, table.height_m - border_m);
  const bool near = inside_m > -table.smoothing_m && inside_m < near_end * table.smoothing_m;
  const double depth = table.middle_m[node] / (reach * table.smoothing_m);
  return table.stress_pa_per_k * (near ? near_end_share : spare_share) * closeness(table) /
         std::max(1.0, depth * depth);
}

// How much of that, a share of the way from one place to the next: at the places of the table that was solved the cubic
// is exact, at those of a softened one not quite.
double spare_along(const BorderTable& table, double share) {
  const double between = 4.0 * share * (1.0 - share), exact = closeness(table);
  return 1.0 - exact + exact * between;
}

SUNSTRAIN_WIDE_CLONES
void add_cubic_and_off(const double* before, const double* from, const double* to, const double* after, double t,
                       double spare, std::size_t points, double* into) {
  const double a = t * (1.0 - t) * (1.0 - t), b = t * t * (1.0 - t);
  for (std::size_t i = 0; i < points; ++i) {
    const double rise = to[i] - from[i];
    const double bend = a * (0.5 * (to[i] - before[i]) - rise) - b * (0.5 * (after[i] - from[i]) - rise);
    into[i] += from[i] + t * rise + bend + std::abs(bend) + spare;
  }
}

// Over a whole stretch: the cubic passes its ends by no more than 4/27 of the slopes that lead outwards, and departs
// from the straight line by no more than 4/27 of what the slopes differ from it.
struct Ends {
  const double *before, *from, *to, *after;
};
SUNSTRAIN_WIDE_CLONES
Bounds over_stretch(const Ends& at, double spare, std::size_t points, const double* most_light,
                    const double* least_light) {
  constexpr double reach = 4.0 / 27.0;
  constexpr std::size_t side_by_side = 8;
  double most[side_by_side], least[side_by_side];
  std::fill_n(most, side_by_side, -std::numeric_limits<double>::infinity());
  std::fill_n(least, side_by_side, std::numeric_limits<double>::infinity());
  for (std::size_t first = 0; first < points; first += side_by_side) {
    for (std::size_t l = 0; l < side_by_side; ++l) {
      const std::size_t i = first + l;
      const double from = at.from[i], to = at.to[i], rise = to - from;
      const double slope_from = 0.5 * (to - at.before[i]), slope_to = 0.5 * (at.after[i] - from);
      const double off = reach * (std::abs(slope_from - rise) + std::abs(slope_to - rise)) + spare;
      const double over = reach * (std::max(0.0, slope_from) + std::max(0.0, -slope_to));
      const double under = reach * (std::max(0.0, -slope_from) + std::max(0.0, slope_to));
      most[l] = std::max(most[l], std::max(from, to) + over + off + most_light[i]);
      least[l] = std::min(least[l], std::min(from, to) - under - off + least_light[i]);
    }
  }
  return {*std::min_element(least, least + side_by_side), *std::max_element(most, most + side_by_side)};
}

// Of one node while the border is between a place and the next, where the light at the edge is `below` and `above`: it
// only grows as the border rises.
Bounds stretch_bounds(const BorderTable& table, std::size_t node, std::size_t place, const EdgeLight& below,
                      const EdgeLight& above) {
  std::vector<double> least_light(table.points), most_light(table.points);
  for (std::size_t kind = 0; kind < 2; ++kind) {
    const double share = table.with_light_pa[node][kind];
    add_all((share > 0.0 ? above : below)[kind], share, most_light.data());
    add_all((share > 0.0 ? below : above)[kind], share, least_light.data());
  }
  const auto at = [&](std::size_t p) { return &table.smooth_pa[(p * table.nodes + node) * table.points]; };
  const auto [before, from, to, after] = around(table, place);
  const double spare =
      std::max(spare_pa(table, node, place_m(table, place)), spare_pa(table, node, place_m(table, place + 1)));
  return over_stretch({at(before), at(from), at(to), at(after)}, spare, table.points, most_light.data(),
                      least_light.data());
}

void bound_stretches(BorderTable& table) {
  table.anywhere.clear();
  EdgeLight below = light_along_edge(table, place_m(table, 0));
  for (std::size_t place = 0; place < table.places; ++place) {
    EdgeLight above = light_along_edge(table, place_m(table, place + 1));
    for (std::size_t node = 0; node < table.nodes; ++node)
      table.anywhere.push_back(stretch_bounds(table, node, place, below, above));
    below = std::move(above);
  }
}

}  // namespace

BorderTable border_table(const StripRamps& ramps, double smoothing_m, double stress_pa_per_k) {
  const EdgeStressSolver& solver = *ramps.solver;
  BorderTable table;
  table.height_m = ramps.height_m;
  table.smoothing_m = smoothing_m;
  table.local_m = {smoothing_m, 3.3 * smoothing_m};
  table.stress_pa_per_k = stress_pa_per_k;
  table.nodes = ramps.depth_m.size();
  table.places = 3 + static_cast<std::size_t>(std::ceil(ramps.height_m / (places_apart * smoothing_m)));
  table.points = 2 * static_cast<std::size_t>(solver.points_per_side());
  table.side_height_m.assign(solver.y_edge_points().begin(), solver.y_edge_points().end());
  table.smooth_pa.resize(table.nodes * table.places * table.points);
  for (std::size_t k = 0; k < table.nodes; ++k)
    table.middle_m.push_back(k == 0 ? 0.0 : 0.5 * (ramps.depth_m[k - 1] + ramps.depth_m[k]));
  set_steps(table);
  const std::size_t all_light = table.places - 1;
  const StripLight light(ramps, smoothing_m);
  solve_place(light, all_light, table);  // 0: nothing
  for (std::size_t place = 1; place < all_light; ++place)
    2 * place <= all_light ? solve_place(light, place, table) : mirror_place(place, table);
  take_off_light(table);
  bound_stretches(table);
  return table;
}

namespace {

// Softer and less soft: l and l0, and the second light's softness, which stays.
struct Softening {
  double from_m, to_m, second_m;
  double kept() const { return std::pow(from_m / to_m, 2); }  // w0
  double felt(double fade_m) const {
    return 0.5 * fade_m / (fade_m + to_m);
  }  // of what fades over a length, at its end
};

// What borders beyond the pane's ends give once spread, as felt at the ends: their light fades with their distance, and
// so does what it does. For every node and point.
struct Beyond {
  std::vector<double> below, above;
};
Beyond beyond_ends(const BorderTable& table, const Softening& by) {
  const std::size_t last = table.places - 1, size = table.nodes * table.points;
  const EdgeLight lowest = light_along_edge(table, 0.0), highest = light_along_edge(table, place_m(table, last - 1));
  const double *first = &table.smooth_pa[size], *top = &table.smooth_pa[(last - 1) * size],
               *all = &table.smooth_pa[last * size];
  Beyond beyond;
  for (std::size_t i = 0; i < size; ++i) {
    const double share = table.with_light_pa[i / table.points][1];
    const double low = share * lowest[1][i % table.points], high = share * highest[1][i % table.points];
    beyond.below.push_back(by.felt(by.from_m) * (first[i] + low) - by.felt(by.second_m) * low);
    beyond.above.push_back(0.5 * all[i] - by.felt(by.from_m) * (all[i] + share - top[i] - high) +
                           by.felt(by.second_m) * (share - high));
  }
  return beyond;
}

// A place's values so bent that straight lines between the places hold as much as the curve through them.
SUNSTRAIN_WIDE_CLONES
void bend(const double* before, const double* at, const double* after, std::size_t size, double* bent) {
  for (std::size_t i = 0; i < size; ++i) bent[i] = at[i] - (before[i] - 2.0 * at[i] + after[i]) / 12.0;
}

SUNSTRAIN_WIDE_CLONES
void carry_on(const double* behind, const double* here, std::size_t size, double fade, double own, double next,
              double* carried) {
  for (std::size_t i = 0; i < size; ++i) carried[i] = fade * carried[i] + own * here[i] + next * behind[i];
}

// Adds `weight` times what lies on one side of each place, spread as exp(-d/l)/2l: `first` and on by `step`, until
// `end`; carried: what comes from beyond the first.
void add_spread(const BorderTable& from, std::size_t first, std::size_t end, int step, double apart, double weight,
                std::vector<double> carried, BorderTable& into) {
  const std::size_t size = carried.size();
  const double fade = std::exp(-apart), share = (1.0 - fade) / apart;
  const double own = 0.5 * (1.0 - share), next = 0.5 * (share - fade);
  std::vector<double> here(size), behind(size);
  for (std::size_t place = first; place != end; place += static_cast<std::size_t>(step)) {
    const double* at = &from.smooth_pa[place * size];
    std::swap(here, behind);
    if (place == 1 || place + 2 == from.places)
      std::copy_n(at, size, here.begin());
    else
      bend(at - size, at, at + size, size, here.data());
    if (place != first) carry_on(behind.data(), here.data(), size, fade, own, next, carried.data());
    add_all(carried, weight, &into.smooth_pa[place * size]);
  }
}

// The second light softened is itself and some of the first: what spreads a step softened over a by l gives
// (a^2 S_a - l^2 S_l)/(a^2 - l^2).
void soften_shares(const Softening& by, std::vector<std::array<double, 2>>& shares) {
  const double a2 = by.second_m * by.second_m, l2 = by.to_m * by.to_m, rest = 1.0 - by.kept();
  for (auto& [first, second] : shares) {
    first -= second * rest * l2 / (a2 - l2);
    second *= by.kept() + rest * a2 / (a2 - l2);
  }
}

}  // namespace

// soft step over l = w0 (soft step over l0) + (1 - w0) (that one, spread as exp(-|d|/l)/2l), w0 = l0^2/l^2: the
// transforms 1/(1 + k^2 l^2) and 1/(1 + k^2 l0^2) say so. What follows the lights at the point is softened in closed
// form, the smooth rest along straight lines from place to place.
BorderTable softened(const BorderTable& sharper, double smoothing_m) {
  if (!(smoothing_m > sharper.smoothing_m)) return sharper;
  BorderTable table = sharper;
  const Softening by{sharper.smoothing_m, smoothing_m, sharper.local_m[1]};
  table.smoothing_m = table.local_m[0] = smoothing_m;
  set_steps(table);
  const double apart = table.height_m / static_cast<double>(table.places - 3) / smoothing_m;
  const std::size_t size = table.nodes * table.points, last = table.places - 1;
  Beyond beyond = beyond_ends(sharper, by);
  for (double& pa : std::span(table.smooth_pa).subspan(size, (last - 1) * size)) pa *= by.kept();
  add_spread(sharper, 1, last, 1, apart, 1.0 - by.kept(), std::move(beyond.below), table);
  add_spread(sharper, last - 1, 0, -1, apart, 1.0 - by.kept(), std::move(beyond.above), table);
  soften_shares(by, table.with_light_pa);
  bound_stretches(table);
  return table;
}

Bounds sigma_anywhere(const BorderTable& table, std::size_t node, double border_m) {
  return table.anywhere[between(table, border_m).place * table.nodes + node];
}

void add_highest(const BorderTable& table, std::span<const double> rise_k, double border_m, std::span<double> pa) {
  const auto [place, share] = between(table, border_m);
  const auto [before, from, to, after] = around(table, place);
  const std::size_t points = table.points;
  stress_detail::Scratch scratch(6 * points);
  double *const h = scratch.data(), *const bound = h + 4 * points, *const light = bound + points;
  std::fill_n(h, 5 * points, 0.0);
  double* into = h;
  for (std::size_t p : {before, from, to, after}) {
    stress_detail::multiply_add(&table.smooth_pa[p * table.nodes * points], rise_k.data(), points, table.nodes, into);
    into += points;
  }
  double spare = 0.0;
  for (std::size_t k = 0; k < rise_k.size(); ++k) spare += std::abs(rise_k[k]) * spare_pa(table, k, border_m);
  add_cubic_and_off(&h[0], &h[points], &h[2 * points], &h[3 * points], share, spare_along(table, share) * spare, points,
                    bound);
  for (std::size_t kind = 0; kind < 2; ++kind) {
    double with_light = 0.0;
    for (std::size_t k = 0; k < rise_k.size(); ++k) with_light += rise_k[k] * table.with_light_pa[k][kind];
    fill_light(table, border_m, kind, light);
    add_all({light, points}, with_light, bound);
  }
  add_unfolded({bound, points}, table.side_height_m.size(), pa);
}

}  // namespace sunstrain::internal
