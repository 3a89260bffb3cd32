// The section tool against the reference sections that the standards print.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "support/section.hpp"

using namespace sunstrain::test;

namespace {

constexpr double mm = 1e-3;
Box box_mm(double x0, double x1, double y0, double y1) { return {x0 * mm, x1 * mm, y0 * mm, y1 * mm}; }

}  // namespace

TEST_CASE("Section: half of a square column, ISO 10211 case 1") {
  // ISO 10211 annex, reference case 1: the 28 printed temperatures of half a square column, 20 C on its top, 0 C on the
  // other sides. From memory.
  constexpr double printed[7][4]{{9.7, 13.4, 14.7, 15.1}, {5.3, 8.6, 10.3, 10.8}, {3.2, 5.6, 7.0, 7.5},
                                 {2.0, 3.6, 4.7, 5.0},    {1.3, 2.3, 3.0, 3.2},   {0.7, 1.4, 1.8, 1.9},
                                 {0.3, 0.6, 0.8, 0.9}};
  Section s;
  s.parts = {{{0.0, 0.4, 0.0, 0.8}, 1.0}};
  s.airs = {{{-0.01, 0.0, 0.0, 0.8}, 0.0, 0.0}, {{0.0, 0.4, -0.01, 0.0}, 20.0, 0.0}, {{0.0, 0.4, 0.8, 0.81}, 0.0, 0.0}};
  s.finest_m = 0.002;
  s.fine_x_m = {0.1, 0.2, 0.3};
  s.fine_y_m = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7};
  const SectionField field = solve_section(s);
  for (int row = 0; row < 7; ++row)
    for (int column = 0; column < 4; ++column) {
      CAPTURE(row, column);
      CHECK(field.at(0.1 * (column + 1), 0.1 * (row + 1)) == Approx(printed[row][column]).margin(0.1));
    }
}

TEST_CASE("Section: concrete, wood, insulation and aluminum, ISO 10211 case 2") {
  // ISO 10211 annex, reference case 2: nine temperatures and a heat flow of 9.5 W/m, to be met to 0.1 K and 0.1 W/m.
  Section s;
  s.parts = {{box_mm(0, 500, 6, 46), 0.029},   {box_mm(0, 500, 0, 6), 1.15},      {box_mm(0, 15, 6, 11), 0.12},
             {box_mm(0, 15, 11, 12.5), 230.0}, {box_mm(0, 1.5, 11, 47.5), 230.0}, {box_mm(0, 500, 46, 47.5), 230.0}};
  s.airs = {{box_mm(0, 500, -5, 0), 0.0, 0.06}, {box_mm(0, 500, 47.5, 52.5), 20.0, 0.11}};
  s.finest_m = 0.0001;
  const SectionField field = solve_section(s);
  CHECK(field.from_air_w_m[1] == Approx(9.5).margin(0.1));
  CHECK(-field.from_air_w_m[0] == Approx(field.from_air_w_m[1]).epsilon(1e-6));
  struct Point {
    const char* name;
    double x_mm, y_mm, printed_c;
  };
  for (const Point& point : {Point{"A", 0, 0, 7.1}, Point{"B", 500, 0, 0.8}, Point{"C", 0, 6, 7.9},
                             Point{"D", 15, 6, 6.3}, Point{"E", 500, 6, 0.8}, Point{"F", 0, 11, 16.4},
                             Point{"G", 15, 11, 16.3}, Point{"H", 0, 47.5, 16.8}, Point{"I", 500, 47.5, 18.3}}) {
    CAPTURE(point.name);
    CHECK(field.at(point.x_mm * mm, point.y_mm * mm) == Approx(point.printed_c).margin(0.1));
  }
}

TEST_CASE("Section: a plate that is cooled on two sides, NAFEMS test T4") {
  // NAFEMS, The Standard NAFEMS Benchmarks, T4: 0.6 x 1.0 m, 52 W/mK, 100 C below, insulated on the left, 750 W/m2K to
  // 0 C above and on the right: 18.3 C at the right side, 0.2 m up.
  Section s;
  s.parts = {{{0.0, 0.6, 0.0, 1.0}, 52.0}};
  s.airs = {{{0.0, 0.6, -0.01, 0.0}, 100.0, 0.0},
            {{0.6, 0.61, 0.0, 1.0}, 0.0, 1.0 / 750.0},
            {{0.0, 0.6, 1.0, 1.01}, 0.0, 1.0 / 750.0}};
  s.fine_y_m = {0.2};
  CHECK(solve_section(s).at(0.6, 0.2) == Approx(18.3).margin(0.1));
}

