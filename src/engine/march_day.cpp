// Step by step through a day: the middle settles first, then the strip with the same exchanges.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "edge_strip.hpp"

namespace sunstrain {
namespace {

using internal::StripSolver;
using internal::StripState;

// Everything that carries from one step to the next.
struct Carried {
  std::vector<double> center_k;
  StripState strip;
};

void check_shapes(const Line& line, std::span<const StepLoads> loads, double step_s) {
  const std::size_t n = line.glazing.lites.size();
  if (n < 1 || n > internal::most_lites || line.glazing.cavities.size() + 1 != n) {
    throw std::invalid_argument("a glazing needs one to eight lites and one cavity fewer");
  }
  if (loads.empty() || !(step_s > 0.0)) throw std::invalid_argument("a day needs steps of a positive length");
  for (const StepLoads& step : loads) {
    if (step.absorbed.size() != n) throw std::invalid_argument("every step needs the absorbed sun of every lite");
  }
}

StepLoads mean_loads(std::span<const StepLoads> loads) {
  StepLoads mean = loads.front();
  const double share = 1.0 / static_cast<double>(loads.size());
  mean.outdoor_air_k = mean.sky_k = mean.room_air_k = mean.room_radiant_k = mean.shade_absorbed_w_m2 =
      mean.frame_absorbed_w_m2 = 0.0;
  for (FaceSources& s : mean.absorbed) s = {0.0, 0.0, 0.0};
  for (const StepLoads& step : loads) {
    mean.outdoor_air_k += share * step.outdoor_air_k;
    mean.sky_k += share * step.sky_k;
    mean.room_air_k += share * step.room_air_k;
    mean.room_radiant_k += share * step.room_radiant_k;
    mean.shade_absorbed_w_m2 += share * step.shade_absorbed_w_m2;
    mean.frame_absorbed_w_m2 += share * step.frame_absorbed_w_m2;
    for (std::size_t j = 0; j < mean.absorbed.size(); ++j) {
      mean.absorbed[j].outer_face_w_m2 += share * step.absorbed[j].outer_face_w_m2;
      mean.absorbed[j].bulk_w_m2 += share * step.absorbed[j].bulk_w_m2;
      mean.absorbed[j].inner_face_w_m2 += share * step.absorbed[j].inner_face_w_m2;
    }
  }
  return mean;
}

// Glass as it stands at the end of the night, the frame (which may weigh a lot) at the day's mean.
Carried starting_state(const Line& line, std::span<const StepLoads> loads, StripSolver& solver, CenterBalance& center) {
  Carried start;
  center = steady_center(line.glazing, loads.back(), line.shade, line.air);
  solver.solve(loads.back(), center, {}, start.strip);
  start.center_k = center.mean_k;
  const StepLoads mean = mean_loads(loads);
  StripState frame_at_mean;
  solver.solve(mean, steady_center(line.glazing, mean, line.shade, line.air), {}, frame_at_mean);
  start.strip.frame_k = frame_at_mean.frame_k;
  return start;
}

// BDF2: dT/dt = (3 T - 4 T1 + T2)/(2 dt); the very first step is the one-step formula.
struct Backward {
  double weight_per_s, one_back, two_back;
};
Backward backward_formula(double step_s, bool first) {
  return first ? Backward{1.0 / step_s, 1.0 / step_s, 0.0} : Backward{1.5 / step_s, 2.0 / step_s, -0.5 / step_s};
}

template <class Range>
void combine(const Backward& formula, const Range& one, const Range& two, Range& history) {
  for (std::size_t i = 0; i < one.size(); ++i) history[i] = formula.one_back * one[i] + formula.two_back * two[i];
}

double largest_difference_k(const StripState& a, const StripState& b) {
  double largest = 0.0;
  for (std::size_t i = 0; i < a.cell_k.size(); ++i) largest = std::max(largest, std::abs(a.cell_k[i] - b.cell_k[i]));
  for (std::size_t i = 0; i < 4; ++i) largest = std::max(largest, std::abs(a.frame_k[i] - b.frame_k[i]));
  return largest;
}

// Marches a line step by step; holds the two last states and whatever the steps need.
class Marcher {
 public:
  Marcher(const Line& line, std::span<const StepLoads> loads)
      : line_(&line), solver_(line, internal::strip_mesh(line)), one_(starting_state(line, loads, solver_, center_)) {
    two_ = one_;
    center_history_.history_k_per_s.resize(one_.center_k.size());
    cell_history_.resize(one_.strip.cell_k.size());
  }
  const StripSolver& solver() const { return solver_; }
  const StripState& state() const { return one_.strip; }
  const CenterBalance& center() const { return center_; }
  // After a change of step length the formula begins again with its one-step form.
  void restart() { first_ = true; }

