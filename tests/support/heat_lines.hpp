// Lines (strips from the cut edge to the middle) built from the reference tables, for the tests of heat, edge and
// field.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/heat.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace heat_lines {

using namespace sunstrain;

inline constexpr double zero_c = 273.15;

inline const Gas& gas(std::string_view name) { return row_named(builtin_reference().gases, name); }

inline EdgeSection edge_section(std::string_view frame, std::string_view spacer, double bite_m, bool sealed) {
  const Reference& r = builtin_reference();
  return {row_named(r.frames, frame),
          sealed,
          bite_m,
          row_named(r.spacers, spacer),
          constant(r, "pocket_conductivity"),
          constant(r, "edge_clearance_m"),
          constant(r, "butyl_thickness_m"),
          constant(r, "butyl_conductivity"),
          constant(r, "spacer_from_m"),
          constant(r, "spacer_to_m"),
          constant(r, "room_corner_factor"),
          constant(r, "room_corner_length_m")};
}

// Lites of one thickness, uncoated, 12 mm of air between them.
inline Line line(std::string_view frame, std::string_view spacer, double bite_m, std::size_t lites,
                 double thickness_m = 0.006, double height_m = 1.0, double emissivity = 0.84) {
  Line result{{{}, {}, height_m, {1.0, 2500.0, 720.0}}, edge_section(frame, spacer, bite_m, lites > 1), {}, gas("air")};
  for (std::size_t j = 0; j < lites; ++j) result.glazing.lites.push_back({thickness_m, emissivity, emissivity});
  for (std::size_t k = 0; k + 1 < lites; ++k) result.glazing.cavities.push_back({0.012, gas("air")});
  return result;
}

// Air, surroundings and room in Celsius; the sky as warm as the air; nothing absorbed.
inline StepLoads loads(std::size_t lites, double outdoor_c, double room_c, double outdoor_convection_w_m2k) {
  return {outdoor_c + zero_c,
          outdoor_convection_w_m2k,
          outdoor_c + zero_c,
          0.0,
          room_c + zero_c,
          room_c + zero_c,
          0.0,
          PerLite<FaceSources>(lites),
          0.0,
          0.0};
}

// Half of a lite's absorbed sun on each face, as ISO 15099 puts it.
inline FaceSources on_faces(double absorbed_w_m2) { return {0.5 * absorbed_w_m2, 0.0, 0.5 * absorbed_w_m2}; }

// Middle less cut edge of one lite, K.
inline double middle_less_edge_k(const LineStep& step, std::size_t lite, std::size_t cells) {
  return step.cell_k[(lite + 1) * cells - 1] - step.cell_k[lite * cells];
}

// A clear day: air with its lowest at `coldest_hour`, half-sine sun from 8 to 16 h, `steps` mid-steps.
struct DayShape {
  double mean_c, swing_k, room_c, outdoor_convection_w_m2k, sun_w_m2, frame_absorptance;
};

inline std::vector<StepLoads> clear_day(const DayShape& shape, std::span<const double> absorbed, int steps) {
  constexpr double pi = 3.14159265358979323846, coldest_hour = 5.0;
  std::vector<StepLoads> day;
  for (int i = 0; i < steps; ++i) {
    const double hour = (i + 0.5) * 24.0 / steps;
    const double air_c = shape.mean_c - shape.swing_k * std::cos(2 * pi * (hour - coldest_hour) / 24.0);
    StepLoads step = loads(absorbed.size(), air_c, shape.room_c, shape.outdoor_convection_w_m2k);
    step.sky_k = step.outdoor_air_k - 20.0;
    step.sky_view = 0.354;
    const double sun = hour > 8.0 && hour < 16.0 ? shape.sun_w_m2 * std::sin(pi * (hour - 8.0) / 8.0) : 0.0;
    for (std::size_t j = 0; j < absorbed.size(); ++j) {
      step.absorbed[j] = {0.2 * absorbed[j] * sun, 0.3 * absorbed[j] * sun, 0.5 * absorbed[j] * sun};
    }
    step.frame_absorbed_w_m2 = shape.frame_absorptance * sun;
    day.push_back(step);
  }
  return day;
}

}  // namespace heat_lines
