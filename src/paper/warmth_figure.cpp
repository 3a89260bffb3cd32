// How warm the lite that governs is from place to place in its worst hour: a map in bands of one color each, lines
// between them, some values on it, a scale; and those values in a table.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr double width = 330.0, map_width = 236.0, map_height = 150.0, left = 6.0, top = 8.0;
constexpr double scale_x = 258.0, scale_width = 14.0;
constexpr int bands_about = 9;
// Of the map's fields: the cut edge, the first one inside the sightline, and on to the middle and beyond.
constexpr std::array<std::size_t, 7> sampled{0, 1, 19, 37, 55, 73, 74};
static_assert(sampled[5] == map_fields && sampled[6] == map_fields + 1 && sampled[3] == (map_fields + 1) / 2);

// The temperatures in the reader's unit, and the limits of the bands.
struct Warmth {
  const PaneMap& map;
  Units units;
  double low, high, step;
  std::vector<double> limits;  // between bands

  Warmth(const PaneMap& of, Units in) : map(of), units(in) {
    const auto [least, most] = std::minmax_element(map.kelvin.begin(), map.kelvin.end());
    low = shown_warmth(*least, units);
    high = shown_warmth(*most, units);
    step = round_step(low, high, bands_about);
    limits = round_values(low, high, step);
  }
  double at(std::size_t row, std::size_t column) const { return shown_warmth(map.at(row, column), units); }
  std::size_t band(double value) const {
    return static_cast<std::size_t>(std::upper_bound(limits.begin(), limits.end(), value) - limits.begin());
  }
  // Of a band, on the scale from cool to warm.
  double share(std::size_t band) const {
    return limits.empty() ? 0.5 : static_cast<double>(band) / static_cast<double>(limits.size());
  }
};

std::string color_at(const std::vector<ScaleColor>& scale, double share) {
  const auto next =
      std::find_if(scale.begin() + 1, scale.end() - 1, [&](const ScaleColor& c) { return c.share >= share; });
  const ScaleColor &a = *(next - 1), &b = *next;
  const double t = std::clamp((share - a.share) / (b.share - a.share), 0.0, 1.0);
  const auto part = [&](double from, double to) {
    return static_cast<int>(std::lround(255.0 * (from + t * (to - from))));
  };
  return fmt::format("#{:02x}{:02x}{:02x}", part(a.red, b.red), part(a.green, b.green), part(a.blue, b.blue));
}

// Where the fields of the map begin and end in the picture: the edge behind the frame, what one sees, the edge.
struct Grid {
  std::vector<double> x, y;
};
Grid grid_of(const WorstHour& hour) {
  const double scale = std::min(map_width / hour.glass_width_m(), map_height / hour.glass_height_m());
  const double w = hour.glass_width_m() * scale, h = hour.glass_height_m() * scale;
  const double bite = std::max(hour.pane.edge.bite_m * scale, 3.0);
  const double x0 = left + 0.5 * (map_width - w);
  Grid grid;
  const auto place = [bite](double from, double all, std::size_t fields, std::vector<double>& into) {
    into.push_back(from);
    for (std::size_t i = 0; i + 1 < fields; ++i)
      into.push_back(from + bite + (all - 2 * bite) * static_cast<double>(i) / static_cast<double>(fields - 2));
    into.push_back(from + all);
  };
  place(x0, w, hour.map.columns, grid.x);
  place(top, h, hour.map.rows, grid.y);
  return grid;
}

Point middle(const Grid& grid, std::size_t row, std::size_t column) {
  return {0.5 * (grid.x[column] + grid.x[column + 1]), 0.5 * (grid.y[row] + grid.y[row + 1])};
}

void draw_bands(Drawing& drawing, const Warmth& warmth, const Grid& grid, const std::vector<ScaleColor>& scale) {
  std::vector<std::string> paths(warmth.limits.size() + 1);
  for (std::size_t row = 0; row < warmth.map.rows; ++row) {
    for (std::size_t from = 0; from < warmth.map.columns;) {
      const std::size_t band = warmth.band(warmth.at(row, from));
      std::size_t to = from + 1;
      while (to < warmth.map.columns && warmth.band(warmth.at(row, to)) == band) ++to;
      // A hair's breadth more than the field, or the seams between rows would show.
      paths[band] += fmt::format("M{} {}H{}V{}H{}z", number(grid.x[from]), number(grid.y[row]),
                                 number(grid.x[to] + 0.3), number(grid.y[row + 1] + 0.3), number(grid.x[from]));
      from = to;
    }
  }
  for (std::size_t band = 0; band < paths.size(); ++band)
    if (!paths[band].empty()) drawing.path(paths[band], fill_pen(color_at(scale, warmth.share(band))));
}

// Where a value lies between two middles of fields.
struct Corner {
  Point at;
  double value;
};
void add_crossing(const Corner& a, const Corner& b, double limit, std::vector<Point>& crossings) {
  if ((a.value < limit) == (b.value < limit)) return;
  const double t = (limit - a.value) / (b.value - a.value);
  crossings.push_back({a.at.x + t * (b.at.x - a.at.x), a.at.y + t * (b.at.y - a.at.y)});
}

