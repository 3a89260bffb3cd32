// Internal: the governing hour's light, and its temperature from place to place.
#pragma once

#include "sunstrain/pane_map.hpp"
#include "trace_hour.hpp"

namespace sunstrain::internal {

// How the sun lies on the pane in that hour.
Light light_in(const GoverningHour& hour);

bool lies_in(const LitArea& area, double x_m, double y_m, double width_m, double height_m);

PaneMap map_of(const GoverningHour& hour, const Assessment& assessment, std::size_t columns, std::size_t rows);

}  // namespace sunstrain::internal
