// A few numbers from every physics stage of the engine, 17 digits each, so that one can compare the same code
// compiled for two machines. The pane and its frame are round numbers: the comparison is about arithmetic.
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "sunstrain/heat.hpp"
#include "sunstrain/optics.hpp"
#include "sunstrain/stress.hpp"
#include "sunstrain/sun.hpp"

using namespace sunstrain;

namespace {

constexpr double rim_m = 0.03;  // how far the cold of the frame reaches into the glass

EdgeStress cold_rim(double width_m, double height_m, double middle_above_rim_k) {
  const FieldFeatures features{{{0.0, rim_m}, {width_m, rim_m}}, {{0.0, rim_m}, {height_m, rim_m}}};
  const EdgeStressSolver solver(width_m, height_m, features, {70e9, 9e-6});
  const auto warm = [](double length_m) {
    return [length_m](double s) { return 1.0 - std::exp(-s / rim_m) - std::exp(-(length_m - s) / rim_m); };
  };
  const std::vector<ProductTerm> terms{{middle_above_rim_k, warm(width_m), warm(height_m)}};
  return solver.solve(terms);
}

Gas round_air() {
  return {"air",
          2.9e-3,
          7.8e-5,
          3.7e-6,
          4.9e-8,
          1002.7,
          1.2e-2,
          0.029,
          {1.3, 1.28, 1.23, 1.19},
          {1.66e-5, 1.71e-5, 1.76e-5, 1.81e-5},
          {0.0234, 0.0242, 0.0250, 0.0258},
          1008.0,
          {}};
}

// Two lites of 4 mm, 12 mm of air between them.
Line double_unit() {
  const FrameFit fit{0.1, 0.05, 0.5, 0.2, 0.08, 0.08, 0.05, 0.03, {0.0, 300.0, 900.0, 0.0}};
  FrameKind frame;
  frame.name = "round numbers";
  frame.single = frame.sealed = fit;
  frame.seal_thickness_m = 0.003;
  frame.seal_height_m = 0.008;
  frame.seal_conductivity_w_mk = 0.2;
  const EdgeSection edge{frame, true, 0.012, {"metal", 1.5, 0.3, {}}, 0.05, 0.005, 0.0003, 0.24, 0.0, 0.01, 0.7, 0.03};
  const Glazing glazing{{{0.004, 0.84, 0.84}, {0.004, 0.84, 0.84}}, {{0.012, round_air()}}, 1.2, {1.0, 2500.0, 720.0}};
  return {glazing, edge, {}, round_air()};
}

// A cold clear day of hours: sun as a half sine from six to six.
std::vector<StepLoads> winter_day() {
  std::vector<StepLoads> day;
  for (int hour = 0; hour < 24; ++hour) {
    const double sun = std::fmax(0.0, std::sin((hour - 6) * 3.14159265358979323846 / 12.0));
    StepLoads loads{262.0 + 4.0 * sun, 8.0, 245.0, 0.4, 294.0, 294.0, 0.0, {}, 0.0, 200.0 * sun};
    loads.absorbed = {{0.0, 80.0 * sun, 0.0}, {0.0, 40.0 * sun, 220.0 * sun}};
    day.push_back(loads);
  }
  return day;
}

void print(const std::string& name, double value) { std::printf("%s %.17g\n", name.c_str(), value); }

void print_sun() {
  const SunPosition sun = sun_position({2025, 1, 20, 17.25}, 0.7, -1.8);
  print("sun_elevation_rad", sun.elevation_rad);
  print("sun_azimuth_rad", sun.azimuth_rad);
  const ClearSky sky = clear_sky(sun.apparent_elevation_rad, extraterrestrial_w_m2(20), 0.26, 2.5, 2009);
  const PaneIrradiance on = on_pane(sky, sun, 1.5, 3.0, 0.5);
  print("beam_w_m2", on.beam_w_m2);
  print("sky_w_m2", on.sky_w_m2);
}

void print_optics() {
  const double bulk = bulk_transmittance(0.83);
  const Interface film = film_interface({0.38, 0.30, 0.34}, bulk);
  const std::vector<OpticalLite> lites{{bare_interface(), bare_interface(), bulk}, {bare_interface(), film, bulk}};
  const Absorption beam = absorb_beam(lites, 0.9);
  print("beam_absorbed_1", beam.lites[0].total());
  print("beam_absorbed_2", beam.lites[1].total());
  print("diffuse_transmitted", absorb_diffuse(lites).transmitted);
}

void print_heat() {
  const Line line = double_unit();
  print("u_value_w_m2k", u_value_en673_w_m2k(line.glazing));
  const LineDay day = march_day(line, winter_day(), 3600.0);
  for (const std::size_t hour : {6u, 9u, 12u, 17u}) {
    const std::string at = "_" + std::to_string(hour);
    print("outer_edge_k" + at, day.strip(hour, 0).front());
    print("inner_edge_k" + at, day.strip(hour, 1).front());
    print("inner_middle_k" + at, day.strip(hour, 1).back());
    print("frame_k" + at, day.frame_k[hour][1]);
  }
}

void print_stress() {
  const EdgeStress stress = cold_rim(0.9, 1.2, 20.0);
  print("edge_peak_pa", stress.peak_pa);
  for (const Side side : all_sides) {
    const auto& values = stress.stress_pa[static_cast<std::size_t>(side)];
    print("stress_pa_" + std::to_string(static_cast<int>(side)), values[values.size() / 2]);
  }
}

}  // namespace

// What a page would call: the peak stress along the edge of a pane whose rim is cold.
extern "C" double edge_peak_pa(double width_m, double height_m, double middle_above_rim_k) {
  return cold_rim(width_m, height_m, middle_above_rim_k).peak_pa;
}

int main() {
  print_sun();
  print_optics();
  print_heat();
  print_stress();
}
