// The full transient in the plane: against the strip where it should be the strip, against a solution made up for it,
// and for what must hold whatever the numbers.
#include <catch2/catch.hpp>
#include <numbers>

#include "../../src/engine/plane_check.hpp"
#include "sunstrain/report/reasons.hpp"
#include "support/bare_sheet.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;
using std::numbers::pi;

namespace {

constexpr double width_m = 1.2, height_m = 1.5;

// A clear day in steps of `steps` a day, each lite with its share of the sun.
std::vector<StepLoads> sunny_day(std::size_t lites, int steps) {
  std::vector<double> absorbed(lites, 0.3);
  absorbed.front() = 0.4;
  return heat_lines::clear_day({-5.0, 5.0, 21.0, 10.0, 700.0, 0.3}, absorbed, steps);
}

double worst_residual(const PlaneMarch& march) { return std::abs(march.residual_w()) / march.exchanged_w(); }

// (1 + cos(pi x/W) cos(2 pi y/H)) sin(w t), K above the air.
struct MadeUp {
  double w_per_s = 2.0 * pi / 3600.0, amplitude_k = 10.0;
  double shape(double x, double y) const { return std::cos(pi * x / width_m) * std::cos(2.0 * pi * y / height_m); }
  double at(double x, double y, double t) const { return amplitude_k * (1.0 + shape(x, y)) * std::sin(w_per_s * t); }
  // dT/dt + beta T - kappa lap T, K/s
  double source(double x, double y, double t, double kappa, double beta) const {
    const double waves = std::pow(pi / width_m, 2) + std::pow(2.0 * pi / height_m, 2);
    return amplitude_k * ((1.0 + shape(x, y)) * (w_per_s * std::cos(w_per_s * t) + beta * std::sin(w_per_s * t)) +
                          kappa * waves * shape(x, y) * std::sin(w_per_s * t));
  }
};

// The sheet of the made-up solution after a third of an hour in so many steps.
struct MadeUpSheet {
  BareSheet sheet;
  MadeUpSheet(const PlaneGrid& cells, int steps) : sheet(cells, 15.0, 500.0) {
    const MadeUp made;
    const double step_s = 1200.0 / steps;
    for (int step = 1; step <= steps; ++step) {
      std::vector<double> light;
      for (std::size_t j = 0; j < sheet.grid().rows(); ++j)
        for (std::size_t i = 0; i < sheet.grid().columns(); ++i)
          light.push_back(
              made.source(sheet.x_m(i), sheet.y_m(j), step * step_s, sheet.diffusivity_m2_s(), sheet.loss_per_s()) /
              sheet.sun_k_s());
      sheet.step(light, step_s);
    }
  }
  double error_k() const {
    return sheet.worst_k([](double x, double y) { return MadeUp().at(x, y, 1200.0); });
  }
  double worst_beside_k(const BareSheet& other) const {
    double worst = 0.0;
    for (std::size_t j = 0; j < other.grid().rows(); ++j)
      for (std::size_t i = 0; i < other.grid().columns(); ++i)
        worst = std::max(worst, std::abs(sheet.above_air_k(i, j) - other.above_air_k(i, j)));
    return worst;
  }
};

PlaneGrid even(int times) { return BareSheet::even(width_m, height_m, 12 * times, 15 * times); }

}  // namespace

TEST_CASE("Plane: away from corners it is the strip") {
  constexpr int steps = 720;
  for (const auto& [frame, lites] :
       {std::pair("aluminum", std::size_t{1}), std::pair("vinyl", std::size_t{2}),
        std::pair("structural-silicone", std::size_t{2}), std::pair("wood", std::size_t{3})}) {
    const Line line = heat_lines::line(frame, "metal", 0.012, lites);
    const std::vector<StepLoads> day = sunny_day(lites, steps);
    const LineDay strip = march_day(line, day, 86400.0 / steps);
    const PlaneGrid grid = plane_grid(line, width_m, height_m, {}, {});
    PlaneMarch march(line, grid);
    const std::vector<double> light(grid.cells(), 1.0);
    constexpr std::size_t from = steps * 9 / 24, to = steps * 12 / 24;
    march.start(strip, strip, from, light);
    for (std::size_t step = from + 1; step <= to; ++step) march.step(day[step], day[step], light, 86400.0 / steps);
    CAPTURE(frame, lites);
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const auto cells = march.lite_k(lite);
      for (std::size_t i = 0; i < strip.depth_m.size(); ++i) {
        CAPTURE(lite, i);
        const double off_k = i + 4 < strip.depth_m.size() ? 0.003 : 0.02;  // the strip ends there, the plane goes on
        CHECK(cells[grid.rows() / 2 * grid.columns() + i] == Approx(strip.strip(to, lite)[i]).margin(off_k));
        CHECK(cells[(grid.rows() - 1 - i) * grid.columns() + grid.columns() / 2] ==
              Approx(strip.strip(to, lite)[i]).margin(off_k));
      }
    }
  }
}

