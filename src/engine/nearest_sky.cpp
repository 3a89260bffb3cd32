// The haze over coordinates that no table lists.
#include <algorithm>
#include <cmath>

#include "sunstrain/sun.hpp"

namespace sunstrain {

Place under_nearest_sky(double latitude_rad, double longitude_rad, std::span<const Place> places) {
  // The cosine of the great circle between them: the larger, the nearer.
  const auto nearness = [&](const Place& p) {
    return std::sin(latitude_rad) * std::sin(p.latitude_rad) +
           std::cos(latitude_rad) * std::cos(p.latitude_rad) * std::cos(longitude_rad - p.longitude_rad);
  };
  Place place = *std::max_element(places.begin(), places.end(),
                                  [&](const Place& a, const Place& b) { return nearness(a) < nearness(b); });
  if (latitude_rad * place.latitude_rad < 0.0) {
    std::rotate(place.tau_beam.begin(), place.tau_beam.begin() + 6, place.tau_beam.end());
    std::rotate(place.tau_diffuse.begin(), place.tau_diffuse.begin() + 6, place.tau_diffuse.end());
  }
  place.name = "own coordinates, clear sky as in " + place.name;
  place.latitude_rad = latitude_rad;
  place.longitude_rad = longitude_rad;
  return place;
}

}  // namespace sunstrain
