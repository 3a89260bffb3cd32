// Cold water on hot glass: the tension in the face that is cooled at once, while the sheet behind it is still hot.
#pragma once

#include <cstddef>

namespace sunstrain {

// The n-th root (n from 0) of z tan z = Bi, in n pi to n pi + pi/2: the modes of a sheet cooled through one face, the
// other insulated. Bi = h t/k over the whole thickness, above 0; throws std::invalid_argument otherwise.
// Source: Carslaw & Jaeger, Conduction of Heat in Solids, 3.11.
double quench_root(double biot, std::size_t n);

// By how much the cooled face is colder than the sheet's mean, over the first difference of sheet and water, at
// Fo = k time/(rho c t^2) above 0: sum over the modes of C exp(-z^2 Fo) (sin z/z - cos z), C = 4 sin z/(2 z + sin 2 z).
// Source: the same; Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, 5.5.
double quench_difference(double biot, double fourier);

// The largest of that over time.
struct QuenchPeak {
  double difference;  // 0 to 1, of sheet less water
  double fourier;     // when
};
QuenchPeak quench_peak(double biot);

// E alpha/(1 - nu) times a difference, Pa: the tension in the face of a sheet that neither bends nor is held at its
// edges. Source: Timoshenko & Goodier, Theory of Elasticity, thermal stress in a plate with a temperature over its
// thickness.
double face_stress_pa(double young_pa, double expansion_per_k, double poisson, double mean_less_face_k);

}  // namespace sunstrain
