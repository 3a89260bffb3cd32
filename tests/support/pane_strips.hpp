// A filmed 6 mm pane, 1.2 x 1.5 m, on a cold day: its strips in sun and in shade, and the stress of both under a light.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "sunstrain/field.hpp"
#include "support/heat_lines.hpp"

namespace sunstrain::test {

using Pattern = ShadowPlan::Pattern;

inline constexpr double width_m = 1.2, height_m = 1.5, bite_m = 0.012, glass_w = width_m + 2 * bite_m,
                        glass_h = height_m + 2 * bite_m;
inline constexpr double blur_m = 0.015;
inline constexpr PaneElasticity elasticity{70e9, 9e-6};

// A filmed 6 mm pane on a cold day: the strip in the sun and the strip in the shade.
struct Strips {
  std::vector<double> depth_m, lit_k, shaded_k;
};

inline Strips strips(const char* frame = "aluminum-break") {
  Strips result;
  const Line line = heat_lines::line(frame, "metal", bite_m, 1);
  StepLoads loads = heat_lines::loads(1, -10.0, 21.0, 10.0);
  loads.absorbed[0] = {30.0, 40.0, 60.0};
  result.shaded_k = steady_line(line, loads, result.depth_m).cell_k;
  loads.absorbed[0] = {90.0, 110.0, 400.0};
  result.lit_k = steady_line(line, loads, result.depth_m).cell_k;
  return result;
}

inline ShadowPlan plan_of(Pattern pattern, double share = 0.25) {
  ShadowPlan plan;
  plan.pattern = pattern;
  plan.share = share;
  return plan;
}

inline LitArea area_of(const ShadowPlan& plan, const ShadowSlope& slope = {0, 0, false}) {
  return lit_area(plan, width_m, height_m, bite_m, slope);
}

// For fields that do not mirror themselves too: tests solve whole ones with it.
inline EdgeStressSolver solver_for(const ShadowPlan& plan) {
  FieldFeatures features = field_features(glass_w, glass_h, bite_m, plan, blur_m);
  features.mirrored_in_x = false;
  return {glass_w, glass_h, features, elasticity};
}

inline std::vector<double> flat(const EdgeStress& stress) {
  std::vector<double> all;
  for (const auto& side : stress.stress_pa) all.insert(all.end(), side.begin(), side.end());
  return all;
}

inline double highest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }

inline double largest_difference(const std::vector<double>& a, const std::vector<double>& b) {
  REQUIRE(a.size() == b.size());
  double worst = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) worst = std::max(worst, std::abs(a[i] - b[i]));
  return worst;
}

inline std::vector<double> sun_adds(const Strips& s) {
  std::vector<double> added;
  for (std::size_t i = 0; i < s.lit_k.size(); ++i) added.push_back(s.lit_k[i] - s.shaded_k[i]);
  return added;
}

// The stress of shade plus what the sun adds within `area`, with every cell of the strip as a node or only some.
inline std::vector<double> mapped_stress(const EdgeStressSolver& solver, const Strips& s, const LitArea& area,
                                         const StripNodes* few = nullptr) {
  std::vector<double> stress(4 * static_cast<std::size_t>(solver.points_per_side()));
  const bool whole = area.everything;
  StripStress({solver, glass_w, glass_h, s.depth_m}, LitArea{}, blur_m).add(whole ? s.lit_k : s.shaded_k, stress);
  if (whole) return stress;
  const std::vector<double> added = sun_adds(s);
  StripStress({solver, glass_w, glass_h, few == nullptr ? s.depth_m : few->depth_m}, area, blur_m)
      .add(few == nullptr ? added : few->values(added), stress);
  return stress;
}

}  // namespace sunstrain::test
