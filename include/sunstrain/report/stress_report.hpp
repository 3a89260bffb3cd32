// What `sunstrain stress` says of a temperature field.
#pragma once

#include <string>

#include "sunstrain/io/temperature_grid.hpp"
#include "sunstrain/language.hpp"

namespace sunstrain {

std::string stress_text_report(const TemperatureGrid& grid, const GridStress& result, const Language& language,
                               int width);

// Keys: width_m, height_m, peak_edge_stress_mpa, peak_at {edge, position_m}, edges {bottom, right, top, left} each a
// list of {position_m, stress_mpa}, accuracy_mpa; positions from the left or from the bottom.
std::string stress_json(const TemperatureGrid& grid, const GridStress& result);

// The field in color and the stress along the edges as curves outside it, to scale, as one self-contained SVG.
std::string stress_svg(const TemperatureGrid& grid, const GridStress& result, const Language& language = {});

}  // namespace sunstrain
