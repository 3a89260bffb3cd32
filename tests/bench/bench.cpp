// What the stages cost, on one core: CSV on standard output, which bench.py reads. Nothing is asserted here.
//   measure,NAME,SECONDS,HOW MANY    each the least of several rounds of processor time
//   edge,SIDE,POSITION,PA            the answer for the field that bench.py also gives to other solvers
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <limits>

#include "../../src/engine/loads.hpp"
#include "floor.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/weather_read.hpp"
#include "sunstrain/resolve.hpp"
#include "sunstrain/sampler.hpp"
#include "support/jobs.hpp"
#include "support/stress_fields.hpp"
#include "support/weather_text.hpp"

using namespace sunstrain;

namespace {

constexpr int steps_per_day = 144;

double processor_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double checksum = 0.0;  // of every answer, printed at the end: nothing timed can be left out by the compiler

// The least time of one run over several rounds; short runs are repeated until a round lasts 5 ms.
template <typename Run>
double least_s(int rounds, Run&& run) {
  double least = std::numeric_limits<double>::infinity();
  int repeats = 1;
  for (int round = 0; round < rounds;) {
    const double start = processor_s();
    for (int i = 0; i < repeats; ++i) run();
    const double took = processor_s() - start;
    if (took < 0.005) {
      repeats *= 2;
      continue;
    }
    least = std::min(least, took / repeats);
    ++round;
  }
  return least;
}

void say(const char* name, double seconds, double count) {
  std::printf("measure,%s,%.6g,%.0f\n", name, seconds, count);
}

// The head band of tests/calculix/shadow_fields.py on 1.2 x 1.5 m: 10 + X(x) Y(y).
constexpr double width_m = 1.2, height_m = 1.5, band_from_m = 0.75 * height_m, frame_m = 0.03, shadow_m = 0.025;
double x_profile(double x) { return test::framed(width_m, frame_m)(x); }
double y_profile(double y) {
  return test::framed(height_m, frame_m)(y) * (26.0 - 20.0 * test::smooth_step(band_from_m, shadow_m)(y));
}
const FieldFeatures features{{{0.0, frame_m}}, {{0.0, frame_m}, {band_from_m, shadow_m}}};

void separable_field() {
  say("shape set-up",
      least_s(10, [] { checksum += EdgeStressSolver(width_m, height_m, features, test::glass).modes_x(); }), 1);
  const EdgeStressSolver solver(width_m, height_m, features, test::glass);
  const auto xs = solver.sample_x(x_profile), ys = solver.sample_y(y_profile);
  const auto x = solver.transform_x(xs), y = solver.transform_y(ys);
  std::vector<double> stress(4 * 64);
  const EdgeStressSolver::Product product{1.0, x.data, y.data};
  say("separable field; profiles kept",
      least_s(40,
              [&] {
                solver.solve_into({&product, 1}, stress);
                checksum += stress[0];
              }),
      1);
  say("separable field; from its samples",
      least_s(40,
              [&] {
                const auto from_x = solver.transform_x(xs), from_y = solver.transform_y(ys);
                const EdgeStressSolver::Product made{1.0, from_x.data, from_y.data};
                solver.solve_into({&made, 1}, stress);
                checksum += stress[0];
              }),
      1);
  say("separable field; solver built for it alone",
      least_s(10,
              [&] {
                const EdgeStressSolver alone(width_m, height_m, features, test::glass);
                const ProductTerm term{1.0, x_profile, y_profile};
                checksum += alone.solve(std::span<const ProductTerm>(&term, 1)).peak_pa;
              }),
      1);
  constexpr int many = steps_per_day;
  const std::vector<EdgeStressSolver::Product> products(many, product);
  std::vector<std::size_t> starts(products.size() + 1);
  for (std::size_t i = 0; i < starts.size(); ++i) starts[i] = i;
  std::vector<double> all(products.size() * stress.size());
  say("separable field; in a batch of 144",
      least_s(20,
              [&] {
                solver.solve_batch(products, starts, all);
                checksum += all[0];
              }) /
          many,
      1);
  say("its peak", least_s(20, [&] { checksum += solver.find_peak(stress).stress_pa; }), 1);
  // The products of the four matrices that take integrals to the edge, and nothing else, by plain Eigen.
  const int rows = solver.points_per_side(), columns = 1 + (solver.modes_x() + solver.modes_y() + 1) / 2;
  bench::PlainProducts one(rows, columns, 1), batch(rows, columns, many);
  say("floor: plain matrix times vector", least_s(40, [&] { checksum += one.multiply(); }), 4.0 * rows * columns);
  say("floor: plain matrix product a field of 144", least_s(40, [&] { checksum += batch.multiply(); }) / many,
      4.0 * rows * columns);

  const auto points = solver.field_points();
  std::vector<double> sampled;
  for (const auto& p : points) sampled.push_back(10.0 + x_profile(p.x_m) * y_profile(p.y_m));
  say("general field; from its samples", least_s(20, [&] { checksum += solver.solve_field(sampled).peak_pa; }),
      static_cast<double>(points.size()));
  const EdgeStress answer = solver.solve(std::span<const EdgeStressSolver::Product>(&product, 1));
  const char* names[]{"bottom", "right", "top", "left"};
  for (std::size_t s = 0; s < 4; ++s)
    for (std::size_t i = 0; i < answer.position_m[s].size(); ++i)
      std::printf("edge,%s,%.9g,%.9g\n", names[s], answer.position_m[s][i], answer.stress_pa[s][i]);
  std::printf("edge,peak,0,%.9g\n", answer.peak_pa);
}

std::vector<DesignDay> design_year(const Case& pane, const Reference& reference) {
  std::vector<DesignDay> days;
  for (int month = 1; month <= 12; ++month) {
    for (DayKind kind : {DayKind::cold_clear, DayKind::hot_clear}) {
      const bool snow_may_lie = kind == DayKind::cold_clear && (month <= 3 || month >= 11);
      days.push_back(design_day(pane.place, month, kind, pane.tilt_rad, pane.facing_rad,
                                snow_may_lie ? pane.winter_ground_reflectance : pane.ground_reflectance, steps_per_day,
                                reference));
    }
  }
  return days;
}

void thermal_part(const Case& pane, const std::vector<DesignDay>& days) {
  double steps = 0.0;
  std::vector<std::vector<StepLoads>> loads[2];
  std::vector<LineDay> lines;
  for (std::size_t state = 0; state < 2; ++state) {
    const internal::AbsorptionTable table(state == 0 ? pane.before : pane.after, pane.room.back_reflectance());
    for (const DesignDay& day : days) {
      for (double beam : {1.0, 0.0}) {
        std::vector<StepLoads>& of_day = loads[state].emplace_back();
        for (const DayStep& step : day.steps) of_day.push_back(internal::step_loads(pane, table, step, day.kind, beam));
        steps += static_cast<double>(of_day.size());
      }
    }
  }
  say("full check; thermal part alone (march_days)",
      least_s(
          20,
          [&] {
            for (std::size_t state = 0; state < 2; ++state) {
              const Line line{(state == 0 ? pane.before : pane.after).thermal, pane.edge, pane.room.shade, pane.air};
              march_days(line, loads[state], days.front().step_s, lines);
              checksum += lines.back().cell_k.back();
            }
          }),
      steps);
}

// A double-glazed pane under an overhang whose shadow moves: 24 design days of 144 steps, both lites, before and after.
void full_check() {
  const Reference& reference = builtin_reference();
  const Job job = test::complete_double({"shading.overhang_depth=0.6 m", "shading.overhang_height=0.2 m"});
  const Case pane = build_case(resolve(job, Run::bad_end, {}, reference).job, Run::bad_end, reference);
  const std::vector<DesignDay> days = design_year(pane, reference);
  const double fields = 24.0 * steps_per_day * 2 * 2;
  const auto before_and_after = [&](ChainCache& cache) {
    for (const GlazingState* state : {&pane.before, &pane.after})
      checksum += worst_of_year(pane, *state, reference, cache, false).lites[0].stress_pa;
  };
  say("full check; fresh cache",
      least_s(20,
              [&] {
                ChainCache cache;
                before_and_after(cache);
              }),
      fields);
  ChainCache warm;
  before_and_after(warm);
  say("full check; warm cache", least_s(20, [&] { before_and_after(warm); }), fields);
  ChainCache unpruned;
  const auto every_step = [&] {
    for (const GlazingState* state : {&pane.before, &pane.after})
      checksum += worst_of_days(pane, *state, days, reference, unpruned, false, Steps::all).lites[0].stress_pa;
  };
  every_step();
  say("full check; warm cache; every step solved", least_s(2, every_step), fields);
  say("full check; the 24 design days' sun alone",
      least_s(20, [&] { checksum += design_year(pane, reference).back().steps.back().sky_k; }), 24.0 * steps_per_day);
  thermal_part(pane, days);
}

// An invented year of hourly weather: 52,560 steps, both lites, before and after.
void weather_year() {
  const Reference& reference = builtin_reference();
  const WeatherYear year = read_weather(test::epw_text(), "bench.epw", reference);
  for (const bool overhang : {false, true}) {
    const Job job = overhang ? test::complete_double({"shading.overhang_depth=0.6 m", "shading.overhang_height=0.2 m"})
                             : test::complete_double({});
    const Case pane = build_case(resolve(job, Run::bad_end, {}, reference).job, Run::bad_end, reference);
    say(overhang ? "weather year; moving overhang" : "weather year; no shadow",
        least_s(1,
                [&] {
                  ChainCache cache;
                  for (const GlazingState* state : {&pane.before, &pane.after})
                    checksum += run_weather_year(pane, *state, year, reference, cache).lites[0].stress_pa;
                }),
        8760.0 * 6 * 2 * 2);
  }
}

// 10,000 samples, as check draws them: a double unit in a vinyl frame of which coating, thicknesses, film sheet's glass
// and frame's sun are not known; then whether there is a blind, too; then also how high an overhang hangs.
void samples() {
  const Reference& reference = builtin_reference();
  Job job = test::complete_double({});
  for (const char* open : {"lite.1.coating", "lite.2.coating", "lite.1.thickness", "lite.2.thickness", "cavity.1.gas",
                           "film.reference_glass", "frame.sun"})
    forget(job, open);
  const auto draw = [&](const char* name) {
    const Sampler sampler(job, reference, 1.0);
    const std::size_t rows = 10000 / sampler.samples_a_row();
    const auto work = [&] {
      ChainCache cache;
      std::vector<SampleRow> worked;
      for (std::uint64_t row = 0; row < rows; ++row) worked.push_back(sampler.row(1, row, cache));
      checksum += samples_of(sampler, worked, 1, reference).odds.value;
    };
    say(name, least_s(1, work), static_cast<double>(rows * sampler.samples_a_row()));
  };
  draw("10000 samples; no blind");
  forget(job, "inside.shade");
  draw("10000 samples; blind not known");
  settle(job, "shading.overhang_depth", 0.6);
  draw("10000 samples; blind not known; moving overhang");
}

}  // namespace

int main() {
  separable_field();
  full_check();
  weather_year();
  samples();
  std::fprintf(stderr, "checksum %.6g\n", checksum);
}
