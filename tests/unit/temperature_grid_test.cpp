// A field as a table: reading, interpolation, the stress of it, and that its stated accuracy is honest.
#include "sunstrain/io/temperature_grid.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "sunstrain/job.hpp"
#include "sunstrain/report/stress_report.hpp"

using namespace sunstrain;

namespace {

constexpr PaneElasticity glass{70e9, 9e-6};
const std::string small = "m,0,0.5,1.0\n0,20,20,20\n0.4,20,40,20\n0.8,20,20,20\n";

std::string refused(const std::string& text, std::optional<double> w = {}, std::optional<double> h = {}) {
  try {
    read_temperature_grid(text, "field.csv", w, h);
  } catch (const BadInput& bad) {
    return bad.what();
  }
  return "";
}

// A parabola across a long strip, T = c (2y/H - 1)^2 K, as a fine table.
std::string parabola(double length_m, double height_m, int steps) {
  std::string text = "y\\x,0," + std::to_string(length_m) + "\n";
  for (int i = 0; i <= steps; ++i) {
    const double y = height_m * i / steps, u = 2 * y / height_m - 1;
    text += std::to_string(y) + "," + std::to_string(30 * u * u) + "," + std::to_string(30 * u * u) + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("a grid is bilinear between its points and jumps where a coordinate stands twice") {
  const TemperatureGrid grid = read_temperature_grid(small, "field.csv", {}, {});
  CHECK(grid.width_m() == 1.0);
  CHECK(grid.height_m() == 0.8);
  CHECK(temperature_c(grid, 0.5, 0.4) == Approx(40.0));
  CHECK(temperature_c(grid, 0.25, 0.4) == Approx(30.0));
  CHECK(temperature_c(grid, 0.25, 0.2) == Approx(25.0));
  const TemperatureGrid step =
      read_temperature_grid("x;0;0.3;0.3;1\n0;10;10;30;30\n1;10;10;30;30\n", "field.csv", {}, {});
  CHECK(temperature_c(step, 0.299999, 0.5) == Approx(10.0));
  CHECK(temperature_c(step, 0.300001, 0.5) == Approx(30.0));
}

TEST_CASE("a camera's table has its first row at the top and reaches to the edges") {
  const TemperatureGrid grid = read_temperature_grid("30,31\n20,21\n", "camera.csv", 1.0, 2.0);
  CHECK(temperature_c(grid, 0.0, 2.0) == Approx(30.0));
  CHECK(temperature_c(grid, 1.0, 0.0) == Approx(21.0));
  CHECK(temperature_c(grid, 0.5, 1.0) == Approx(25.5));
}

TEST_CASE("tables that are no field are refused with their place") {
  CHECK(refused("").find("two rows") != std::string::npos);
  CHECK(refused("m,0,1\n0,20,nan\n1,20,20\n").find("row 2, column 3") != std::string::npos);
  CHECK(refused("m,0,1\n0,20\n1,20,20\n").find("row 2 has 2 cells") != std::string::npos);
  CHECK(refused("m,0,1,0.5\n0,20,20,20\n1,20,20,20\n").find("must not go back") != std::string::npos);
  CHECK(refused("m,0,0.5,0.5,0.5,1\n0,1,1,1,1,1\n1,1,1,1,1,1\n").find("three times") != std::string::npos);
  CHECK(refused("m,0.1,1\n0,20,20\n1,20,20\n").find("begin at 0") != std::string::npos);
  CHECK(refused("m,0,1\n0,20,1e308\n1,20,20\n").find("temperature") != std::string::npos);
  CHECK(refused("1,2\n3,4\n", 1.0).find("go together") != std::string::npos);
}

TEST_CASE("a linear field is free of stress and a long strip with a parabola has its closed form") {
  const TemperatureGrid tilted = read_temperature_grid("m,0,2\n0,0,20\n1,10,30\n", "field.csv", {}, {});
  CHECK(std::abs(grid_stress(tilted, glass, 200).stress.peak_pa) < 1e3);
  // Timoshenko & Goodier, Theory of Elasticity, art. on thermal stress in a long strip: sigma = E alpha (mean T - T),
  // here 30 K (1/3 - u^2) with no bending: -20 K E alpha at the edges.
  const TemperatureGrid strip = read_temperature_grid(parabola(3.0, 0.3, 60), "field.csv", {}, {});
  const GridStress result = grid_stress(strip, glass, 200);
  const auto& bottom = result.stress.stress_pa[static_cast<std::size_t>(Side::bottom)];
  CHECK(bottom[bottom.size() / 2] == Approx(-20.0 * 0.63e6).epsilon(0.005));
}

TEST_CASE("the stated accuracy covers the distance to a much finer answer") {
  std::string text = "m,0,0.4,0.41,1.2\n";  // a border 10 mm wide
  for (double y : {0.0, 0.012, 0.05, 0.75, 0.788, 0.8}) {
    const double middle = y == 0.0 || y == 0.8 ? 0.0 : y == 0.012 || y == 0.788 ? 10.0 : 25.0;
    text += std::to_string(y) + "," + std::to_string(0.3 * middle) + "," + std::to_string(0.3 * middle) + "," +
            std::to_string(middle) + "," + std::to_string(middle) + "\n";
  }
  const TemperatureGrid grid = read_temperature_grid(text, "field.csv", {}, {});
  const GridStress result = grid_stress(grid, glass, 200);
  CHECK(result.accuracy_pa < 0.02 * result.stress.peak_pa);
  const FieldFeatures fine{{{0.4, 0.002}, {0.41, 0.002}},
                           {{0.012, 0.002}, {0.05, 0.002}, {0.75, 0.002}, {0.788, 0.002}}};
  const EdgeStressSolver solver(1.2, 0.8, fine, glass, 200, {2.0, 1.0});
  const EdgeStress exact = solver.solve_general([&](double x, double y) { return temperature_c(grid, x, y); });
  for (std::size_t side = 0; side < 4; ++side) {
    for (std::size_t i = 0; i < exact.position_m[side].size(); ++i) {
      const double at = result.stress.position_m[side][i], length = side % 2 == 0 ? 1.2 : 0.8;
      if (at < 0.01 || at > length - 0.01 || std::abs(exact.position_m[side][i] - at) > 1e-9) continue;
      CHECK(std::abs(exact.stress_pa[side][i] - result.stress.stress_pa[side][i]) <= std::max(result.accuracy_pa, 2e3));
    }
  }
  CHECK(exact.peak_pa == Approx(result.stress.peak_pa).margin(result.accuracy_pa + 2e3));
}

TEST_CASE("the picture and the JSON are whole") {
  const TemperatureGrid grid = read_temperature_grid(small, "field.csv", {}, {});
  const GridStress result = grid_stress(grid, glass, 200);
  const std::string svg = stress_svg(grid, result);
  CHECK(svg.starts_with("<svg"));
  CHECK(svg.ends_with("</svg>\n"));
  CHECK(svg.find("nan") == std::string::npos);
  CHECK(stress_json(grid, result).find("\"accuracy_mpa\"") != std::string::npos);
}
