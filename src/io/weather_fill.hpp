// Internal: a weather year without holes.
#pragma once

#include "sunstrain/weather.hpp"

namespace sunstrain::internal {

// Puts the records on an unbroken grid from 1 January on and fills what is missing, saying so in `remarks`. Throws
// BadInput for records out of order or off the grid, and where there is too little to fill from.
void make_whole(WeatherYear& year, const Reference& reference);

}  // namespace sunstrain::internal
