// The pane to scale, seen from outdoors: frame, glass, shadow, and where the edge is stretched most.
#include <algorithm>
#include <cmath>

#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr double width = 246.0, glass_width = 154.0, glass_height = 132.0, top = 26.0, left = 16.0, frame = 8.0;
constexpr double least_bite = 4.0;   // a bite of some millimeters would be no line at all
constexpr double lit_from = 0.5;     // of the beam: less than that is drawn as shadow
constexpr double half_shade = 0.95;  // less than that as half a shadow

// The glass in the picture: how many units a meter, and its box; bite as drawn.
struct Place {
  double scale, bite;
  Box glass;
  Box seen() const { return {glass.x + bite, glass.y + bite, glass.width - 2 * bite, glass.height - 2 * bite}; }
};

Place place_of(const WorstHour& hour) {
  const double scale = std::min(glass_width / hour.glass_width_m(), glass_height / hour.glass_height_m());
  const double w = hour.glass_width_m() * scale, h = hour.glass_height_m() * scale;
  return {scale,
          std::max(hour.pane.edge.bite_m * scale, least_bite),
          {left + frame + 0.5 * (glass_width - w), top + frame, w, h}};
}

Box clipped(const Box& box, const Box& to) {
  const double x = std::max(box.x, to.x), y = std::max(box.y, to.y);
  return {x, y, std::min(box.right(), to.right()) - x, std::min(box.bottom(), to.bottom()) - y};
}

// Whether the sun is kept off anything.
bool draw_shadow(Drawing& drawing, const WorstHour& hour, const Place& place) {
  bool any = false;
  for (const LightField& f : light_fields(hour.light, hour.glass_width_m(), hour.glass_height_m())) {
    if (f.share >= half_shade) continue;
    const Box field{place.glass.x + f.left_m * place.scale, place.glass.bottom() - f.top_m * place.scale,
                    (f.right_m - f.left_m) * place.scale, (f.top_m - f.bottom_m) * place.scale};
    const Box box = clipped(field, place.seen());
    if (box.width <= 0.0 || box.height <= 0.0) continue;
    any = true;
    const bool deep = f.share < lit_from;
    drawing.box(box, fill_pen(deep ? "#d3d8dc" : "#e6eaec"));
    drawing.hatch(box, deep ? 5.0 : 9.0, line_pen(0.8, {}, "#444"));
  }
  return any;
}

Point stretched_at(const LiteFigures& worst, const Place& place) {
  const double along = worst.position_m * place.scale;
  const Box& glass = place.glass;
  switch (worst.side) {
    case Side::bottom:
      return {glass.x + along, glass.bottom()};
    case Side::top:
      return {glass.x + along, glass.y};
    case Side::left:
      return {glass.x, glass.bottom() - along};
    case Side::right:
      return {glass.right(), glass.bottom() - along};
  }
  return {};
}

std::string stretched_words(const LiteFigures& worst, Units units, const Language& language) {
  const std::string side = told(language, report::side_word(worst.side)), at = format_length(worst.position_m, units);
  return worst.side == Side::bottom || worst.side == Side::top
             ? tell(language, "Stretched most: {} edge, {} from the left corner.", side, at)
             : tell(language, "Stretched most: {} edge, {} from the lower corner.", side, at);
}

std::string caption_of(const Parts& p, bool shadow, bool with_stress) {
  const Language& l = p.language();
  const std::string when = report::moment_text(l, p.worst().when);
  std::string words = tell(l, "The pane from outdoors, to scale; dashed, the cut edge behind the frame.") + " ";
  if (!p.hour().sun_lies)
    words += tell(l, "In its worst hour ({}) no sun lies on it.", when);
  else if (shadow)
    words += tell(l, "Hatched: shadow as it lies in the worst hour ({}).", when);
  else
    words += tell(l, "In its worst hour ({}) all of it is in the sun.", when);
  return with_stress ? words + " " + stretched_words(p.worst(), p.units(), l) : words;
}

}  // namespace

Html pane_figure(const Parts& p, bool with_stress) {
  const WorstHour& hour = p.hour();
  const Place place = place_of(hour);
  const Box &glass = place.glass, seen = place.seen();
  Drawing drawing(width, glass.bottom() + frame + 6.0);
  drawing.box({glass.x - frame, glass.y - frame, glass.width + 2 * frame, glass.height + 2 * frame},
              fill_pen("#cfcabf", "#111", 0.8));
  drawing.box(seen, fill_pen("#f2f8fa"));
  const bool shadow = hour.sun_lies && draw_shadow(drawing, hour, place);
  drawing.box(seen, line_pen(1.0));
  drawing.box(glass, line_pen(0.7, "3 2"));
  drawing.words({seen.x + 0.5 * seen.width, glass.y - frame - 5.0}, format_length(hour.pane.width_m, p.units()),
                "middle");
  drawing.words({glass.right() + frame + 4.0, glass.y + 0.5 * glass.height + 3.0},
                format_length(hour.pane.height_m, p.units()));
  if (with_stress) {
    const Side side = p.worst().side;
    stretch_mark(drawing, stretched_at(p.worst(), place), side == Side::left || side == Side::right, 0.8);
  }
  const std::string caption = caption_of(p, shadow, with_stress);
  return drawing.figure(tell(p.language(), "The pane, drawn to scale"), text(caption), "pane");
}

}  // namespace sunstrain::paper