TEST_CASE("Plane: a made-up solution is met at second order in cells, in steps, and in both") {
  const auto order = [](double coarse, double fine) { return std::log2(coarse / fine); };
  const double in_cells[]{MadeUpSheet(even(1), 640).error_k(), MadeUpSheet(even(2), 640).error_k(),
                          MadeUpSheet(even(4), 640).error_k()};
  CAPTURE(in_cells[0], in_cells[1], in_cells[2]);
  CHECK(order(in_cells[0], in_cells[1]) == Approx(2.0).margin(0.2));
  CHECK(order(in_cells[1], in_cells[2]) == Approx(2.0).margin(0.2));
  const MadeUpSheet few(even(1), 40), more(even(1), 80), most(even(1), 160);
  const double in_steps[]{few.worst_beside_k(more.sheet), more.worst_beside_k(most.sheet)};
  CAPTURE(in_steps[0], in_steps[1]);
  CHECK(order(in_steps[0], in_steps[1]) == Approx(2.0).margin(0.2));
  const double in_both[]{MadeUpSheet(even(1), 10).error_k(), MadeUpSheet(even(2), 20).error_k(),
                         MadeUpSheet(even(4), 40).error_k()};
  CAPTURE(in_both[0], in_both[1], in_both[2]);
  CHECK(order(in_both[1], in_both[2]) == Approx(2.0).margin(0.3));
  // On cells that grow, as a pane has them, the largest error sits where their length jumps.
  CHECK(MadeUpSheet(BareSheet::graded(width_m, height_m, {}), 80).error_k() < 0.01);
}

namespace {

// A border that falls over the glass, the left rim always in the shade: the worst share of energy not accounted for.
double worst_under_sweep(const Line& line) {
  constexpr int steps = 720;
  const std::size_t lites = line.glazing.lites.size();
  std::vector<StepLoads> sun = sunny_day(lites, steps), shade = sun;
  for (std::size_t step = 0; step < sun.size(); ++step) {
    sun[step].rim_less_w_m2 = 0.2 * sun[step].absorbed[0].bulk_w_m2;
    shade[step].absorbed.assign(lites, FaceSources{10.0, 10.0, 10.0});
  }
  const LineDay in_sun = march_day(line, sun, 86400.0 / steps), in_shade = march_day(line, shade, 86400.0 / steps);
  const std::vector<double> borders{0.5 * height_m};
  const PlaneGrid grid = plane_grid(line, width_m, height_m, {}, borders);
  PlaneMarch march(line, grid);
  const auto light_at = [&](std::size_t step) {
    const double top_m = height_m * (1.0 - static_cast<double>(step - 300) / 60.0);
    return light_on_cells(grid, {false, {{{false, false, false, 0.1, width_m, 0.0, top_m}, 1.0}}});
  };
  march.start(in_sun, in_shade, 300, light_at(300));
  double worst = 0.0;
  for (std::size_t step = 301; step < 350; ++step) {
    march.step(sun[step], shade[step], light_at(step), 86400.0 / steps);
    worst = std::max(worst, worst_residual(march));
  }
  return worst;
}

}  // namespace

TEST_CASE("Plane: energy closes in every step under a shadow that sweeps the glass, in every frame") {
  for (const char* frame : {"wood", "aluminum-break", "structural-silicone", "curtain-wall", "masonry"}) {
    for (std::size_t lites : {1u, 2u, 3u}) {
      Line line = heat_lines::line(frame, "metal", 0.012, lites);
      line.glazing.rim_m = 0.02;
      line.shade.closure = lites == 1 ? 0.6 : 0.0;
      CAPTURE(frame, lites);
      CHECK(worst_under_sweep(line) < 1e-9);
    }
  }
}

TEST_CASE("Plane: energy closes in laminated glass and behind a panel that air streams past") {
  Line laminated = heat_lines::line("vinyl", "metal", 0.012, 3);
  ThermalCavity& interlayer = laminated.glazing.cavities[0];
  interlayer.width_m = 0.00076;
  interlayer.solid_w_mk = 0.2;
  interlayer.solid_j_m3k = 2e6;
  CHECK(worst_under_sweep(laminated) < 1e-9);
  Line panel = heat_lines::line("vinyl", "metal", 0.012, 2);
  panel.glazing.cavities[0].apart = panel.glazing.cavities[0].to_room = true;
  panel.glazing.cavities[0].opening_m = 0.01;
  panel.edge.panels_indoors = 1;
  panel.edge.sealed = false;
  CHECK(worst_under_sweep(panel) < 1e-9);
}

