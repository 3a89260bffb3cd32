// Which part of the pane the beam reaches at a moment.
#include <algorithm>
#include <cmath>

#include "sunstrain/field.hpp"

namespace sunstrain {
namespace {

struct Visible {
  double left, right, bottom, top;
};  // lit rectangle on the visible pane

Visible still_pattern(const ShadowPlan& plan, double w, double h) {
  using Pattern = ShadowPlan::Pattern;
  const double s = plan.share;
  switch (plan.pattern) {
    case Pattern::head_band:
      return {0, w, 0, h * (1 - s)};
    case Pattern::side_band:
      return {w * s, w, 0, h};
    case Pattern::l_shape:
      return {w * s, w, 0, h * (1 - s)};
    case Pattern::half:
      return {0.5 * w, w, 0, h};
    case Pattern::narrow_frame: {
      const double band = s * std::min(w, h);
      return {band, w - band, band, h - band};
    }
    case Pattern::sun_patch:
      return {0.5 * w * (1 - s), 0.5 * w * (1 + s), 0, h * s};
    default:
      return {0, w, 0, h};
  }
}

// A projection d in front of the glass moves its shadow by -d tan(gamma) along the pane and -d tan(profile) down.
void moving_shadows(const ShadowPlan& plan, double w, double h, const ShadowSlope& slope, Visible& lit) {
  if (!slope.sun_on_pane) return;
  if (plan.overhang_depth_m > 0.0) {
    lit.top = std::min(lit.top, h - std::max(0.0, plan.overhang_depth_m * slope.tan_profile - plan.overhang_height_m));
  }
  if (plan.reveal_depth_m > 0.0) {
    const double sideways = -plan.reveal_depth_m * slope.tan_gamma;
    lit.left = std::max(lit.left, sideways);        // the left jamb's shadow reaches to the right
    lit.right = std::min(lit.right, w + sideways);  // the right jamb's to the left
    lit.top = std::min(lit.top, h - plan.reveal_depth_m * std::max(0.0, slope.tan_profile));
  }
  lit.left = std::max(lit.left, -plan.left_fin_depth_m * slope.tan_gamma - plan.left_fin_distance_m);
  lit.right = std::min(lit.right, w - plan.right_fin_depth_m * slope.tan_gamma + plan.right_fin_distance_m);
  if (plan.wall_distance_m > 0.0)  // the light comes over the wall's top and falls by the profile angle
    lit.bottom = std::max(lit.bottom, plan.wall_height_m - plan.wall_distance_m * slope.tan_profile);
}

// The shadows of bars along a side of length `end`, joined where they overlap. `out` is how far along that side the
// outer edge of a bar throws its shadow.
std::vector<std::pair<double, double>> bar_shadows(int bars, double end, double width, double out) {
  std::vector<std::pair<double, double>> shadows;
  for (int i = 1; i <= bars; ++i) {
    const double middle = end * i / (bars + 1);
    const double from = std::max(0.0, middle - 0.5 * width + std::min(0.0, out)),
                 to = std::min(end, middle + 0.5 * width + std::max(0.0, out));
    if (!shadows.empty() && from <= shadows.back().second)
      shadows.back().second = std::max(shadows.back().second, to);
    else
      shadows.emplace_back(from, to);
  }
  return shadows;
}

std::vector<Visible> bars(const ShadowPlan& plan, double w, double h, const ShadowSlope& slope) {
  std::vector<Visible> dark;
  if (!slope.sun_on_pane) return dark;
  for (const auto& [from, to] :
       bar_shadows(plan.upright_bars, w, plan.bar_width_m, -plan.bar_depth_m * slope.tan_gamma))
    dark.push_back({from, to, 0.0, h});
  for (const auto& [from, to] :
       bar_shadows(plan.bars_across, h, plan.bar_width_m, -plan.bar_depth_m * slope.tan_profile))
    dark.push_back({0.0, w, from, to});
  return dark;
}

// From the visible pane to the glass, whose sightlines lie bite_m in.
LitArea on_glass(const Visible& lit, double width_m, double height_m, double bite_m) {
  LitArea area;
  area.everything = false;
  // A border on the sightline is no border: the strip model already has the glass behind it out of the sun.
  constexpr double touching_m = 1e-9;
  area.left_m = lit.left <= touching_m ? 0.0 : lit.left + bite_m;
  area.bottom_m = lit.bottom <= touching_m ? 0.0 : lit.bottom + bite_m;
  area.right_m = lit.right >= width_m - touching_m ? width_m + 2 * bite_m : lit.right + bite_m;
  area.top_m = lit.top >= height_m - touching_m ? height_m + 2 * bite_m : lit.top + bite_m;
  return area;
}

}  // namespace

LitArea lit_area(const ShadowPlan& plan, double width_m, double height_m, double bite_m, const ShadowSlope& slope) {
  Visible lit = still_pattern(plan, width_m, height_m);
  moving_shadows(plan, width_m, height_m, slope, lit);
  LitArea area = on_glass(lit, width_m, height_m, bite_m);
  area.diagonal = plan.pattern == ShadowPlan::Pattern::diagonal;
  area.nothing = lit.right <= lit.left || lit.top <= lit.bottom;
  const bool whole = area.left_m == 0.0 && area.bottom_m == 0.0 && area.right_m == width_m + 2 * bite_m &&
                     area.top_m == height_m + 2 * bite_m;
  area.everything = whole && !area.diagonal;
  return area;
}

namespace {

LitArea screened(ShadowPlan::Screen screen, double glass_w, double glass_h) {
  LitArea area;
  area.everything = false;
  area.left_m = screen == ShadowPlan::Screen::right_half ? 0.5 * glass_w : 0.0;
  area.right_m = screen == ShadowPlan::Screen::left_half ? 0.5 * glass_w : glass_w;
  area.top_m = screen == ShadowPlan::Screen::bottom_half ? 0.5 * glass_h : glass_h;
  return area;
}

// Where two areas overlap; nothing in it where they do not.
LitArea common(LitArea a, const LitArea& b) {
  a.everything = a.everything && b.everything;
  a.left_m = std::max(a.left_m, b.left_m);
  a.right_m = std::min(a.right_m, b.right_m);
  a.bottom_m = std::max(a.bottom_m, b.bottom_m);
  a.top_m = std::min(a.top_m, b.top_m);
  a.nothing = a.left_m >= a.right_m || a.bottom_m >= a.top_m;
  return a;
}

// Where shadows of upright and cross bars meet, the sun is taken away twice: spots that are small and far from the
// edge. Cut out once, they would be lights cut along both directions, for which there is no table (theory.md "Field").
// A lasting shadow that lets a share p of the beam through leaves p of the light that there is without it, and 1 - p of
// what is left with it; a screen takes its share of each.
Light light_of_shadows(const ShadowPlan& plan, double width_m, double height_m, double bite_m,
                       const ShadowSlope& slope) {
  if (!plan.stands_still() && !slope.sun_on_pane) return {};
  Light light{false, {}};
  std::vector<LitArea> dark;
  for (const Visible& bar : bars(plan, width_m, height_m, slope))
    dark.push_back(on_glass(bar, width_m, height_m, bite_m));
  const auto add = [&](const ShadowPlan& of, double share) {
    if (share == 0.0) return;
    const LitArea sun = lit_area(of, width_m, height_m, bite_m, slope);
    if (sun.nothing) return;
    light.parts.push_back({sun, share});
    for (const LitArea& bar : dark) {
      const LitArea both = common(bar, sun);
      if (!both.nothing) light.parts.push_back({both, -share});
    }
    if (plan.screen == ShadowPlan::Screen::none) return;
    const LitArea both = common(screened(plan.screen, width_m + 2 * bite_m, height_m + 2 * bite_m), sun);
    if (!both.nothing) light.parts.push_back({both, share * (plan.screen_pass - 1.0)});
  };
  ShadowPlan without = plan;
  without.pattern = ShadowPlan::Pattern::none;
  const double pass = plan.pattern == ShadowPlan::Pattern::none ? 0.0 : plan.pass;
  add(without, pass);
  add(plan, 1.0 - pass);
  if (light.parts.empty() || !light.parts.front().lit.everything || light.parts.front().share < 1.0) return light;
  light.sun_under = true;
  light.parts.erase(light.parts.begin());
  return light;
}

}  // namespace

// Over its part the pane has another temperature in the shade, and the sun adds something else: both differences lie,
// times the light, over what the pane has without that part.
Light light_of(const ShadowPlan& plan, double width_m, double height_m, double bite_m, const ShadowSlope& slope) {
  Light light = light_of_shadows(plan, width_m, height_m, bite_m, slope);
  if (!plan.part) return light;
  const auto& [name, left, right, bottom, top] = *plan.part;
  const LitArea part =
      on_glass({left * width_m, right * width_m, bottom * height_m, top * height_m}, width_m, height_m, bite_m);
  for (std::size_t i = 0, of_sun = light.parts.size(); i < of_sun; ++i) {
    const LitArea both = common(light.parts[i].lit, part);
    if (!both.nothing) light.parts.push_back({both, light.parts[i].share, LightPart::Adds::sun_on_part});
  }
  light.parts.push_back({part, 1.0, LightPart::Adds::part});
  return light;
}

std::vector<std::string> casting(const ShadowPlan& plan, double width_m, double height_m, const ShadowSlope& slope) {
  std::vector<std::string> names;
  const auto look = [&](const char* name, const ShadowPlan& alone) {
    const Light light = light_of(alone, width_m, height_m, 0.0, slope);
    if (!light.sun_under || !light.parts.empty()) names.emplace_back(name);
  };
  ShadowPlan lasting, overhang, reveal, left, right, wall, screen, bars;
  lasting.pattern = plan.pattern;
  lasting.share = plan.share;
  lasting.pass = plan.pass;
  overhang.overhang_depth_m = plan.overhang_depth_m;
  overhang.overhang_height_m = plan.overhang_height_m;
  reveal.reveal_depth_m = plan.reveal_depth_m;
  left.left_fin_depth_m = plan.left_fin_depth_m;
  left.left_fin_distance_m = plan.left_fin_distance_m;
  right.right_fin_depth_m = plan.right_fin_depth_m;
  right.right_fin_distance_m = plan.right_fin_distance_m;
  wall.wall_distance_m = plan.wall_distance_m;
  wall.wall_height_m = plan.wall_height_m;
  screen.screen = slope.sun_on_pane ? plan.screen : ShadowPlan::Screen::none;
  screen.screen_pass = plan.screen_pass;
  bars.upright_bars = plan.upright_bars;
  bars.bars_across = plan.bars_across;
  bars.bar_width_m = plan.bar_width_m;
  bars.bar_depth_m = plan.bar_depth_m;
  look("lasting shadow", lasting);
  look("overhang", overhang);
  look("reveal", reveal);
  look("left fin", left);
  look("right fin", right);
  look("wall opposite", wall);
  look("insect screen", screen);
  look("glazing bars", bars);
  if (plan.part) names.push_back(plan.part->name);
  return names;
}

double smearing_length_m(double conductivity_w_mk, double thickness_m, double exchange_w_m2k) {
  return std::sqrt(conductivity_w_mk * thickness_m / exchange_w_m2k);
}

}  // namespace sunstrain
