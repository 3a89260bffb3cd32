// Internal: what a run over the design days is made of.
#pragma once

#include "lite_day.hpp"
#include "loads.hpp"
#include "sunstrain/given_day.hpp"

namespace sunstrain::internal {

// What stands before the pane sends over, added to a day's steps.
void add_reflected(const Case& pane, DesignDay& day);

// The 24 design days of a pane; they live in the store.
const std::vector<DesignDay>& design_year(const Case& pane, const Reference& reference, ChainCache::Store& store);

// A design day of the year in steps so many times shorter.
DesignDay in_finer_steps(const Case& pane, const DesignDay& day, int times, const Reference& reference);

// A day as it was, before the pane.
DesignDay day_of_pane(const Case& pane, const GivenDay& day, const Reference& reference);

// Where a moment lies among days that have it.
struct DayAndStep {
  std::size_t day, step;
};
DayAndStep find_moment(std::span<const DesignDay> days, const Moment& moment);

// Every day's strip in the sun and, with a shadow, in the shade. They live in the store until the next run.
std::vector<DayStrips> strips_of_days(const Case& pane, const GlazingState& state, const AbsorptionTable& table,
                                      std::span<const DesignDay> days, ChainCache::Store& store);

}  // namespace sunstrain::internal
