// What must hold of a sheet cooled through one face, whatever the numbers.
#include "sunstrain/quench.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

using namespace sunstrain;

namespace {

// The same by finite volumes, implicit in time: another route to the difference of mean and cooled face.
double by_volumes(double biot, double fourier, int cells, int steps) {
  const double dx = 1.0 / cells, dt = fourier / steps, inner = dt / (dx * dx);
  const double outer = dt / dx / (0.5 * dx + 1.0 / biot);
  const auto n = static_cast<std::size_t>(cells);
  std::vector<double> theta(n, 1.0), upper(n), right(n);
  for (int step = 0; step < steps; ++step) {
    for (std::size_t i = 0; i < n; ++i) {
      const double left = i == 0 ? 0.0 : inner, next = i + 1 == n ? 0.0 : inner, film = i + 1 == n ? outer : 0.0;
      const double pivot = 1.0 + left + next + film - (i == 0 ? 0.0 : left * upper[i - 1]);
      upper[i] = next / pivot;
      right[i] = (theta[i] + (i == 0 ? 0.0 : left * right[i - 1])) / pivot;
    }
    theta[n - 1] = right[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) theta[i] = right[i] + upper[i] * theta[i + 1];
  }
  double mean = 0.0;
  for (double value : theta) mean += value / cells;
  const double face = theta[n - 1] / (1.0 + 0.5 * dx * biot);
  return mean - face;
}

}  // namespace

TEST_CASE("Quench: the series gives what finite volumes give") {
  for (double biot : {0.3, 3.0, 12.0})
    for (double fourier : {0.02, 0.1, 0.4}) {
      CAPTURE(biot, fourier);
      CHECK(quench_difference(biot, fourier) == Approx(by_volumes(biot, fourier, 400, 2000)).epsilon(0.003));
    }
}

TEST_CASE("Quench: more film, more stress, sooner; never more than the whole difference") {
  QuenchPeak before{0.0, 10.0};
  for (double biot : {0.05, 0.2, 1.0, 4.0, 20.0, 100.0}) {
    CAPTURE(biot);
    const QuenchPeak peak = quench_peak(biot);
    CHECK(peak.difference > before.difference);
    CHECK(peak.difference < 1.0);
    CHECK(peak.fourier < before.fourier);
    CHECK(quench_difference(biot, peak.fourier * 1.1) < peak.difference);
    CHECK(quench_difference(biot, peak.fourier / 1.1) < peak.difference);
    before = peak;
  }
  // A thin film of heat: the mean falls as Bi Fo, the face stays Bi/3 below it.
  CHECK(quench_peak(0.01).difference == Approx(0.01 / 3.0).epsilon(0.03));
}

TEST_CASE("Quench: stress of a face, and what is refused") {
  CHECK(face_stress_pa(70e9, 9e-6, 0.23, 10.0) == Approx(70e9 * 9e-6 / 0.77 * 10.0));
  CHECK_THROWS_AS(quench_root(0.0, 0), std::invalid_argument);
  CHECK_THROWS_AS(quench_root(-1.0, 0), std::invalid_argument);
  CHECK_THROWS_AS(quench_difference(1.0, 0.0), std::invalid_argument);
}
