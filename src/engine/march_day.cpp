// Step by step through a day, several days side by side: the middle settles first, then the strip with the same
// exchanges.
#include <algorithm>
#include <array>
#include <stdexcept>

#include "edge_strip.hpp"

namespace sunstrain {
namespace {

using namespace internal;

void check_shapes(const Line& line, std::span<const StepLoads> loads, double step_s) {
  const std::size_t n = line.glazing.lites.size();
  if (n < 1 || n > most_lites || line.glazing.cavities.size() + 1 != n) {
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

// BDF2: dT/dt = (3 T - 4 T1 + T2)/(2 dt); the very first step is the one-step formula.
struct Backward {
  double weight_per_s, one_back, two_back;
};
Backward backward_formula(double step_s, bool first) {
  return first ? Backward{1.0 / step_s, 1.0 / step_s, 0.0} : Backward{1.5 / step_s, 2.0 / step_s, 0.5 / step_s};
}

// One step of every lane's day: `one` and `two` are the states before and before that.
struct LaneState {
  CenterOf<Lanes> center;
  StripTemperatures<Lanes> strip;
};
struct LaneStep {
  const StripRows* rows;
  const LoadsOf<Lanes>* loads;
  Backward formula;
  const LaneState *one, *two;
  StripScratch<Lanes>* scratch;
};

// In a round the middle's faces close in on their end by a factor of four and more, so this leaves 0.0001 K.
constexpr double settled_k = 5e-4;

SUNSTRAIN_WIDE_CLONES
void take_step(const LaneStep& step, LaneState& now, AuditOf<Lanes>& audit) {
  const Line& line = *step.rows->line;
  CenterHistory<Lanes> stored;
  stored.weight_per_s = step.formula.weight_per_s;
  for (std::size_t j = 0; j < step.rows->lites; ++j) {
    stored.history_k_per_s[j] =
        step.formula.one_back * step.one->center.mean_k[j] - step.formula.two_back * step.two->center.mean_k[j];
    for (std::size_t side = 0; side < 2; ++side)  // to begin with, on as it went
      now.center.face_k[j][side] = 2.0 * step.one->center.face_k[j][side] - step.two->center.face_k[j][side];
  }
  settle_center<Lanes>(line.glazing, *step.loads, line.shade, line.air, stored, settled_k, now.center);
  const StripHistory<Lanes> past{step.formula.weight_per_s, step.formula.one_back, step.formula.two_back,
                                 &step.one->strip, &step.two->strip};
  audit = solve_strip<Lanes>(*step.rows, *step.loads, now.center, past, *step.scratch, now.strip);
}

SUNSTRAIN_WIDE_CLONES
void take_steady(const StripRows& rows, const LoadsOf<Lanes>& loads, StripScratch<Lanes>& scratch, LaneState& now) {
  const Line& line = *rows.line;
  first_guess(line.glazing, loads, now.center);
  settle_center<Lanes>(line.glazing, loads, line.shade, line.air, {}, settled_k, now.center);
  solve_strip<Lanes>(rows, loads, now.center, {}, scratch, now.strip);
}

LoadsOf<Lanes> side_by_side(std::span<const StepLoads* const> of_lanes) {
  LoadsOf<Lanes> loads{};
  for (std::size_t i = 0; i < lane_count; ++i) put_loads(*of_lanes[i], i, loads);
  return loads;
}

// Up to eight days of one line, stepped together. A lane that has no day of its own repeats the first.
class Marcher {
 public:
  Marcher(const StripRows& rows, std::span<const std::vector<StepLoads>> days)
      : rows_(&rows), days_(days), scratch_(scratch_for<Lanes>(rows)) {
    for (LaneState& state : states_) {
      state.center = CenterOf<Lanes>{};
      state.strip.row_k.resize(rows.rows);
    }
  }

  std::size_t steps() const { return days_.front().size(); }
  const StripTemperatures<Lanes>& strip() const { return states_[now_].strip; }

  // Glass as it stands at the given step, the frame (which may weigh a lot) at the day's mean.
  void start(std::size_t at_step) {
    std::vector<StepLoads> means;
    std::array<const StepLoads*, lane_count> of_lanes;
    for (const auto& day : days_) means.push_back(mean_loads(day));
    for (std::size_t i = 0; i < lane_count; ++i) of_lanes[i] = &means[day_of(i)];
    take_steady(*rows_, side_by_side(of_lanes), scratch_, states_[1]);
    take_steady(*rows_, loads_at(at_step), scratch_, states_[0]);
    std::copy_n(states_[1].strip.frame_k, 4, states_[0].strip.frame_k);
    states_[0].strip.held_j_m = sum_rows<Lanes>(*rows_, states_[0].strip).held_j_m;
    states_[1] = states_[0];
    now_ = 0;
    first_ = true;
  }
  // After a change of step length the formula begins again with its one-step form.
  void restart() { first_ = true; }

  AuditOf<Lanes> step(std::size_t at_step, double step_s) {
    const LoadsOf<Lanes> loads = loads_at(at_step);
    const std::size_t two = (now_ + 2) % 3, next = (now_ + 1) % 3;
    const LaneState& before = first_ ? states_[now_] : states_[two];
    AuditOf<Lanes> audit;
    take_step({rows_, &loads, backward_formula(step_s, first_), &states_[now_], &before, &scratch_}, states_[next],
              audit);
    first_ = false;
    now_ = next;
    return audit;
  }

  // Writes the step just taken into the days that are still open.
  void record(std::size_t at_step, const AuditOf<Lanes>& audit, std::span<const bool> closed,
              std::span<LineDay> days) const {
    const LaneState& state = states_[now_];
    const std::size_t n = rows_->lites;
    const auto exchange = [](const ExchangeOf<Lanes>& e, std::size_t d) {
      return Exchange{e.conductance_w_m2k[d], e.temperature_k[d]};
    };
    for (std::size_t d = 0; d < days.size(); ++d) {
      if (closed[d]) continue;
      LineDay& day = days[d];
      double* cells = &day.cell_k[at_step * rows_->rows];
      const auto step_back = static_cast<std::ptrdiff_t>(lane_count * n);
      for (std::size_t lite = 0; lite < n; ++lite) {
        const double* from = values_of(state.strip.row_k[row_of(*rows_, lite, 0)]) + d;
        for (std::size_t cell = 0; cell < rows_->cells; ++cell, from -= step_back) *cells++ = *from;
      }
      for (std::size_t j = 0; j < n; ++j) day.mean_k[at_step * n + j] = state.center.mean_k[j][d];
      for (std::size_t k = 0; k + 1 < n; ++k) day.cavity_w_m2k[at_step * (n - 1) + k] = state.center.cavity_w_m2k[k][d];
      day.outdoor[at_step] = exchange(state.center.outdoor, d);
      day.room[at_step] = exchange(state.center.room, d);
      for (std::size_t k = 0; k < 4; ++k) day.frame_k[at_step][k] = state.strip.frame_k[k][d];
      day.residual_w_m[at_step] = audit.residual_w_m[d];
      day.exchanged_w_m[at_step] = audit.exchanged_w_m[d];
    }
  }

 private:
  std::size_t day_of(std::size_t lane_index) const { return lane_index < days_.size() ? lane_index : 0; }
  LoadsOf<Lanes> loads_at(std::size_t at_step) const {
    std::array<const StepLoads*, lane_count> of_lanes;
    for (std::size_t i = 0; i < lane_count; ++i) of_lanes[i] = &days_[day_of(i)][at_step];
    return side_by_side(of_lanes);
  }

  const StripRows* rows_;
  std::span<const std::vector<StepLoads>> days_;
  StripScratch<Lanes> scratch_;
  std::array<LaneState, 3> states_;
  std::size_t now_ = 0;
  bool first_ = true;
};

constexpr double closed_k = 0.05;  // at midnight, in 0.03 MPa
constexpr int most_days = 12;

// Steps three times as long bring the state near the one that returns every midnight: from noon on for light frames.
// How many are taken depends on the frame alone, so that a day comes out the same whatever days it is marched beside.
void approach_midnight(Marcher& marcher, const StripRows& rows, double step_s) {
  constexpr std::size_t stride = 3;
  constexpr int heavy_days = 6;
  const bool heavy = is_heavy(*rows.mesh.frame);
  const std::size_t steps = marcher.steps(), from = heavy ? 0 : steps / 2;
  marcher.start(from > 0 ? from - 1 : steps - 1);
  for (int day = 0; day < (heavy ? heavy_days : 1); ++day)
    for (std::size_t i = from + stride - 1; i < steps; i += stride) marcher.step(i, step_s * stride);
  marcher.restart();
}

std::array<double, lane_count> largest_differences_k(const StripTemperatures<Lanes>& a,
                                                     const StripTemperatures<Lanes>& b) {
  Lanes largest{};
  for (std::size_t i = 0; i < a.row_k.size(); ++i) largest = larger(largest, size_of(a.row_k[i] - b.row_k[i]));
  for (std::size_t i = 0; i < 4; ++i) largest = larger(largest, size_of(a.frame_k[i] - b.frame_k[i]));
  std::array<double, lane_count> each_lane;
  for (std::size_t i = 0; i < lane_count; ++i) each_lane[i] = largest[i];
  return each_lane;
}

void make_room(const StripRows& rows, std::size_t steps, LineDay& day) {
  day.depth_m = rows.mesh.depth_m;
  day.lites = rows.lites;
  day.cell_k.resize(steps * rows.rows);
  day.mean_k.resize(steps * rows.lites);
  day.cavity_w_m2k.resize(steps * (rows.lites - 1));
  day.outdoor.resize(steps);
  day.room.resize(steps);
  day.frame_k.resize(steps);
  day.residual_w_m.resize(steps);
  day.exchanged_w_m.resize(steps);
}

// Marches up to eight days until each has closed; a day that has is not written again.
void march_group(const StripRows& rows, std::span<const std::vector<StepLoads>> days, std::size_t, double step_s,
                 std::span<LineDay> results) {
  Marcher marcher(rows, days);
  approach_midnight(marcher, rows, step_s);
  std::array<bool, lane_count> closed{};
  for (int pass = 0; pass < most_days; ++pass) {
    const StripTemperatures<Lanes> midnight = marcher.strip();
    for (std::size_t i = 0; i < marcher.steps(); ++i) {
      const AuditOf<Lanes> audit = marcher.step(i, step_s);
      marcher.record(i, audit, closed, results);
    }
    const auto difference_k = largest_differences_k(midnight, marcher.strip());
    bool all = true;
    for (std::size_t d = 0; d < days.size(); ++d) all = (closed[d] = closed[d] || difference_k[d] < closed_k) && all;
    if (all) break;
  }
}

// Marches up to eight spans once through, each from a steady start; what the lead-in shows is not kept.
void march_span_group(const StripRows& rows, std::span<const std::vector<StepLoads>> spans, std::size_t lead_in,
                      double step_s, std::span<LineDay> results) {
  constexpr std::array<bool, lane_count> open{};
  Marcher marcher(rows, spans);
  marcher.start(0);
  for (std::size_t i = 0; i < marcher.steps(); ++i) {
    const AuditOf<Lanes> audit = marcher.step(i, step_s);
    if (i >= lead_in) marcher.record(i - lead_in, audit, open, results);
  }
}

using MarchGroup = void (*)(const StripRows&, std::span<const std::vector<StepLoads>>, std::size_t, double,
                            std::span<LineDay>);

void march_in_groups(const Line& line, std::span<const std::vector<StepLoads>> all, std::size_t lead_in, double step_s,
                     MarchGroup march, std::vector<LineDay>& into) {
  for (const auto& one : all) {
    check_shapes(line, one, step_s);
    if (one.size() != all.front().size() || one.size() <= lead_in)
      throw std::invalid_argument("what is marched side by side needs equally many steps, more than the lead-in");
  }
  const StripRows rows(line, strip_mesh(line));
  into.resize(all.size());
  for (LineDay& day : into) make_room(rows, all.front().size() - lead_in, day);
  for (std::size_t first = 0; first < all.size(); first += lane_count) {
    const std::size_t many = std::min(lane_count, all.size() - first);
    march(rows, all.subspan(first, many), lead_in, step_s, std::span(into).subspan(first, many));
  }
}

}  // namespace

void march_days(const Line& line, std::span<const std::vector<StepLoads>> days, double step_s,
                std::vector<LineDay>& into) {
  march_in_groups(line, days, 0, step_s, march_group, into);
}

void march_spans(const Line& line, std::span<const std::vector<StepLoads>> spans, std::size_t lead_in, double step_s,
                 std::vector<LineDay>& into) {
  march_in_groups(line, spans, lead_in, step_s, march_span_group, into);
}

LineDay march_day(const Line& line, std::span<const StepLoads> loads, double step_s) {
  const std::vector<StepLoads> day(loads.begin(), loads.end());
  std::vector<LineDay> days;
  march_days(line, {&day, 1}, step_s, days);
  return std::move(days.front());
}

LineStep steady_line(const Line& line, const StepLoads& loads, std::vector<double>& depth_m) {
  check_shapes(line, {&loads, 1}, 1.0);
  StripSolver solver(line, strip_mesh(line));
  depth_m = solver.mesh().depth_m;
  const CenterBalance center = steady_center(line.glazing, loads, line.shade, line.air);
  StripState state;
  const StripAudit audit = solver.solve(loads, center, state);
  return {center, state.cell_k, state.frame_k, audit.residual_w_m, audit.exchanged_w_m};
}

}  // namespace sunstrain