// Straight pieces between the middles of four fields ("marching squares").
void draw_lines(Drawing& drawing, const Warmth& warmth, const Grid& grid) {
  std::string data;
  const auto corner = [&](std::size_t row, std::size_t column) -> Corner {
    return {middle(grid, row, column), warmth.at(row, column)};
  };
  for (std::size_t row = 0; row + 1 < warmth.map.rows; ++row) {
    for (std::size_t column = 0; column + 1 < warmth.map.columns; ++column) {
      const std::array<Corner, 4> around{corner(row, column), corner(row, column + 1), corner(row + 1, column + 1),
                                         corner(row + 1, column)};
      for (const double limit : warmth.limits) {
        std::vector<Point> crossings;
        for (std::size_t i = 0; i < 4; ++i) add_crossing(around[i], around[(i + 1) % 4], limit, crossings);
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
          data += fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}", crossings[i].x, crossings[i].y, crossings[i + 1].x,
                              crossings[i + 1].y);
      }
    }
  }
  if (!data.empty()) drawing.path(data, line_pen(0.5, {}, "#000"));
}

std::string degrees(double value) { return fmt::format("{:.0f}", value); }

void draw_values(Drawing& drawing, const Warmth& warmth, const Grid& grid) {
  for (const std::size_t row : {sampled[1], sampled[2], sampled[3], sampled[4], sampled[5]}) {
    for (const std::size_t column : {sampled[1], sampled[3], sampled[5]}) {
      Point at = middle(grid, row, column);
      at.y += row == sampled[1] ? 9.0 : row == sampled[5] ? -3.0 : 3.0;
      const char* anchor = column == sampled[1] ? "start" : column == sampled[5] ? "end" : "middle";
      at.x += column == sampled[1] ? 3.0 : column == sampled[5] ? -3.0 : 0.0;
      drawing.words_over(at, degrees(warmth.at(row, column)), anchor, 8.5);
    }
  }
}

void draw_scale(Drawing& drawing, const Warmth& warmth, const std::vector<ScaleColor>& scale) {
  const double bottom = top + map_height - 4.0, high = top + 14.0,
               part = (bottom - high) / static_cast<double>(warmth.limits.size() + 1);
  drawing.words({scale_x - 2.0, top + 6.0}, warmth_unit(warmth.units), "start", 10.0, "#111", true);
  for (std::size_t band = 0; band <= warmth.limits.size(); ++band)
    drawing.box({scale_x, bottom - part * static_cast<double>(band + 1), scale_width, part},
                fill_pen(color_at(scale, warmth.share(band)), "#000", 0.5));
  const int digits = warmth.step < 1.0 ? 1 : 0;
  for (std::size_t i = 0; i < warmth.limits.size(); ++i) {
    const double y = bottom - part * static_cast<double>(i + 1);
    drawing.line({scale_x + scale_width, y}, {scale_x + scale_width + 4.0, y}, line_pen(0.7));
    drawing.words({scale_x + scale_width + 6.0, y + 3.2}, fmt::format("{:.{}f}", warmth.limits[i], digits), "start",
                  9.0);
  }
}

}  // namespace

Html warmth_figure(const Parts& p) {
  const Language& l = p.language();
  const Warmth warmth(p.hour().map, p.units());
  const Grid grid = grid_of(p.hour());
  Drawing drawing(width, std::max(grid.y.back() + 8.0, top + map_height + 2.0));
  draw_bands(drawing, warmth, grid, p.reference.warmth_scale);
  draw_lines(drawing, warmth, grid);
  drawing.box({grid.x[0], grid.y[0], grid.x.back() - grid.x[0], grid.y.back() - grid.y[0]}, line_pen(0.9));
  drawing.box({grid.x[1], grid.y[1], grid.x[grid.x.size() - 2] - grid.x[1], grid.y[grid.y.size() - 2] - grid.y[1]},
              line_pen(0.7, "3 2"));
  draw_values(drawing, warmth, grid);
  draw_scale(drawing, warmth, p.reference.warmth_scale);
  return drawing.figure(
      tell(l, "How warm the glass is in the worst hour"),
      text(tell(l,
                "Warmth of the lite that governs ({}), from outdoors; dashed, the sightline. Lines at the "
                "values of the scale.",
                report::sheet_name(l, p.answer(), p.answer().governing_lite))),
      "chart");
}

Html warmth_table(const Parts& p) {
  const Language& l = p.language();
  const PaneMap& map = p.hour().map;
  Table t;
  t.caption =
      tell(l, "Warmth, {}: from left to right and from the top down, outermost the cut edge", warmth_unit(p.units()));
  t.kind = "numbers";
  // Shares of what one sees, at the middles of the told fields.
  const auto place = [&](std::size_t field) -> std::string {
    if (field == 0 || field == map_fields + 1) return tell(l, "edge");
    return report::percent_text((static_cast<double>(field) - 0.5) / static_cast<double>(map_fields));
  };
  t.heads.emplace_back();
  for (const std::size_t column : sampled) t.heads.push_back(place(column));
  for (const std::size_t row : sampled) {
    std::vector<Html> cells{text(place(row))};
    for (const std::size_t column : sampled)
      cells.push_back(text(fmt::format("{:.1f}", shown_warmth(map.at(row, column), p.units()))));
    t.rows.push_back(std::move(cells));
  }
  return table(t);
}

}  // namespace sunstrain::paper
