// Internal: what a run over the design days is made of.
#pragma once

#include "lite_day.hpp"
#include "loads.hpp"
#include "sunstrain/given_day.hpp"

namespace sunstrain::internal {

// What stands before the pane sends over, added to a day's steps.
void add_reflected(const Case& pane, DesignDay& day);

constexpr int ten_minutes = 144;  // a day: with the second-order march the glass (tau 5 to 30 min) is followed

// The 24 design days of a pane; they live in the store.
const std::vector<DesignDay>& design_year(const Case& pane, const Reference& reference, ChainCache::Store& store,
                                          int steps_per_day = ten_minutes);

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
                                      std::span<const DesignDay> days, ChainCache::Store& store, MarchCare care = {});

// Every lite of a pane through some days: heat, light and stress maps. Some of it lives in the store until the next
// run, and the parts point at one another: it stays where it is made.
class LitesThroughDays {
 public:
  LitesThroughDays(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                   ChainCache::Store& store, MarchCare care = {});
  // Of strips that are there already, of those days.
  LitesThroughDays(const Case& pane, const GlazingState& state, std::vector<DayStrips> strips,
                   std::span<const DesignDay> days, ChainCache::Store& store);
  LitesThroughDays(const LitesThroughDays&) = delete;
  LitesThroughDays& operator=(const LitesThroughDays&) = delete;

  std::span<const DayStrips> strips() const { return strips_; }
  std::size_t lites() const { return maps_.size(); }
  const EdgeStressSolver& solver(std::size_t lite) const { return *maps_[lite].solver; }
  std::span<const LiteDay> days_of(std::size_t lite) const { return days_[lite]; }

 private:
  std::vector<DayStrips> strips_;
  std::vector<PaneMaps> maps_;
  std::vector<DayLight> light_;
  std::vector<std::vector<LiteDay>> days_;
};

// The highest share of the go line that a lite reaches on some of its days, 0 at the least; 0 of no days.
double highest_ratio(const LitesThroughDays& through, std::size_t lite, std::span<const LiteDay> days,
                     std::size_t steps_a_day, double go_pa);

}  // namespace sunstrain::internal
