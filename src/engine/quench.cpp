#include "sunstrain/quench.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace sunstrain {

using std::numbers::pi;

// z sin z - Bi cos z has one root in the quarter turn and changes sign there.
double quench_root(double biot, std::size_t n) {
  if (!(biot > 0.0 && std::isfinite(biot)))
    throw std::invalid_argument("Biot number must be above 0, not " + std::to_string(biot));
  const double start = static_cast<double>(n) * pi;
  double low = 0.0, high = 0.5 * pi;  // past the start, so that nothing cancels
  for (int halving = 0; halving < 60; ++halving) {
    const double past = 0.5 * (low + high);
    ((start + past) * std::sin(past) < biot * std::cos(past) ? low : high) = past;
  }
  return start + 0.5 * (low + high);
}

double quench_difference(double biot, double fourier) {
  if (!(fourier > 0.0)) throw std::invalid_argument("Fourier number must be above 0, not " + std::to_string(fourier));
  constexpr double spent = 40.0;  // exp(-40) of a mode is nothing
  double sum = 0.0;
  for (std::size_t n = 0;; ++n) {
    const double z = quench_root(biot, n), faded = z * z * fourier;
    if (n > 0 && faded > spent) return sum;
    sum += 4.0 * std::sin(z) / (2.0 * z + std::sin(2.0 * z)) * std::exp(-faded) * (std::sin(z) / z - std::cos(z));
  }
}

// One maximum over time: by thirds of the logarithm.
QuenchPeak quench_peak(double biot) {
  double low = std::log(1e-5), high = std::log(2.0);
  const auto at = [&](double log_fourier) { return quench_difference(biot, std::exp(log_fourier)); };
  while (high - low > 1e-6) {
    const double third = (high - low) / 3.0;
    if (at(low + third) < at(high - third))
      low += third;
    else
      high -= third;
  }
  const double middle = 0.5 * (low + high);
  return {at(middle), std::exp(middle)};
}

double face_stress_pa(double young_pa, double expansion_per_k, double poisson, double mean_less_face_k) {
  return young_pa * expansion_per_k / (1.0 - poisson) * mean_less_face_k;
}

}  // namespace sunstrain
