#include "sunstrain/worst_hour.hpp"

#include <algorithm>

#include "hour_map.hpp"
#include "trace_hour.hpp"

namespace sunstrain {
namespace {

using internal::GoverningHour;

DayCurves curves_of(const GoverningHour& hour) {
  DayCurves curves;
  const bool colder = hour.pane.bottom_is_colder(hour.lite) && hour.peak.side == Side::bottom;
  const double colder_k = colder ? hour.pane.bottom_edge_colder_k : 0.0;
  const LineDay& lit = *hour.strips.lit;
  for (std::size_t step = 0; step < hour.day->steps.size(); ++step) {
    const DayStep& sky = hour.day->steps[step];
    const auto strip = lit.strip(step, hour.lite);
    curves.local_hour.push_back(sky.local_hour);
    curves.middle_k.push_back(strip.back());
    curves.edge_k.push_back(strip.front() - colder_k);
    curves.frame_k.push_back(lit.frame_k[step - lit.first_step][1]);
    curves.outdoor_k.push_back(sky.outdoor_air_k);
    curves.sun_w_m2.push_back(sky.pane.total_w_m2());
  }
  curves.room_k = hour.loads.room_air_k;
  return curves;
}

double share_at(const Light& light, double x_m, double y_m, double width_m, double height_m) {
  double share = light.sun_under ? 1.0 : 0.0;
  for (const LightPart& part : light.parts)
    if (part.adds == LightPart::Adds::sun && internal::lies_in(part.lit, x_m, y_m, width_m, height_m))
      share += part.share;
  return std::clamp(share, 0.0, 1.0);
}

void sort_borders(std::vector<double>& borders) {
  std::sort(borders.begin(), borders.end());
  borders.erase(std::unique(borders.begin(), borders.end()), borders.end());
}

}  // namespace

WorstHour worst_hour(const Assessment& a, const Reference& reference, std::size_t columns, std::size_t rows) {
  const GoverningHour hour(a, reference);
  WorstHour worst{hour.pane, {}, false, internal::map_of(hour, a, columns, rows), {}, {}, curves_of(hour)};
  worst.sun_lies = hour.sky().slope.sun_on_pane;
  worst.light = internal::light_in(hour);
  const EdgeStressSolver& solver = *hour.solver;
  const auto points = static_cast<std::size_t>(solver.points_per_side());
  for (const Side side : all_sides) {
    const auto index = static_cast<std::size_t>(side);
    const auto at = side == Side::bottom || side == Side::top ? solver.x_edge_points() : solver.y_edge_points();
    worst.position_m[index].assign(at.begin(), at.end());
    for (std::size_t i = 0; i < points; ++i)
      worst.stress_pa[index].push_back(hour.stress_pa[index * points + i] * a.raised_by());
  }
  return worst;
}

std::vector<LightField> light_fields(const Light& light, double width_m, double height_m, int steps) {
  std::vector<double> x{0.0, width_m}, y{0.0, height_m};
  for (const LightPart& part : light.parts) {
    if (part.lit.diagonal) {
      for (int i = 1; i < steps; ++i) {
        x.push_back(width_m * i / steps);
        y.push_back(height_m * i / steps);
      }
    } else if (!part.lit.everything && !part.lit.nothing) {
      for (const double border : {part.lit.left_m, part.lit.right_m}) x.push_back(std::clamp(border, 0.0, width_m));
      for (const double border : {part.lit.bottom_m, part.lit.top_m}) y.push_back(std::clamp(border, 0.0, height_m));
    }
  }
  sort_borders(x);
  sort_borders(y);
  std::vector<LightField> fields;
  for (std::size_t row = 0; row + 1 < y.size(); ++row) {
    for (std::size_t column = 0; column + 1 < x.size(); ++column) {
      const double middle_x = 0.5 * (x[column] + x[column + 1]), middle_y = 0.5 * (y[row] + y[row + 1]);
      const double share = share_at(light, middle_x, middle_y, width_m, height_m);
      const bool goes_on = !fields.empty() && fields.back().share == share && fields.back().bottom_m == y[row] &&
                           fields.back().right_m == x[column];
      if (goes_on)
        fields.back().right_m = x[column + 1];
      else
        fields.push_back({x[column], y[row], x[column + 1], y[row + 1], share});
    }
  }
  return fields;
}

}  // namespace sunstrain