TEST_CASE("Section: the daily swing of a surface, inside thick brickwork") {
  // H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2.6 (recalled, not read from the book): under a surface
  // that swings as cos(w t), x deep in a half space of diffusivity k, exp(-x sqrt(w/2k)) of it, as much behind in
  // phase.
  constexpr double w_mk = 0.77, heat_j_m3k = 1.36e6, day_s = 86400.0;
  Section s;
  s.parts = {{{0.0, 2.0, 0.0, 0.1}, w_mk, heat_j_m3k}};
  s.airs = {{{-0.01, 0.0, 0.0, 0.1}, 1.0, 0.0}};
  s.finest_m = 0.001;
  s.growth = 1.1;
  s.fine_x_m = {0.05, 0.1, 0.2};
  const SectionSwing day = solve_swing(s, day_s);
  for (const double x_m : s.fine_x_m) {
    CAPTURE(x_m);
    const double in_step = day.in_step.at(x_m, 0.05), behind = day.behind.at(x_m, 0.05);
    const double depth = x_m * std::sqrt(std::numbers::pi / day_s * heat_j_m3k / w_mk);
    CHECK(std::hypot(in_step, behind) == Approx(std::exp(-depth)).epsilon(0.01));
    CHECK(std::atan2(behind, in_step) == Approx(depth).epsilon(0.01));
  }
}

namespace {

// ISO 10077-2, wood frame section with an insulation panel: x depth from outdoors, y along the frame, mm.
constexpr double wood_w_mk = 0.13, seal_w_mk = 0.25, panel_w_mk = 0.035;
struct Cavity {
  Box box;
  double opened;  // a slightly ventilated one conducts twice as much
};
const Cavity cavities[]{{box_mm(15, 69, 42, 48), 1.0}, {box_mm(15, 49, 90, 95), 1.0}, {box_mm(0, 18, 63, 68), 2.0}};

Section wood_section(const std::vector<double>& cavity_w_mk) {
  Section s;
  s.finest_m = 0.0005;
  for (std::size_t k = 0; k < cavity_w_mk.size(); ++k) s.parts.push_back({cavities[k].box, cavity_w_mk[k]});
  for (const Box& wood : {box_mm(0, 15, 0, 63), box_mm(15, 66, 0, 42), box_mm(0, 15, 68, 110), box_mm(15, 18, 68, 90),
                          box_mm(18, 49, 48, 90), box_mm(49, 69, 48, 110), box_mm(69, 83, 26, 110)})
    s.parts.push_back({wood, wood_w_mk});
  for (const Box& seal :
       {box_mm(66, 69, 26, 42), box_mm(15, 18, 48, 63), box_mm(15, 18, 95, 110), box_mm(46, 49, 95, 110)})
    s.parts.push_back({seal, seal_w_mk});
  s.parts.push_back({box_mm(18, 46, 95, 300), panel_w_mk});
  // Outdoors and the room, with more resistance where two faces meet in a corner.
  s.airs = {{box_mm(-10, 0, 0, 110), 0.0, 0.04},   {box_mm(-10, 18, 110, 300), 0.0, 0.04},
            {box_mm(66, 95, 0, 9), 20.0, 0.13},    {box_mm(66, 95, 9, 26), 20.0, 0.20},
            {box_mm(83, 95, 26, 110), 20.0, 0.13}, {box_mm(46, 95, 140, 300), 20.0, 0.13},
            {box_mm(46, 95, 110, 140), 20.0, 0.20}};
  return s;
}

// The cavities' sides are taken where the section has them, until nothing changes.
SectionField settled_wood_section() {
  std::vector<double> cavity_w_mk(std::size(cavities), 0.1);
  SectionField field;
  for (int round = 0; round < 20; ++round) {
    field = solve_section(wood_section(cavity_w_mk));
    for (std::size_t k = 0; k < cavity_w_mk.size(); ++k) {
      const Box& box = cavities[k].box;
      const double y = 0.5 * (box.y0_m + box.y1_m), d = box.x1_m - box.x0_m;
      const double cold = field.at(box.x0_m, y), warm = field.at(box.x1_m, y);
      cavity_w_mk[k] =
          cavities[k].opened * cavity_conductivity_w_mk(d, box.y1_m - box.y0_m, warm - cold, 0.5 * (warm + cold), 0.9);
    }
  }
  return field;
}

}  // namespace

TEST_CASE("Section: a wood frame with an insulation panel, ISO 10077-2") {
  // ISO 10077-2, annex with reference sections, wood frame: two-dimensional conductance 0.346 W/mK, frame U 1.36 W/m2K,
  // to be met to 3 and 5 %; dimensions read from a model of a general finite-element program, the results from memory.
  const SectionField field = settled_wood_section();
  double heat_w_m = 0.0;
  for (std::size_t air = 2; air < field.from_air_w_m.size(); ++air) heat_w_m += field.from_air_w_m[air];
  const double l2d = heat_w_m / 20.0;
  const double panel_u = 1.0 / (0.04 + 0.028 / panel_w_mk + 0.13);
  CHECK(l2d == Approx(0.346).epsilon(0.03));
  CHECK((l2d - panel_u * 0.190) / 0.110 == Approx(1.36).epsilon(0.05));
}