TEST_CASE("Plane: the light on the cells is as much as the light on the glass") {
  const Line line = heat_lines::line("wood", "metal", 0.012, 1);
  const PlaneGrid grid = plane_grid(line, width_m, height_m, std::vector<double>{0.31}, {});
  const auto lit_m2 = [&](const LitArea& lit) {
    const std::vector<double> light = light_on_cells(grid, {false, {{lit, 1.0}}});
    double sum = 0.0;
    for (std::size_t j = 0; j < grid.rows(); ++j)
      for (std::size_t i = 0; i < grid.columns(); ++i) {
        const double share = light[j * grid.columns() + i];
        CHECK((share > -1e-12 && share < 1.0 + 1e-12));
        sum += share * (grid.x_m[i + 1] - grid.x_m[i]) * (grid.y_m[j + 1] - grid.y_m[j]);
      }
    return sum;
  };
  CHECK(lit_m2({false, false, false, 0.31, 0.9, 0.2, 1.1}) == Approx(0.59 * 0.9));
  CHECK(lit_m2({false, false, true, 0, 0, 0, 0}) == Approx(0.5 * width_m * height_m));
  CHECK(lit_m2({}) == Approx(width_m * height_m));
}

TEST_CASE("Plane: its cells lie beside the borders, and what cannot be is refused") {
  const Line line = heat_lines::line("wood", "metal", 0.012, 2);
  const std::vector<double> border{0.83};
  const PlaneGrid grid = plane_grid(line, width_m, height_m, border, {});
  for (std::size_t i = 0; i + 1 < grid.x_m.size(); ++i) {
    CHECK(grid.x_m[i] < grid.x_m[i + 1]);
    if (grid.x_m[i] <= 0.83 && grid.x_m[i + 1] >= 0.83) CHECK(grid.x_m[i + 1] - grid.x_m[i] <= 0.006 + 1e-12);
  }
  CHECK_THROWS_AS(plane_grid(line, 0.02, 1.0, {}, {}), std::invalid_argument);
  CHECK_THROWS_AS(plane_grid(line, 1.0, 1.0, {}, {}, {0.006, 0.3, 0.05, 0}), std::invalid_argument);
  PlaneMarch march(line, grid);
  const std::vector<double> light(grid.cells(), 1.0);
  const StepLoads loads = heat_lines::loads(2, 0.0, 20.0, 10.0);
  CHECK_THROWS_AS(march.step(loads, loads, light, 60.0), std::invalid_argument);  // no start
  const Line single = heat_lines::line("wood", "metal", 0.012, 1);
  const LineDay day = march_day(single, sunny_day(1, 144), 600.0);
  CHECK_THROWS_AS(march.start(day, day, 0, light), std::invalid_argument);  // one lite for two
}

TEST_CASE("Plane: a pane of a hand's width, whose strips meet, is worked too") {
  const Line line = heat_lines::line("vinyl", "metal", 0.012, 2);
  const PlaneGrid grid = plane_grid(line, 0.12, 0.9, {}, {});
  const std::vector<StepLoads> day = sunny_day(2, 144);
  const LineDay strip = march_day(line, day, 600.0);
  PlaneMarch march(line, grid);
  const std::vector<double> light(grid.cells(), 1.0);
  march.start(strip, strip, 54, light);
  for (std::size_t step = 55; step < 72; ++step) {
    march.step(day[step], day[step], light, 600.0);
    CHECK(worst_residual(march) < 1e-9);
  }
  const auto cells = march.lite_k(0);
  for (std::size_t i = 0; i < grid.columns(); ++i)  // mirror symmetry
    CHECK(cells[grid.rows() / 2 * grid.columns() + i] ==
          Approx(cells[grid.rows() / 2 * grid.columns() + grid.columns() - 1 - i]).margin(1e-6));
}

namespace {

// The governing hour of a job's worse lite, by the quick route and in full.
struct Governing {
  Case pane;
  ChainCache cache;
  LitePeak quick;
  std::size_t lite = 0;
  internal::DayStrips strips{};
  const DesignDay* day = nullptr;
  std::size_t step = 0;
  explicit Governing(std::initializer_list<const char*> changes) : pane(complete_double_case(changes)) {
    const Reference& reference = builtin_reference();
    const YearPeaks peaks = worst_of_year(pane, pane.after, reference, cache, false);
    for (std::size_t j = 1; j < peaks.lites.size(); ++j)
      if (peaks.lites[j].stress_pa > peaks.lites[lite].stress_pa) lite = j;
    quick = peaks.lites[lite];
    const auto& days = internal::design_year(pane, reference, cache.store());
    const internal::DayAndStep at = internal::find_moment(days, quick.when);
    day = &days[at.day];
    step = at.step;
    const internal::AbsorptionTable table(pane.after, 0.0);
    strips = internal::strips_of_days(pane, pane.after, table, {day, 1}, cache.store()).front();
  }
  double highest_pa(const internal::PlaneResolution& resolution = {}) const {
    return internal::plane_peaks(pane, pane.after, *day, strips, lite, {step - 12, step - 3, step + 3},
                                 builtin_reference(), resolution)
        .highest()
        .edge.stress_pa;
  }
};

}  // namespace

