// Temperature fields with shadows on a framed pane, for the tests of the edge stress.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "sunstrain/stress.hpp"

namespace sunstrain::test {

using Profile1d = std::function<double(double)>;

// The strip behind a sightline at both ends: 0 at the edge, 1 inside.
inline Profile1d framed(double length_m, double scale_m) {
  return [=](double s) { return 1.0 - std::exp(-s / scale_m) - std::exp(-(length_m - s) / scale_m); };
}

// A step from 0 to 1 as conduction in the glass smooths it: one-sided exponentials.
inline Profile1d conducted_step(double at_m, double scale_m) {
  return [=](double s) {
    const double d = (s - at_m) / scale_m;
    return d > 0.0 ? 1.0 - 0.5 * std::exp(-d) : 0.5 * std::exp(d);
  };
}

inline Profile1d smooth_step(double at_m, double scale_m) {
  return [=](double s) { return 0.5 * (1.0 + std::tanh((s - at_m) / scale_m)); };
}

inline Profile1d times(Profile1d a, Profile1d b) {
  return [a, b](double s) { return a(s) * b(s); };
}

inline Profile1d less(Profile1d a, Profile1d b) {
  return [a, b](double s) { return a(s) - b(s); };
}

inline double one(double) { return 1.0; }

struct ShadowCase {
  std::string name;
  double width_m, height_m;
  FieldFeatures features;
  std::function<double(double, double)> temperature;
  std::vector<ProductTerm> terms;  // empty for a field that is no sum of products
};

inline std::function<double(double, double)> sum_of(std::vector<ProductTerm> terms) {
  return [terms](double x, double y) {
    double t = 0.0;
    for (const ProductTerm& p : terms) t += p.amplitude_k * p.x_profile(x) * p.y_profile(y);
    return t;
  };
}

// frame, head band, side band, L, narrow ring, patch at the sill, diagonal. frame_m: scale of the strip at the
// frame; shadow_m: scale of the step at shadow lines.
inline std::vector<ShadowCase> shadow_cases(double w, double h, double frame_m, double shadow_m,
                                            Profile1d (*step)(double, double) = smooth_step) {
  std::vector<ShadowCase> cases;
  const Profile1d fx = framed(w, frame_m), fy = framed(h, frame_m);
  const auto on = [&](const Profile1d& frame, double from, double to) {
    return times(frame, less(step(from, shadow_m), step(to, shadow_m)));
  };
  const auto features = [&](std::vector<double> x, std::vector<double> y) {
    FieldFeatures f{{{0.0, frame_m}}, {{0.0, frame_m}}};
    for (double at : x) f.along_x.push_back({at, shadow_m});
    for (double at : y) f.along_y.push_back({at, shadow_m});
    return f;
  };
  const auto add = [&](std::string name, FieldFeatures f, std::vector<ProductTerm> terms) {
    cases.push_back({std::move(name), w, h, std::move(f), sum_of(terms), terms});
  };
  const double away = 1e3, ring = 0.06 * std::min(w, h), sill = 0.3 * std::min(w, h);
  const ProductTerm shaded{6.0, fx, fy};
  add("frame", features({}, {}), {{20.0, fx, fy}});
  add("head band", features({}, {0.75 * h}), {{16.0, fx, on(fy, -away, 0.75 * h)}, {4.0, fx, fy}});
  add("side band", features({0.3 * w}, {}), {{20.0, on(fx, 0.3 * w, away), fy}});
  add("L", features({0.25 * w}, {0.75 * h}), {{20.0, on(fx, 0.25 * w, away), on(fy, -away, 0.75 * h)}, shaded});
  add("narrow ring", features({ring, w - ring}, {ring, h - ring}),
      {{20.0, on(fx, ring, w - ring), on(fy, ring, h - ring)}, shaded});
  add("patch", features({0.4 * w, 0.6 * w}, {sill}), {{20.0, on(fx, 0.4 * w, 0.6 * w), on(fy, -away, sill)}, shaded});
  const double diagonal = std::hypot(w, h);
  cases.push_back({"diagonal",
                   w,
                   h,
                   {{{0.0, frame_m}, {0.5 * w, shadow_m, 0.5 * w}}, {{0.0, frame_m}, {0.5 * h, shadow_m, 0.5 * h}}},
                   [=](double x, double y) {
                     return fx(x) * fy(y) * (6.0 + 14.0 * step(0.0, shadow_m)((h * x - w * y) / diagonal));
                   },
                   {}});
  return cases;
}

inline constexpr PaneElasticity glass{70e9, 9e-6};

inline EdgeStress solve_case(const ShadowCase& c, StressResolution resolution = {}, int points = 64) {
  const EdgeStressSolver solver(c.width_m, c.height_m, c.features, glass, points, resolution);
  return c.terms.empty() ? solver.solve_general(c.temperature) : solver.solve(std::span<const ProductTerm>(c.terms));
}

// Largest difference more than `corner_m` from a corner, as a share of the second's peak.
inline double edge_difference(const EdgeStress& a, const EdgeStress& b, double corner_m = 0.010) {
  double worst = 0.0;
  for (std::size_t s = 0; s < 4; ++s) {
    const auto& at = b.position_m[s];
    const double length = at.front() + at.back();  // the points are mirrored
    for (std::size_t i = 0; i < at.size(); ++i)
      if (std::min(at[i], length - at[i]) > corner_m)
        worst = std::max(worst, std::abs(a.stress_pa[s][i] - b.stress_pa[s][i]));
  }
  return worst / b.peak_pa;
}

}  // namespace sunstrain::test
