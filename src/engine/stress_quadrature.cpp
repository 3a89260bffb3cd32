#include "stress_quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunstrain::stress_detail {

// Newton on the Legendre polynomial from the classic cosine estimate of its roots.
GaussRule gauss_rule(int order) {
  GaussRule rule;
  rule.node.resize(static_cast<std::size_t>(order));
  rule.weight.resize(static_cast<std::size_t>(order));
  for (int i = 0; i < order; ++i) {
    double x = -std::cos(std::numbers::pi * (i + 0.75) / (order + 0.5)), slope = 0.0;
    for (int pass = 0; pass < 100; ++pass) {
      double p = 1.0, before = 0.0;
      for (int k = 1; k <= order; ++k) {
        const double next = ((2 * k - 1) * x * p - (k - 1) * before) / k;
        before = p;
        p = next;
      }
      slope = order * (x * p - before) / (x * x - 1.0);
      const double step = p / slope;
      x -= step;
      if (std::abs(step) < 1e-15) break;
    }
    rule.node[static_cast<std::size_t>(i)] = x;
    rule.weight[static_cast<std::size_t>(i)] = 2.0 / ((1.0 - x * x) * slope * slope);
  }
  return rule;
}

namespace {

// A stretch that crosses the middle folds onto the longer of its two parts.
void add_folded(double from_m, double to_m, double length_m, double width_m, std::vector<Feature>& folded) {
  const double half = 0.5 * length_m;
  const double a = std::min(from_m, length_m - from_m), b = std::min(to_m, length_m - to_m);
  const bool across = from_m < half && to_m > half;
  const double low = std::min(a, b), high = across ? half : std::max(a, b);
  folded.push_back({0.5 * (low + high), width_m, 0.5 * (high - low)});
}

// Features seen from the far end of the folded direction: a feature in either half counts in the one half.
std::vector<Feature> fold(double length_m, std::span<const Feature> features, double end_width_m) {
  std::vector<Feature> folded{{0.0, end_width_m, 0.0}};
  for (const Feature& f : features) {
    // Near an end but outside, a change still reaches in; further out it is no concern of the pane.
    const double from = f.position_m - f.reach_m, to = f.position_m + f.reach_m;
    if (to < -8.0 * f.width_m || from > length_m + 8.0 * f.width_m) continue;
    add_folded(std::clamp(from, 0.0, length_m), std::clamp(to, 0.0, length_m), length_m, f.width_m, folded);
  }
  return folded;
}

double distance(const Panel& panel, const Feature& f) {
  return std::max({0.0, panel.from_m - f.position_m - f.reach_m, f.position_m - f.reach_m - panel.to_m});
}

}  // namespace

std::vector<Panel> graded_panels(double length_m, std::span<const Feature> features, double end_width_m,
                                 double panel_per_width) {
  const std::vector<Feature> folded = fold(length_m, features, end_width_m);
  const double half = 0.5 * length_m, tiny = 1e-9 * length_m;
  std::vector<double> cuts{0.0};
  for (const Feature& f : folded)
    for (double end : {f.position_m - f.reach_m, f.position_m + f.reach_m}) cuts.push_back(end);
  cuts.push_back(half);
  std::sort(cuts.begin(), cuts.end());
  cuts.erase(std::unique(cuts.begin(), cuts.end(), [&](double a, double b) { return b - a < tiny; }), cuts.end());

  std::vector<Panel> done, open;
  for (std::size_t i = cuts.size() - 1; i > 0; --i) open.push_back({cuts[i - 1], cuts[i]});
  while (!open.empty()) {
    const Panel panel = open.back();
    open.pop_back();
    const double size = panel.to_m - panel.from_m;
    const bool too_long = std::any_of(folded.begin(), folded.end(), [&](const Feature& f) {
      return size > panel_per_width * f.width_m + distance(panel, f);
    });
    if (!too_long) {
      done.push_back(panel);
      continue;
    }
    const double middle = 0.5 * (panel.from_m + panel.to_m);
    open.push_back({middle, panel.to_m});
    open.push_back({panel.from_m, middle});
  }
  return done;
}

// Equal shares of a point density 1 / spacing that is fine at the features and widens away from them.
std::vector<double> graded_edge_points(double length_m, std::span<const Feature> features, double end_width_m,
                                       double shorter_m, int count) {
  const std::vector<Feature> folded = fold(length_m, features, end_width_m);
  const double half = 0.5 * length_m;
  constexpr int cells = 1024;
  std::vector<double> share(cells + 1, 0.0);
  for (int i = 0; i < cells; ++i) {
    const double d = half * (i + 0.5) / cells;
    double spacing = half / 4.0;
    for (const Feature& f : folded) {
      const double away = std::max(0.0, std::abs(d - f.position_m) - f.reach_m), far = away / shorter_m;
      spacing = std::min(spacing, 0.5 * f.width_m + 0.4 * away * (1.0 + far * far));
    }
    share[static_cast<std::size_t>(i) + 1] = share[static_cast<std::size_t>(i)] + 1.0 / spacing;
  }
  std::vector<double> points;
  std::size_t cell = 0;
  for (int k = 0; k < count; ++k) {
    const double wanted = share.back() * (k + 0.5) / count;
    while (share[cell + 1] < wanted) ++cell;
    const double within = (wanted - share[cell]) / (share[cell + 1] - share[cell]);
    points.push_back(half * (static_cast<double>(cell) + within) / cells);
  }
  return points;
}

}  // namespace sunstrain::stress_detail