TEST_CASE("Plane: without a shadow the quick route is within a thousandth of it") {
  const Governing plain({});
  CHECK(plain.highest_pa() == Approx(plain.quick.in_plane_pa()).epsilon(1e-3));
}

TEST_CASE("Plane: a shadow that stands still leaves the quick route within 1 %") {
  const Governing head({"shading.pattern=head-band", "shading.share=0.25"}),
      side({"shading.pattern=side-band", "shading.share=0.5"}), diagonal({"shading.pattern=diagonal"});
  for (const Governing* still : {&head, &side, &diagonal})
    CHECK(still->highest_pa() == Approx(still->quick.in_plane_pa()).epsilon(0.01));
}

TEST_CASE("Plane: the answer no longer depends on cells and steps", "[slow]") {
  const Governing overhang({"shading.overhang_depth=0.6 m", "shading.overhang_height=0.1 m", "pane.facing=W"}),
      reveal({"shading.reveal_depth=0.15 m"}), wall({"shading.wall_distance=8 m", "shading.wall_height=4 m"});
  for (const Governing* one : {&overhang, &reveal, &wall}) {
    const double usual_pa = one->highest_pa();
    CHECK(one->highest_pa({{0.006, 0.3, 0.05, 2}, 5}) == Approx(usual_pa).epsilon(2e-3));
    CHECK(one->highest_pa({{}, 15}) == Approx(usual_pa).epsilon(1e-3));
    CHECK(one->highest_pa({{0.003, 0.15, 0.03, 1}, 5}) == Approx(usual_pa).epsilon(1e-3));
  }
}

TEST_CASE("Plane: the larger of the two routes counts, and the answer says so") {
  const Reference& reference = builtin_reference();
  const auto told = [&](const Assessment& a) {
    for (const Reason& reason : reasons_of(a, reference, Units::metric))
      if (reason.text.starts_with("followed in full")) return true;
    return false;
  };
  const Assessment raised =
      assess(complete_double({"frame.kind=structural-silicone", "pane.facing=E", "lite.1.thickness=10 mm",
                              "lite.2.thickness=6 mm", "pane.width=2.0 m", "pane.height=0.6 m",
                              "shading.overhang_depth=1.0 m", "shading.overhang_height=0.1 m", "film.surface=1"}),
             reference);
  REQUIRE(raised.plane);
  const LiteFigures& after = raised.lites[raised.governing_lite].after;
  CHECK(raised.plane->raised_by > 1.0 + constant(reference, "plane_small_share"));
  const double bending_pa = after.peak_stress_pa - raised.plane->highest_pa;  // in both routes
  CHECK(bending_pa > 0.0);
  CHECK(after.peak_stress_pa == Approx(raised.plane->raised_by * (raised.plane->quick_pa + bending_pa)));
  CHECK(raised.stress_ratio == Approx(after.peak_stress_pa / after.allowable_pa));
  CHECK(told(raised));

  const Assessment lower = assess(complete_double({"shading.wall_distance=8 m", "shading.wall_height=4 m"}), reference);
  REQUIRE(lower.plane);
  CHECK(lower.plane->highest_pa < 0.98 * lower.plane->quick_pa);
  CHECK(lower.plane->raised_by == 1.0);
  CHECK(lower.lites[lower.governing_lite].after.peak_stress_pa > lower.plane->quick_pa);  // bending beside it
  CHECK(lower.lites[lower.governing_lite].after.peak_stress_pa < 1.1 * lower.plane->quick_pa);
  CHECK_FALSE(told(lower));

  CHECK_FALSE(assess(complete_double({}), reference).plane);  // no shadow, no border
}

TEST_CASE("Plane: sun out of a cloud brings about the clear day's stress, less while the glass still warms") {
  const Governing plain({});
  const internal::SuddenSun sudden =
      internal::sudden_sun({&plain.pane, &plain.pane.after, plain.day, plain.strips, plain.step, plain.lite,
                            plain.quick.in_plane_pa(), plain.quick.bending_pa},
                           builtin_reference());
  CHECK(sudden.peak_hour > sudden.out_hour);
  CHECK(sudden.peak_pa > 0.8 * plain.quick.in_plane_pa());
  CHECK(sudden.peak_pa < 1.2 * plain.quick.in_plane_pa());
}
