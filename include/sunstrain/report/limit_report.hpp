// How dark a film a pane takes, as text and as JSON.
#pragma once

#include <string>

#include "sunstrain/limit.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain {

// style.full has no meaning here.
std::string limit_text(const FilmLimits& limits, const Reference& reference, const TextStyle& style);

// Keys: schema "sunstrain-limit-1", source, reference_glass, reference_glass_known, solar_reflectance (null: whatever
// is worst), lightest_possible, darkest_possible, panes [{mended (null: as it is), go, caution}], safety_note. go and
// caution are {films "none" | "up_to" | "every", from and solar_absorptance (the lightest and the darkest, null for
// none), by_figures_alone {the same three}, rules that shut out the next darker film, with_it {solar_absorptance,
// verdict, stress_ratio, stress_ratio_middle, lite_absorbs, lite_absorbs_without_film}}.
std::string limit_json(const FilmLimits& limits, const Reference& reference);

}  // namespace sunstrain
