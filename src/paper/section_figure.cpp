// What the pane is made of, cut through above its sill: lites to scale in their thickness, the film, the frame's bite.
#include <fmt/format.h>

#include <algorithm>

#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr double width = 190.0, height = 150.0, px_per_mm = 3.0, widest_gap_mm = 20.0, wall = 9.0, sill = 12.0;
constexpr double least_px = 1.4;  // of an interlayer
constexpr double film_px = 2.6;

struct Sheets {
  std::vector<Box> lites;
  double outer, inner;  // faces
};

double gap_px(const ThermalCavity& cavity) {
  const double mm = 1e3 * cavity.width_m;
  return cavity.solid() ? std::max(mm * px_per_mm, least_px) : std::min(mm, widest_gap_mm) * px_per_mm;
}

Sheets sheets_of(const Case& pane, double scale) {
  const Glazing& glazing = pane.after.thermal;
  Sheets sheets;
  double all = 0.0;
  for (const ThermalLite& lite : glazing.lites) all += 1e3 * lite.thickness_m * px_per_mm;
  for (const ThermalCavity& cavity : glazing.cavities) all += gap_px(cavity);
  double x = 0.5 * (width - all * scale);
  sheets.outer = x;
  for (std::size_t i = 0; i < glazing.lites.size(); ++i) {
    const double w = 1e3 * glazing.lites[i].thickness_m * px_per_mm * scale;
    sheets.lites.push_back({x, 16.0, w, height - sill - 16.0 - 4.0});
    x += w + (i < glazing.cavities.size() ? gap_px(glazing.cavities[i]) * scale : 0.0);
  }
  sheets.inner = x;
  return sheets;
}

double fitting_scale(const Case& pane) {
  const Sheets full = sheets_of(pane, 1.0);
  return std::min(1.0, (width - 2 * wall - 70.0) / (full.inner - full.outer));
}

// Surfaces are counted over the pane's lites from outdoors; a panel has none. The first sheet of a lite has its outer
// face, the last its inner one.
struct Face {
  std::size_t sheet;
  bool inner;
};
Face face_of(const Case& pane, int surface) {
  const auto lite = static_cast<std::size_t>((surface - 1) / 2);
  Face face{0, surface % 2 == 0};
  for (std::size_t i = 0; i < pane.sheets.size(); ++i) {
    const Sheet& sheet = pane.sheets[i];
    if (sheet.panel || sheet.lite != lite) continue;
    if (sheet.ply == (face.inner ? sheet.plies - 1 : 0)) face.sheet = i;
  }
  return face;
}

// The number of the surface that a film or coating is on; 0: none.
int surface_of(const Job& job, const std::string& key) {
  const std::optional<std::string> word = word_of(job, key);
  return word ? std::stoi(*word) : 0;
}

void draw_frame(Drawing& drawing, const Case& pane, const Sheets& sheets, const Box& glass, double bite_px) {
  const double bottom = glass.bottom(), floor = height - 4.0;
  const bool lips = pane.edge.frame.outer_lip;
  const Pen pen = fill_pen("#cfcabf", "#111", 0.8);
  const double left = sheets.outer - wall, right = sheets.inner + wall;
  drawing.box({lips ? left : sheets.outer, bottom + 2.0, right - (lips ? left : sheets.outer), floor - bottom - 2.0},
              pen);
  if (lips) drawing.box({left, bottom - bite_px, wall - 2.0, floor - bottom + bite_px}, pen);
  drawing.box({sheets.inner + 2.0, bottom - bite_px, wall - 2.0, floor - bottom + bite_px}, pen);
}

void draw_glass(Drawing& drawing, const Case& pane, const Sheets& sheets, double bite_px) {
  const Glazing& glazing = pane.after.thermal;
  for (std::size_t i = 0; i < sheets.lites.size(); ++i) {
    const Box& lite = sheets.lites[i];
    drawing.box(lite, fill_pen("#dfeaee", "#111", 0.8));
    if (i + 1 == sheets.lites.size()) continue;
    const ThermalCavity& cavity = glazing.cavities[i];
    const Box gap{lite.right(), lite.y, sheets.lites[i + 1].x - lite.right(), lite.height};
    if (cavity.solid())
      drawing.box(gap, fill_pen("#555"));
    else if (!cavity.apart)
      drawing.box({gap.x, lite.bottom() - 0.75 * bite_px, gap.width, 0.6 * bite_px}, fill_pen("#999", "#111", 0.6));
  }
}

void draw_film(Drawing& drawing, const Box& lite, bool inner, double bite_px, const std::string& dashes) {
  const double x = inner ? lite.right() + 0.5 * film_px : lite.x - 0.5 * film_px;
  drawing.line({x, lite.y}, {x, lite.bottom() - bite_px - 2.0}, line_pen(film_px, dashes, "#000"));
}

void draw_coating(Drawing& drawing, const Box& lite, bool inner) {
  const double x = inner ? lite.right() - 1.0 : lite.x + 1.0;
  drawing.line({x, lite.y}, {x, lite.bottom()}, line_pen(1.2, "2 2", "#b34700"));
}

