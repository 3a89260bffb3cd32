// The stress along the cut edge in the worst hour, side by side, with the line that the edge bears; and in figures.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr double width = 330.0, left = 34.0, right = 324.0, top = 16.0, bottom = 118.0, gap = 8.0, least_side = 52.0;
constexpr std::size_t samples = 5;

ValueAxis axis_of(const Parts& p) {
  double low = 0.0, high = shown_stress(std::max(p.worst().allowable_pa, p.worst().peak_stress_pa), p.units());
  for (const auto& side : p.hour().stress_pa)
    for (const double pa : side) {
      low = std::min(low, shown_stress(pa, p.units()));
      high = std::max(high, shown_stress(pa, p.units()));
    }
  const double step = round_step(low, high, 6);
  return {std::floor(low / step) * step, high + 0.35 * step, step, top, bottom};
}

// From where to where the sides stand, by their lengths, none too narrow for its name.
std::array<std::pair<double, double>, 4> places(const WorstHour& hour) {
  const double room = right - left - 3 * gap, whole = 2 * (hour.glass_width_m() + hour.glass_height_m());
  std::array<double, 4> sizes{};
  double sum = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    sizes[i] = std::max(least_side, room * (i % 2 == 0 ? hour.glass_width_m() : hour.glass_height_m()) / whole);
    sum += sizes[i];
  }
  std::array<std::pair<double, double>, 4> at{};
  double x = left;
  for (std::size_t i = 0; i < 4; ++i) {
    at[i] = {x, x + sizes[i] * room / sum};
    x = at[i].second + gap;
  }
  return at;
}

double length_of(const WorstHour& hour, Side side) {
  return side == Side::bottom || side == Side::top ? hour.glass_width_m() : hour.glass_height_m();
}

std::string number_words(double value, Units units) {
  return fmt::format("{:.{}f}", value, units == Units::inch ? 0 : 1);
}

void draw_side(Drawing& drawing, const Parts& p, Side side, std::pair<double, double> place, const ValueAxis& axis) {
  const auto index = static_cast<std::size_t>(side);
  const auto& position = p.hour().position_m[index];
  const auto& stress = p.hour().stress_pa[index];
  const double length = length_of(p.hour(), side);
  const auto x = [&](double m) { return place.first + m / length * (place.second - place.first); };
  std::vector<Point> curve;
  for (std::size_t i = 0; i < position.size(); ++i)
    curve.push_back({x(position[i]), axis.y(shown_stress(stress[i], p.units()))});
  drawing.box({place.first, top, place.second - place.first, bottom - top}, line_pen(0.5, {}, "#888"));
  drawing.line({place.first, axis.y(0.0)}, {place.second, axis.y(0.0)}, line_pen(0.8));
  const double line = axis.y(shown_stress(p.worst().allowable_pa, p.units()));
  drawing.line({place.first, line}, {place.second, line}, line_pen(1.2, "5 3"));
  drawing.lines(curve, line_pen(1.8));
  const double middle = 0.5 * (place.first + place.second);
  drawing.words({middle, bottom + 22.0}, told(p.language(), report::side_word(side)), "middle", 9.5, "#111", true);
  drawing.words({place.first, bottom + 11.0}, "0 %", "start", 7.5);
  drawing.words({place.second, bottom + 11.0}, "100 %", "end", 7.5);
  if (side != p.worst().side) return;
  const double peak = shown_stress(p.worst().peak_stress_pa, p.units());
  const Point at{x(p.worst().position_m), axis.y(peak)};
  drawing.ring(at, 3.2, {"#111", "#fff", 1.6, {}});
}

double stress_at(const std::vector<double>& position, const std::vector<double>& stress, double m) {
  const auto next = std::lower_bound(position.begin(), position.end(), m);
  if (next == position.begin()) return stress.front();
  if (next == position.end()) return stress.back();
  const auto i = static_cast<std::size_t>(next - position.begin());
  const double t = (m - position[i - 1]) / (position[i] - position[i - 1]);
  return stress[i - 1] + t * (stress[i] - stress[i - 1]);
}

}  // namespace

Html edge_figure(const Parts& p) {
  const Language& l = p.language();
  const ValueAxis axis = axis_of(p);
  Drawing drawing(width, bottom + 27.0);
  draw_values(drawing, axis, left, right, stress_unit(p.units()));
  const auto at = places(p.hour());
  for (const Side side : all_sides) draw_side(drawing, p, side, at[static_cast<std::size_t>(side)], axis);
  drawing.ring({left + 4.0, 6.0}, 3.2, {"#111", "#fff", 1.6, {}});
  drawing.words({left + 10.0, 9.0}, report::stress_text(p.worst().peak_stress_pa, p.units()), "start", 9.0);
  drawing.words({right, 9.0},
                tell(l, "dashed: what the edge bears, {}", report::stress_text(p.worst().allowable_pa, p.units())),
                "end", 9.0);
  return drawing.figure(
      tell(l, "Stress along the edge in the worst hour"),
      text(tell(
          l,
          "Stress along the cut edge, from the left or lower end, with film, bad end, {}; over zero it is stretched.",
          report::moment_text(l, p.worst().when))),
      "chart");
}

Html edge_table(const Parts& p) {
  const Language& l = p.language();
  Table t;
  t.caption = tell(l, "Stress along the edge, {}: from the left or lower end", stress_unit(p.units()));
  t.kind = "numbers";
  t.heads.emplace_back();
  for (std::size_t i = 0; i < samples; ++i)
    t.heads.push_back(report::percent_text(static_cast<double>(i) / (samples - 1)));
  for (const Side side : all_sides) {
    const auto index = static_cast<std::size_t>(side);
    std::vector<Html> cells{text(told(l, report::side_word(side)))};
    for (std::size_t i = 0; i < samples; ++i) {
      const double m = length_of(p.hour(), side) * static_cast<double>(i) / (samples - 1);
      const double pa = stress_at(p.hour().position_m[index], p.hour().stress_pa[index], m);
      cells.push_back(text(number_words(shown_stress(pa, p.units()), p.units())));
    }
    t.rows.push_back(std::move(cells));
  }
  return table(t);
}

}  // namespace sunstrain::paper
