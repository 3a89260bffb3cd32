// The day that holds the worst hour: middle, edge, frame and air hour by hour, and the sun on the pane; and in figures.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr double width = 330.0, left = 30.0, right = 258.0, top = 14.0, bottom = 102.0, sun_top = 112.0,
                 sun_bottom = 144.0;
constexpr int hours_apart = 3;

struct Curve {
  std::string name;
  const std::vector<double>& kelvin;
  double thick;
  std::string dashes;
};

std::vector<Curve> curves_of(const Parts& p) {
  const Language& l = p.language();
  const DayCurves& day = p.hour().day;
  return {{tell(l, "middle"), day.middle_k, 2.0, {}},
          {tell(l, "edge"), day.edge_k, 1.6, "6 2"},
          {tell(l, "frame"), day.frame_k, 1.2, "2 2"},
          {tell(l, "air outdoors"), day.outdoor_k, 0.9, {}}};
}

double x_of(double hour) { return left + hour / 24.0 * (right - left); }

ValueAxis axis_of(const std::vector<Curve>& curves, Units units) {
  double low = 1e9, high = -1e9;
  for (const Curve& curve : curves)
    for (const double k : curve.kelvin) {
      low = std::min(low, shown_warmth(k, units));
      high = std::max(high, shown_warmth(k, units));
    }
  const double step = round_step(low, high, 6);
  return {std::floor(low / step) * step, std::ceil(high / step) * step, step, top, bottom};
}

void draw_axes(Drawing& drawing, const ValueAxis& axis, Units units, double most_sun) {
  draw_values(drawing, axis, left, right, warmth_unit(units));
  for (int hour = 0; hour <= 24; hour += hours_apart) {
    drawing.line({x_of(hour), top}, {x_of(hour), sun_bottom}, line_pen(0.4, {}, "#ddd"));
    drawing.words({x_of(hour), sun_bottom + 10.0}, fmt::format("{}", hour), "middle", 8.5);
  }
  drawing.line({left, sun_bottom}, {right, sun_bottom}, line_pen(0.8));
  drawing.words({left - 4.0, sun_top + 7.0}, fmt::format("{:.0f}", most_sun), "end", 8.5);
}

void draw_curves(Drawing& drawing, const Parts& p, const std::vector<Curve>& curves, const ValueAxis& axis) {
  const std::vector<double>& hour = p.hour().day.local_hour;
  std::vector<double> ends;
  for (const Curve& curve : curves) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < hour.size(); ++i)
      points.push_back({x_of(hour[i]), axis.y(shown_warmth(curve.kelvin[i], p.units()))});
    drawing.lines(points, line_pen(curve.thick, curve.dashes));
    ends.push_back(points.back().y);
  }
  const std::vector<double> at = spread(ends, 11.0, top + 4.0, bottom + 4.0);
  for (std::size_t i = 0; i < curves.size(); ++i) {
    drawing.line({right, ends[i]}, {right + 8.0, at[i]}, line_pen(0.5, {}, "#666"));
    drawing.words({right + 10.0, at[i] + 3.0}, curves[i].name, "start", 9.0);
  }
}

void draw_sun(Drawing& drawing, const Parts& p, double most) {
  const DayCurves& day = p.hour().day;
  std::vector<Point> points{{x_of(0.0), sun_bottom}};
  for (std::size_t i = 0; i < day.local_hour.size(); ++i)
    points.push_back({x_of(day.local_hour[i]), sun_bottom - day.sun_w_m2[i] / most * (sun_bottom - sun_top)});
  points.push_back({x_of(24.0), sun_bottom});
  drawing.lines(points, fill_pen("#d9d9d9", "#111", 0.9), true);
  drawing.words({right + 10.0, sun_bottom - 14.0}, tell(p.language(), "sun on it"), "start", 9.0);
  drawing.words({right + 10.0, sun_bottom - 3.0}, "W/m\u00B2", "start", 9.0);
}

std::size_t nearest_step(const std::vector<double>& hours, double hour) {
  const auto near = std::min_element(hours.begin(), hours.end(),
                                     [&](double a, double b) { return std::abs(a - hour) < std::abs(b - hour); });
  return static_cast<std::size_t>(near - hours.begin());
}

std::string day_words(const Language& language, const Moment& when) {
  const std::string month = report::month_word(language, when.month);
  return when.day == DayKind::cold_clear ? tell(language, "a cold clear day in {}", month)
                                         : tell(language, "a hot clear day in {}", month);
}

}  // namespace

Html day_figure(const Parts& p) {
  const Language& l = p.language();
  const std::vector<Curve> curves = curves_of(p);
  const ValueAxis axis = axis_of(curves, p.units());
  const std::vector<double>& sun = p.hour().day.sun_w_m2;
  const double most = std::max(100.0, 100.0 * std::ceil(*std::max_element(sun.begin(), sun.end()) / 100.0));
  Drawing drawing(width, sun_bottom + 14.0);
  draw_axes(drawing, axis, p.units(), most);
  draw_sun(drawing, p, most);
  const double worst = x_of(p.worst().when.local_hour);
  drawing.line({worst, top - 3.0}, {worst, sun_bottom}, line_pen(1.0, "1 2"));
  draw_curves(drawing, p, curves, axis);
  drawing.words({worst, 9.0}, format_hour(p.worst().when.local_hour), "middle", 9.0, "#111", true);
  return drawing.figure(
      tell(l, "The day of the worst hour"),
      text(tell(l,
                "The lite that governs through {}, with film, bad end; dotted, the worst hour. Room {}. "
                "Hours of local standard time.",
                day_words(l, p.worst().when), warmth_words(p.hour().day.room_k, 0, p.units()))),
      "chart");
}

Html day_table(const Parts& p) {
  const Language& l = p.language();
  const DayCurves& day = p.hour().day;
  Table t;
  t.caption = tell(l, "The day, {}; sun in W/m2", warmth_unit(p.units()));
  t.kind = "numbers";
  std::vector<double> hours;
  for (int hour = hours_apart; hour <= 21; hour += hours_apart) hours.push_back(hour);
  const double worst = p.worst().when.local_hour;
  hours.insert(std::upper_bound(hours.begin(), hours.end(), worst), worst);
  t.heads.push_back(tell(l, "hour"));
  for (const double hour : hours) t.heads.push_back(format_hour(hour));
  for (const Curve& curve : curves_of(p)) {
    std::vector<Html> cells{text(curve.name)};
    for (const double hour : hours)
      cells.push_back(
          text(fmt::format("{:.1f}", shown_warmth(curve.kelvin[nearest_step(day.local_hour, hour)], p.units()))));
    t.rows.push_back(std::move(cells));
  }
  std::vector<Html> sun{text(tell(l, "sun on it"))};
  for (const double hour : hours)
    sun.push_back(text(fmt::format("{:.0f}", day.sun_w_m2[nearest_step(day.local_hour, hour)])));
  t.rows.push_back(std::move(sun));
  return table(t);
}

}  // namespace sunstrain::paper