// Numbers over the sheets, raised in turn where they stand close.
void number_sheets(Drawing& drawing, const Sheets& sheets) {
  double last = -1e9;
  bool raised = false;
  for (std::size_t i = 0; i < sheets.lites.size(); ++i) {
    const double x = sheets.lites[i].x + 0.5 * sheets.lites[i].width;
    raised = x - last < 9.0 && !raised;
    drawing.words({x, raised ? 5.5 : 13.0}, fmt::format("{}", i + 1), "middle", raised ? 7.5 : 9.0);
    last = x;
  }
}

std::string glass_words(const Parts& p, std::size_t index) {
  const Language& l = p.language();
  const Sheet& sheet = p.answer().sheets[index];
  const Job& job = p.answer().bad_end;
  const std::string table = sheet.panel ? "panel." : fmt::format("lite.{}.", sheet.lite + 1);
  std::string words = fmt::format("{}: {}", report::sheet_name(l, p.answer(), index),
                                  format_thickness(p.hour().pane.after.thermal.lites[index].thickness_m, p.units()));
  const auto add = [&](const char* key, const char* silent) {
    const std::optional<std::string> word = word_of(job, table + key);
    if (word && *word != silent) words += ", " + word_told(l, key_pattern(table + key), *word);
  };
  add("tint", "");
  if (sheet.plies == 1) add("kind", "float");
  add("treatment", "annealed");
  return words;
}

std::vector<Html> legend(const Parts& p) {
  const Language& l = p.language();
  const Case& pane = p.hour().pane;
  const Job& job = p.answer().bad_end;
  std::vector<Html> rows;
  for (std::size_t i = 0; i < pane.sheets.size(); ++i) {
    rows.push_back(element("b", fmt::format("{}", i + 1)) + text(" " + glass_words(p, i)));
    if (i == pane.after.thermal.cavities.size()) break;
    const ThermalCavity& gap = pane.after.thermal.cavities[i];
    const std::string size =
        gap.solid() ? format_thickness(gap.width_m, p.units()) : format_length(gap.width_m, p.units());
    rows.push_back(text(gap.solid() ? tell(l, "interlayer, {}", size)
                                    : tell(l, "{}, {}", told(l, gap.apart ? "air" : gap.gas.name), size)));
  }
  for (std::size_t lite = 1; lite <= lites_of(pane.sheets); ++lite) {
    const std::string table = fmt::format("lite.{}.", lite);
    const int surface = surface_of(job, table + "coating_surface");
    const std::optional<std::string> coating = word_of(job, table + "coating");
    if (coating && *coating != "none" && surface > 0)
      rows.push_back(text(tell(l, "broken line: {} on surface {}", word_told(l, "lite.*.coating", *coating), surface)));
  }
  rows.push_back(text(tell(l, "thick line: the film, on surface {}", surface_of(job, "film.surface"))));
  if (surface_of(job, "second_film.surface") > 0)
    rows.push_back(
        text(tell(l, "thick dashes: the second film, on surface {}", surface_of(job, "second_film.surface"))));
  return rows;
}

void draw_faces(Drawing& drawing, const Parts& p, const Sheets& sheets, double bite_px) {
  const Case& pane = p.hour().pane;
  const Job& job = p.answer().bad_end;
  const auto at = [&](int surface, auto draw) {
    if (surface <= 0) return;
    const Face face = face_of(pane, surface);
    draw(sheets.lites[face.sheet], face.inner);
  };
  for (std::size_t lite = 1; lite <= lites_of(pane.sheets); ++lite) {
    const std::string table = fmt::format("lite.{}.", lite);
    if (word_of(job, table + "coating").value_or("none") == "none") continue;
    at(surface_of(job, table + "coating_surface"),
       [&](const Box& box, bool inner) { draw_coating(drawing, box, inner); });
  }
  at(surface_of(job, "film.surface"), [&](const Box& box, bool inner) { draw_film(drawing, box, inner, bite_px, {}); });
  at(surface_of(job, "second_film.surface"),
     [&](const Box& box, bool inner) { draw_film(drawing, box, inner, bite_px, "6 3"); });
}

}  // namespace

Html section_figure(const Parts& p) {
  const Language& l = p.language();
  const Case& pane = p.hour().pane;
  const double scale = fitting_scale(pane);
  const Sheets sheets = sheets_of(pane, scale);
  const double bite_px = std::clamp(1e3 * pane.edge.bite_m * px_per_mm * scale, 8.0, 60.0);
  Drawing drawing(width, height);
  draw_frame(drawing, pane, sheets, sheets.lites.front(), bite_px);
  draw_glass(drawing, pane, sheets, bite_px);
  draw_faces(drawing, p, sheets, bite_px);
  number_sheets(drawing, sheets);
  drawing.words({2.0, 60.0}, tell(l, "outdoors"), "start", 9.0);
  drawing.words({width - 2.0, 60.0}, tell(l, "room"), "end", 9.0);
  const Html caption =
      text(tell(l, "Cut through above the sill, thicknesses to scale, what is not known as taken at the bad end:")) +
      Html{" "} + list(legend(p), "legend run-in");
  return drawing.figure(tell(l, "The pane in section"), caption, "cut");
}

}  // namespace sunstrain::paper
