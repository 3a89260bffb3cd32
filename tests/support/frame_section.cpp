#include "frame_section.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunstrain::test {
namespace {

constexpr double lite_m = 0.006, cavity_m = 0.012, glass_w_mk = 1.0, glass_j_m3k = 2500.0 * 720.0;
constexpr double spacer_from_m = 0.005, spacer_to_m = 0.0115, butyl_m = 0.0004, butyl_w_mk = 0.24;
constexpr double middle_m = 0.40;  // from the cut edge: far enough for the middle of the pane
constexpr double corner_m = 0.03, corner_factor = 0.65, air_m = 0.005;
constexpr double panel_w_mk = 0.035, panel_seen_m = 0.190, outdoor_m2k_w = 0.04, room_m2k_w = 0.13;

double lite_from_m(std::size_t lite) { return static_cast<double>(lite) * (lite_m + cavity_m); }
FramedGlass glass_of(const FrameCase& of) { return {lite_from_m(of.lites - 1) + lite_m, of.bite_m}; }

// Outdoors sees the outer lite from here on.
double seen_from_m(const FrameCase& of, std::size_t lite) {
  return lite == 0 && !of.shape.seals.outer_lip ? 0.0 : of.bite_m;
}

struct Reach {
  double x0_m, x1_m, foot_m;
};

Reach add_frame(const FrameShape& shape, const FramedGlass& glass, Section& s) {
  Reach reach{0.0, glass.thickness_m, 0.0};
  for (const FramePart& part : shape.parts) {
    const Box box = place(part, glass);
    s.parts.push_back({box, conductivity_w_mk(part, glass), part.heat_j_m3k});
    reach = {std::min(reach.x0_m, box.x0_m), std::max(reach.x1_m, box.x1_m), std::min(reach.foot_m, box.y0_m)};
  }
  return reach;
}

void add_glass(const FrameCase& of, const Films& films, Section& s) {
  for (std::size_t lite = 0; lite < of.lites; ++lite) {
    const double left = lite_from_m(lite);
    s.parts.push_back({{left, left + lite_m, 0.0, middle_m}, glass_w_mk, glass_j_m3k});
    if (lite == 0) continue;
    const double from = left - cavity_m;
    s.parts.push_back({{from, left, 0.0, middle_m}, films.cavity_w_m2k * cavity_m});
    s.parts.push_back({{from, left, 0.0, spacer_from_m}, of.spacer.seal_conductivity_w_mk});
    s.parts.push_back({{from, left, spacer_from_m, spacer_to_m}, butyl_w_mk});
    s.parts.push_back({{from + butyl_m, left - butyl_m, spacer_from_m, spacer_to_m}, of.spacer.conductivity_w_mk});
  }
}

// A frame in the sun is one whose outdoor air is warmer by S/h. Over glass that outdoors sees to its edge, the joint
// is.
void add_air(const FrameCase& of, const Films& films, const Drivers& d, const Reach& r, Section& s) {
  const double to = glass_of(of).thickness_m, seen = seen_from_m(of, 0), sight = of.bite_m;
  const double left = r.x0_m - air_m, right = r.x1_m + air_m;
  const double sunlit_k = d.outdoor_k + d.frame_w_m2 / films.outdoor_w_m2k;
  s.airs = {{{left, 0.0, seen, middle_m}, d.outdoor_k, 1.0 / films.outdoor_w_m2k},
            {{left, 0.0, r.foot_m, seen}, sunlit_k, 1.0 / films.outdoor_w_m2k},
            {{to, right, r.foot_m, middle_m}, d.room_k, 1.0 / films.room_w_m2k},
            {{to, to + corner_m, sight, sight + corner_m}, d.room_k, 1.0 / (films.room_w_m2k * corner_factor)}};
}

Section section_of(const FrameCase& of, const Films& films, const Drivers& d) {
  Section s;
  s.finest_m = 0.0004;
  s.fine_y_m = {of.bite_m};
  const Reach reach = add_frame(of.shape, glass_of(of), s);
  add_glass(of, films, s);
  add_air(of, films, d, reach, s);
  const auto sun = [&](std::size_t lite, double w_m2) {
    const double left = lite_from_m(lite);
    s.heats.push_back({{left, left + lite_m, seen_from_m(of, lite), middle_m}, w_m2 / lite_m});
  };
  sun(0, d.sun1_w_m2);
  if (of.lites > 1) sun(of.lites - 1, d.sun2_w_m2);
  return s;
}

// The mean over the lite's thickness, of a cell to either side where there is glass.
double lite_mean(const SectionField& field, const LitePlace& at, double finest_m) {
  const double left = lite_from_m(at.lite), around = finest_m * 1.01;
  return field.mean({left, left + lite_m, std::max(0.0, at.depth_m - around), std::min(middle_m, at.depth_m + around)});
}

}  // namespace

std::vector<Influence> section_influences(const FrameCase& of, const Films& films,
                                          const std::vector<LitePlace>& places) {
  std::vector<std::array<double, 5>> driven(places.size());
  constexpr Drivers each[]{{1, 0, 0, 0, 0}, {0, 1, 0, 0, 0}, {0, 0, 1, 0, 0}, {0, 0, 0, 1, 0}, {0, 0, 0, 0, 1}};
  for (std::size_t k = 0; k < std::size(each); ++k) {
    const Section s = section_of(of, films, each[k]);
    const SectionField field = solve_section(s);
    for (std::size_t p = 0; p < places.size(); ++p) driven[p][k] = lite_mean(field, places[p], s.finest_m);
  }
  std::vector<Influence> result;
  for (const auto& d : driven) result.push_back({d[0], d[1], d[2], d[3], d[4]});
  return result;
}

EdgeSwing section_swing(const FrameCase& of, const Films& films, const LitePlace& place) {
  const Section s = section_of(of, films, {1, 0, 0, 0, 0});
  const SectionSwing day = solve_swing(s, 86400.0);
  const double in_step = lite_mean(day.in_step, place, s.finest_m), behind = lite_mean(day.behind, place, s.finest_m);
  return {std::hypot(in_step, behind) / lite_mean(solve_section(s), place, s.finest_m),
          std::atan2(behind, in_step) * 24 * 60 / (2.0 * std::numbers::pi)};
}

double section_frame_u_w_m2k(const FrameShape& shape, double glass_thickness_m, double bite_m) {
  Section s;
  const FramedGlass glass{glass_thickness_m, bite_m};
  const double top = bite_m + panel_seen_m;
  const Reach r = add_frame(shape, glass, s);
  s.parts.push_back({{0.0, glass_thickness_m, 0.0, top}, panel_w_mk});
  s.airs = {{{r.x0_m - air_m, 0.0, r.foot_m, top}, 0.0, outdoor_m2k_w},
            {{glass_thickness_m, r.x1_m + air_m, r.foot_m, top}, 1.0, room_m2k_w}};
  const double panel = 1.0 / (outdoor_m2k_w + glass_thickness_m / panel_w_mk + room_m2k_w);
  return (solve_section(s).from_air_w_m[1] - panel * panel_seen_m) / (bite_m - r.foot_m);
}

}  // namespace sunstrain::test
