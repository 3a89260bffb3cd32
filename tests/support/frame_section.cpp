#include "frame_section.hpp"

namespace sunstrain::test {
namespace {

constexpr double lite_m = 0.006, cavity_m = 0.012, glass_w_mk = 1.0, clearance_m = 0.005, pocket_w_mk = 0.06;
constexpr double spacer_from_m = 0.005, spacer_to_m = 0.0115, butyl_m = 0.0004, butyl_w_mk = 0.24,
                 outer_seal_w_mk = 0.40;
constexpr double middle_m = 0.40;  // from the cut edge: far enough for the middle of the pane
constexpr double corner_m = 0.03, corner_factor = 0.65, air_m = 0.005;

double glass_from_m(const FrameCase& of) { return of.frame.outer_leg_m + of.frame.seal_thickness_m; }
double glass_to_m(const FrameCase& of) { return glass_from_m(of) + (of.sealed ? 2 * lite_m + cavity_m : lite_m); }
double depth_m(const FrameCase& of) { return of.sealed ? of.frame.depth_sealed_m : of.frame.depth_single_m; }

void add_frame(const FrameCase& of, Section& s) {
  const BoxFrame& f = of.frame;
  const double from = glass_from_m(of), to = glass_to_m(of), foot = of.bite_m - f.visible_m;
  s.parts.push_back({{0.0, depth_m(of), foot, of.bite_m}, f.conductivity_w_mk});
  s.parts.push_back({{from - f.seal_thickness_m, to + f.seal_thickness_m, -clearance_m, of.bite_m}, pocket_w_mk});
  for (double x : {from - f.seal_thickness_m, to})
    s.parts.push_back({{x, x + f.seal_thickness_m, of.bite_m - f.seal_height_m, of.bite_m}, f.seal_conductivity_w_mk});
}

void add_glass(const FrameCase& of, const Films& films, Section& s) {
  const double from = glass_from_m(of), to = glass_to_m(of);
  s.parts.push_back({{from, to, 0.0, middle_m}, glass_w_mk});
  if (!of.sealed) return;
  const double left = from + lite_m, right = left + cavity_m;
  s.parts.push_back({{left, right, 0.0, middle_m}, films.cavity_w_m2k * cavity_m});
  s.parts.push_back({{left, right, 0.0, spacer_from_m}, outer_seal_w_mk});
  s.parts.push_back({{left, right, spacer_from_m, spacer_to_m}, butyl_w_mk});
  s.parts.push_back({{left + butyl_m, right - butyl_m, spacer_from_m, spacer_to_m}, of.spacer_conductivity_w_mk});
}

// A frame in the sun is one whose outdoor air is warmer by S/h.
void add_air(const FrameCase& of, const Films& films, const Drivers& d, Section& s) {
  const double from = glass_from_m(of), to = glass_to_m(of), foot = of.bite_m - of.frame.visible_m;
  const double sun_k = d.frame_w_m2 / films.outdoor_w_m2k;
  s.airs = {
      {{-air_m, from, of.bite_m, middle_m}, d.outdoor_k, 1.0 / films.outdoor_w_m2k},
      {{-air_m, 0.0, foot, of.bite_m}, d.outdoor_k + sun_k, 1.0 / films.outdoor_w_m2k},
      {{to, depth_m(of) + air_m, of.bite_m, of.bite_m + corner_m}, d.room_k, 1.0 / (films.room_w_m2k * corner_factor)},
      {{to, depth_m(of) + air_m, of.bite_m + corner_m, middle_m}, d.room_k, 1.0 / films.room_w_m2k},
      {{depth_m(of), depth_m(of) + air_m, foot, of.bite_m}, d.room_k, 1.0 / films.room_w_m2k}};
}

double temperature(const FrameCase& of, const Films& films, const Drivers& d, std::size_t lite, double depth) {
  Section s;
  s.finest_m = 0.0004;
  s.fine_y_m = {depth};
  add_frame(of, s);
  add_glass(of, films, s);
  add_air(of, films, d, s);
  const double from = glass_from_m(of), second = from + lite_m + cavity_m;
  s.heats.push_back({{from, from + lite_m, of.bite_m, middle_m}, d.sun1_w_m2 / lite_m});
  if (of.sealed) s.heats.push_back({{second, second + lite_m, of.bite_m, middle_m}, d.sun2_w_m2 / lite_m});
  const double left = lite == 0 ? from : second;
  const double around = s.finest_m * 1.01;  // a cell to either side, where there is glass
  return solve_section(s).mean(
      {left, left + lite_m, std::max(0.0, depth - around), std::min(middle_m, depth + around)});
}

}  // namespace

Influence section_influence(const FrameCase& of, const Films& films, std::size_t lite, double depth) {
  const auto at = [&](const Drivers& d) { return temperature(of, films, d, lite, depth); };
  return {at({1, 0, 0, 0, 0}), at({0, 1, 0, 0, 0}), at({0, 0, 1, 0, 0}), at({0, 0, 0, 1, 0}), at({0, 0, 0, 0, 1})};
}

}  // namespace sunstrain::test
