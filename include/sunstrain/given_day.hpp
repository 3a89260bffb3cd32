// A day as it was, its lowest and highest temperature and its clouds typed in, in place of the design days: what the
// pane's edge bore on it.
#pragma once

#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain {

struct GivenDay {
  int month = 1, day = 1;              // a day of the calendar; 29 February counts as the 28th
  double lowest_k = 0, highest_k = 0;  // outdoor air, K; the highest not under the lowest
  double cloud = 0.0;                  // share of the sky that is covered, 0 to 1
};

// What comes down under that much cloud, from what a clear sky sends (`sun_elevation_rad` over the horizon).
// F. Kasten, G. Czeplak, Solar Energy 24 (1980) 177-189 (recalled): G(N) / G(0) = 1 - 0.75 (N/8)^3.4. Their diffuse
// share D / G = 0.3 + 0.7 (N/8)^2 is taken from the clear sky's own share d0 on: d0 + (1 - d0) (N/8)^2.
// Throws std::invalid_argument for a cloud outside 0 to 1.
ClearSky under_cloud(const ClearSky& clear, double sun_elevation_rad, double cloud, const Reference& reference);

// The sky's temperature (K) under that much cloud, never over the air's. G. Czeplak, F. Kasten, Meteorologische
// Rundschau 40 (1987) 184-187 (recalled): long-wave L(N) / L(0) = 1 + 0.22 (N/8)^2.75.
double sky_under_cloud_k(double clear_sky_k, double air_k, double cloud, const Reference& reference);

// The day in steps, as design_day() has one: the temperature's course is the design days'. Throws
// std::invalid_argument for a day that there is not, temperatures in the wrong order, cloud outside 0 to 1.
DesignDay given_day(const Place& place, const GivenDay& day, double tilt_rad, double facing_rad,
                    double ground_reflectance, int steps_per_day, const Reference& reference);

// One sheet on that day, with film and without.
struct OnGivenDay {
  double stress_pa = 0.0, stress_without_film_pa = 0.0;  // at the bad end
  double stress_ratio = 0.0;                             // over the go line
  double middle_stress_pa = 0.0;                         // by the most likely values
  double middle_ratio = 0.0;                             // over the refer line
  double local_hour = 0.0;                               // of the bad end's peak
};

// Every sheet of an assessed pane on that day, in the order of its `lites`, by the same two runs. Snow lies where the
// pane's winter ground has it and the day is a heating day of the winter half; what the full transient in the plane
// raised the design days' stress by raises this one's. Clouds that break are not seen: between them the sun is as
// strong as on a clear day. Throws as given_day() does.
std::vector<OnGivenDay> on_given_day(const Assessment& assessment, const GivenDay& day, const Reference& reference,
                                     ChainCache& cache);

}  // namespace sunstrain
