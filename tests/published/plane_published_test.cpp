// Heat in the plane of a sheet against closed forms of conduction.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "support/bare_sheet.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

// H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed.: the corner's product of error functions (1.15 and
// 2.2) and heat lost from the surface as exp(-beta t) (4.2), put together by Duhamel's theorem (1.14). Recalled, not
// read from the book. Sun that begins to fall on the quadrant x > 0, y > 0 of a sheet at the air's temperature warms it
// by s integral exp(-beta u) erfc(-x/2 sqrt(kappa u))/2 erfc(-y/2 sqrt(kappa u))/2 du.
TEST_CASE("Plane: sun on a quadrant of a sheet, Carslaw & Jaeger") {
  constexpr double x0 = 0.50, y0 = 0.60, step_s = 30.0;
  const std::vector<double> at_x{x0}, at_y{y0};
  BareSheet sheet(BareSheet::graded(1.0, 1.2, {0.002, 0.1, 0.02}, at_x, at_y), 25.0, 400.0);
  const double kappa = sheet.diffusivity_m2_s(), beta = sheet.loss_per_s();
  const auto expected = [&](double x, double y, double t) {  // midpoint rule in sqrt(u)
    constexpr int points = 4000;
    double sum = 0.0;
    for (int i = 0; i < points; ++i) {
      const double r = std::sqrt(t) * (i + 0.5) / points, spread = 2.0 * std::sqrt(kappa) * r;
      sum += 2.0 * r * std::exp(-beta * r * r) * 0.25 * std::erfc(-(x - x0) / spread) * std::erfc(-(y - y0) / spread);
    }
    return sheet.sun_k_s() * sum * std::sqrt(t) / points;
  };
  const std::vector<double> light =
      light_on_cells(sheet.grid(), {false, {{{false, false, false, x0, 1.0, y0, 1.2}, 1.0}}});
  int compared = 0;
  for (int step = 1; step <= 60; ++step) {
    sheet.step(light, step_s);
    if (step != 10 && step != 20 && step != 60) continue;
    for (std::size_t j = 0; j < sheet.grid().rows(); ++j) {
      for (std::size_t i = 0; i < sheet.grid().columns(); ++i) {
        const double x = sheet.x_m(i), y = sheet.y_m(j);
        if (std::abs(x - x0) > 0.06 || std::abs(y - y0) > 0.06 || (i + j) % 7 != 0) continue;
        ++compared;
        CAPTURE(step, x, y);
        CHECK(sheet.above_air_k(i, j) == Approx(expected(x, y, step * step_s)).margin(0.03));
      }
    }
  }
  CHECK(compared > 100);
}

// H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., 4.9: a thin rod that moves and loses heat has
// exponentials exp[(v +- sqrt(v^2 + 4 kappa beta)) x/2 kappa] as its steady states. Recalled, not read from the book.
// Seen from a border of light that moves with speed v into the shade, with sun behind it, the two join with equal
// slopes: behind (lit) 1 - a exp(m x), ahead (1 - a) exp(-n x), times sun/beta, n, m = (sqrt(v^2 + 4 kappa beta) +-
// v)/2 kappa, a = n/(n + m).
TEST_CASE("Plane: a border of light that moves on at one speed, Carslaw & Jaeger's moving rod") {
  constexpr double length_m = 1.6, step_s = 20.0;
  const std::vector<double> borders{0.2, 0.6, 1.0, 1.4};
  for (double speed_m_s : {0.00002, 0.0001, -0.0001}) {
    BareSheet sheet(BareSheet::graded(length_m, 0.3, {0.002, 0.01, 0.004}, borders), 25.0, 400.0);
    const double kappa = sheet.diffusivity_m2_s(), beta = sheet.loss_per_s();
    const double root = std::sqrt(speed_m_s * speed_m_s + 4.0 * kappa * beta);
    const double n = (root + speed_m_s) / (2.0 * kappa), m = (root - speed_m_s) / (2.0 * kappa), a = n / (n + m);
    const auto expected = [&](double ahead_m) {
      return sheet.sun_k_s() / beta *
             (ahead_m < 0.0 ? 1.0 - a * std::exp(m * ahead_m) : (1.0 - a) * std::exp(-n * ahead_m));
    };
    double border_m = speed_m_s > 0.0 ? 0.4 : 1.2;
    sheet.set([&](double x, double) { return expected(x - border_m); });
    for (int step = 0; step < 300; ++step) {
      border_m += speed_m_s * step_s;
      sheet.step(light_on_cells(sheet.grid(), {false, {{{false, false, false, 0.0, border_m, 0.0, 0.3}, 1.0}}}),
                 step_s);
    }
    CAPTURE(speed_m_s, border_m);
    const std::size_t row = sheet.grid().rows() / 2;
    for (std::size_t i = 0; i < sheet.grid().columns(); i += 3) {
      const double ahead_m = sheet.x_m(i) - border_m;
      if (std::abs(ahead_m) > 0.15) continue;
      CAPTURE(ahead_m);
      CHECK(sheet.above_air_k(i, row) == Approx(expected(ahead_m)).margin(0.06));
    }
  }
}
