// Up to eight days of one line, stepped together. Internal.
#pragma once

#include "edge_strip.hpp"

namespace sunstrain::internal {

// One step of every lane's day.
struct LaneState {
  CenterOf<Lanes> center;
  StripTemperatures<Lanes> strip;
};

// A lane that has no day of its own repeats the first. All days of the same number of steps.
class Marcher {
 public:
  Marcher(const StripRows& rows, std::span<const std::vector<StepLoads>> days, const Settled& settled);

  std::size_t steps() const { return days_.front().size(); }
  const StripTemperatures<Lanes>& strip() const { return states_[now_].strip; }

  // Glass as it stands at the given step, the frame (which may weigh a lot) at the day's mean.
  void start(std::size_t at_step);
  // Where other days of the same line stood before the given step, and before that.
  void start_from(std::span<const LineDay> before, std::size_t at_step);
  // After a change of step length the formula begins again with its one-step form.
  void restart() { first_ = true; }

  void step(std::size_t at_step, double step_s);
  // Writes the step just taken into the days that are still open, as their at_step'th.
  void record(std::size_t at_step, std::span<const bool> closed, std::span<LineDay> days) const;

 private:
  std::size_t day_of(std::size_t lane_index) const { return lane_index < days_.size() ? lane_index : 0; }
  LoadsOf<Lanes> loads_at(std::size_t at_step) const;

  const StripRows* rows_;
  std::span<const std::vector<StepLoads>> days_;
  Settled settled_;
  StripScratch<Lanes> scratch_;
  std::array<LaneState, 4> states_;  // now and the three before
  AuditOf<Lanes> audit_;             // of the step just taken
  std::size_t now_ = 0;
  bool first_ = true;
};

}  // namespace sunstrain::internal