  internal::StripAudit step(const StepLoads& loads, double step_s) {
    const Backward formula = backward_formula(step_s, first_);
    first_ = false;
    center_history_.weight_per_s = formula.weight_per_s;
    combine(formula, one_.center_k, two_.center_k, center_history_.history_k_per_s);
    combine(formula, one_.strip.cell_k, two_.strip.cell_k, cell_history_);
    combine(formula, one_.strip.frame_k, two_.strip.frame_k, frame_history_);
    internal::settle_center(line_->glazing, loads, line_->shade, line_->air, center_history_, center_);
    std::swap(one_, two_);  // `one_` now holds the oldest state and is overwritten
    one_.center_k = center_.mean_k;
    return solver_.solve(loads, center_, {formula.weight_per_s, &cell_history_, &frame_history_}, one_.strip);
  }

 private:
  const Line* line_;
  StripSolver solver_;
  CenterBalance center_;
  Carried one_, two_;
  internal::Storage center_history_{};
  std::vector<double> cell_history_;
  std::array<double, 4> frame_history_{};
  bool first_ = true;
};

constexpr double closed_k = 0.05;  // at midnight, in 0.03 MPa
constexpr int most_days = 12;

// Days in steps three times as long bring the state near the one that returns every midnight. Light frames forget
// their start within the day (lags under an hour, see theory.md), so one such day is enough for them.
void approach_midnight(Marcher& marcher, const Line& line, std::span<const StepLoads> loads, double step_s) {
  constexpr std::size_t stride = 3;
  constexpr double heavy_j_mk = 20e3;
  const FrameFit& frame = line.edge.sealed ? line.edge.frame.sealed : line.edge.frame.single;
  double held = 0.0;
  for (double capacity : frame.capacity_j_mk) held += capacity;
  for (int pass = 0; pass < most_days; ++pass) {
    const StripState midnight = marcher.state();
    for (std::size_t i = stride - 1; i < loads.size(); i += stride) marcher.step(loads[i], step_s * stride);
    if (held < heavy_j_mk || largest_difference_k(midnight, marcher.state()) < closed_k) break;
  }
  marcher.restart();
}

}  // namespace

LineDay march_day(const Line& line, std::span<const StepLoads> loads, double step_s) {
  check_shapes(line, loads, step_s);
  Marcher marcher(line, loads);
  LineDay day{marcher.solver().mesh().depth_m, std::vector<LineStep>(loads.size())};
  approach_midnight(marcher, line, loads, step_s);
  for (int pass = 0; pass < most_days; ++pass) {
    const StripState midnight = marcher.state();
    for (std::size_t i = 0; i < loads.size(); ++i) {
      const internal::StripAudit audit = marcher.step(loads[i], step_s);
      LineStep& kept = day.steps[i];  // member by member: a later pass reuses the storage of the one before
      kept.center = marcher.center();
      kept.cell_k = marcher.state().cell_k;
      kept.frame_k = marcher.state().frame_k;
      kept.residual_w_m = audit.residual_w_m;
      kept.exchanged_w_m = audit.exchanged_w_m;
    }
    if (largest_difference_k(midnight, marcher.state()) < closed_k) break;
  }
  return day;
}

LineStep steady_line(const Line& line, const StepLoads& loads, std::vector<double>& depth_m) {
  check_shapes(line, {&loads, 1}, 1.0);
  StripSolver solver(line, internal::strip_mesh(line));
  depth_m = solver.mesh().depth_m;
  const CenterBalance center = steady_center(line.glazing, loads, line.shade, line.air);
  StripState state;
  const internal::StripAudit audit = solver.solve(loads, center, {}, state);
  return {center, state.cell_k, state.frame_k, audit.residual_w_m, audit.exchanged_w_m};
}

}  // namespace sunstrain
