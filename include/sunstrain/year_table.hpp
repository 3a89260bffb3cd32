// When in the year a pane comes near its line: the share of what the edge bears by month and hour.
#pragma once

#include <array>
#include <cstddef>

#include "sunstrain/assess.hpp"

namespace sunstrain {

inline constexpr std::size_t months_a_year = 12, hours_a_day = 24;

// [month, 0 January][hour, 0 the one that begins at local midnight, standard time], each at least 0.
using RatioByHour = std::array<std::array<double, hours_a_day>, months_a_year>;

struct YearTable {
  std::size_t lite = 0;  // of Assessment::lites: the one that governs
  RatioByHour before{}, after{};
};

// The bad end's ratio of the lite that governs, before and after film, through the 24 design days. Of month m and hour
// h it is
//   r(m, h) = max over both kinds of day and the steps t with h <= t < h + 1 of max(0, sigma(t)) / sigma_go,
// sigma(t) the highest tensile stress along the edge, bending included, sigma_go as LiteFigures::allowable_pa. All by
// the quick route (field.hpp): the hour of the answer's peak holds LiteFigures::stress_ratio before what PlaneCheck
// raised in it (`raised_by`), and no hour's sample of the edge passes that hour's. `assessment` must be assess()'s;
// with its cache nothing of what they share is made anew. Throws as assess().
YearTable year_table(const Assessment& assessment, const Reference& reference, ChainCache& cache);

}  // namespace sunstrain
