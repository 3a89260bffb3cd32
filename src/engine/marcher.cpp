// A step of several days side by side: the middle settles first, then the strip with the same exchanges.
#include "marcher.hpp"

#include <algorithm>
#include <array>

namespace sunstrain::internal {
namespace {

StepLoads mean_loads(std::span<const StepLoads> loads) {
  StepLoads mean = loads.front();
  const double share = 1.0 / static_cast<double>(loads.size());
  mean.outdoor_air_k = mean.sky_k = mean.room_air_k = mean.room_radiant_k = mean.shade_absorbed_w_m2 =
      mean.frame_absorbed_w_m2 = mean.rim_less_w_m2 = 0.0;
  for (FaceSources& s : mean.absorbed) s = {0.0, 0.0, 0.0};
  for (const StepLoads& step : loads) {
    mean.outdoor_air_k += share * step.outdoor_air_k;
    mean.sky_k += share * step.sky_k;
    mean.room_air_k += share * step.room_air_k;
    mean.room_radiant_k += share * step.room_radiant_k;
    mean.shade_absorbed_w_m2 += share * step.shade_absorbed_w_m2;
    mean.frame_absorbed_w_m2 += share * step.frame_absorbed_w_m2;
    mean.rim_less_w_m2 += share * step.rim_less_w_m2;
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

// `one`, `two` and `three` are the states before, before that, and before that.
struct LaneStep {
  const StripRows* rows;
  const LoadsOf<Lanes>* loads;
  Backward formula;
  const LaneState *one, *two, *three;
  Settled settled;
  StripScratch<Lanes>* scratch;
};

SUNSTRAIN_WIDE_CLONES
void take_step(const LaneStep& step, LaneState& now, AuditOf<Lanes>& audit) {
  const Line& line = *step.rows->line;
  CenterHistory<Lanes> stored;
  stored.weight_per_s = step.formula.weight_per_s;
  for (std::size_t j = 0; j < step.rows->lites; ++j) {
    stored.history_k_per_s[j] =
        step.formula.one_back * step.one->center.mean_k[j] - step.formula.two_back * step.two->center.mean_k[j];
    for (std::size_t side = 0; side < 2; ++side)  // to begin with, on as it went
      now.center.face_k[j][side] = 3.0 * (step.one->center.face_k[j][side] - step.two->center.face_k[j][side]) +
                                   step.three->center.face_k[j][side];
  }
  now.center.blind = step.one->center.blind;
  settle_center<Lanes>(line.glazing, *step.loads, line.shade, line.air, stored, step.settled, now.center);
  const StripHistory<Lanes> past{step.formula.weight_per_s, step.formula.one_back, step.formula.two_back,
                                 &step.one->strip, &step.two->strip};
  audit = solve_strip<Lanes>(*step.rows, *step.loads, now.center, past, *step.scratch, now.strip);
}

SUNSTRAIN_WIDE_CLONES
void take_steady(const StripRows& rows, const LoadsOf<Lanes>& loads, const Settled& settled,
                 StripScratch<Lanes>& scratch, LaneState& now) {
  const Line& line = *rows.line;
  first_guess(line.glazing, loads, now.center);
  settle_center<Lanes>(line.glazing, loads, line.shade, line.air, {}, settled, now.center);
  solve_strip<Lanes>(rows, loads, now.center, {}, scratch, now.strip);
}

LoadsOf<Lanes> side_by_side(std::span<const StepLoads* const> of_lanes) {
  LoadsOf<Lanes> loads{};
  for (std::size_t i = 0; i < lane_count; ++i) put_loads(*of_lanes[i], i, loads);
  return loads;
}

}  // namespace

Marcher::Marcher(const StripRows& rows, std::span<const std::vector<StepLoads>> days, const Settled& settled)
    : rows_(&rows), days_(days), settled_(settled), scratch_(scratch_for<Lanes>(rows)) {
  for (LaneState& state : states_) {
    state.center = CenterOf<Lanes>{};
    state.strip.row_k.resize(rows.rows);
  }
}

void Marcher::start(std::size_t at_step) {
  std::vector<StepLoads> means;
  std::array<const StepLoads*, lane_count> of_lanes;
  for (const auto& day : days_) means.push_back(mean_loads(day));
  for (std::size_t i = 0; i < lane_count; ++i) of_lanes[i] = &means[day_of(i)];
  take_steady(*rows_, side_by_side(of_lanes), settled_, scratch_, states_[1]);
  take_steady(*rows_, loads_at(at_step), settled_, scratch_, states_[0]);
  std::copy_n(states_[1].strip.frame_k, 4, states_[0].strip.frame_k);
  states_[0].strip.held_j_m = sum_rows<Lanes>(*rows_, states_[0].strip).held_j_m;
  states_[3] = states_[2] = states_[1] = states_[0];
  now_ = 0;
  first_ = true;
}

void Marcher::start_from(std::span<const LineDay> before, std::size_t at_step) {
  const std::size_t n = rows_->lites;
  for (std::size_t back : {0u, 1u, 2u}) {
    LaneState& state = states_[(4 - back) % 4];
    for (std::size_t i = 0; i < lane_count; ++i) {
      const LineDay& day = before[day_of(i)];
      const std::size_t step = (at_step + day.steps() - 1 - back) % day.steps();
      for (std::size_t lite = 0; lite < n; ++lite) {
        const auto strip_k = day.strip(step, lite);
        for (std::size_t cell = 0; cell < rows_->cells; ++cell)
          state.strip.row_k[row_of(*rows_, lite, cell)].set(i, strip_k[cell]);
        state.center.mean_k[lite].set(i, day.mean_k[step * n + lite]);
      }
      for (std::size_t k = 0; k < 4; ++k) state.strip.frame_k[k].set(i, day.frame_k[step][k]);
    }
    for (std::size_t lite = 0; lite < n; ++lite)  // what the middle's balance begins from: it settles by itself
      state.center.face_k[lite][0] = state.center.face_k[lite][1] = state.center.mean_k[lite];
    state.center.blind = BlindGuessOf<Lanes>{};
    state.strip.held_j_m = sum_rows<Lanes>(*rows_, state.strip).held_j_m;
  }
  now_ = 0;
  first_ = false;
}

void Marcher::step(std::size_t at_step, double step_s) {
  const LoadsOf<Lanes> loads = loads_at(at_step);
  const auto back = [&](std::size_t steps) { return &states_[first_ ? now_ : (now_ + 4 - steps) % 4]; };
  LaneState& next = states_[(now_ + 1) % 4];
  take_step({rows_, &loads, backward_formula(step_s, first_), back(0), back(1), back(2), settled_, &scratch_}, next,
            audit_);
  first_ = false;
  now_ = (now_ + 1) % 4;
}

void Marcher::record(std::size_t at_step, std::span<const bool> closed, std::span<LineDay> days) const {
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
    for (std::size_t j = 0; j < n; ++j) {
      day.mean_k[at_step * n + j] = state.center.mean_k[j][d];
      day.face_difference_k[at_step * n + j] = state.center.face_k[j][0][d] - state.center.face_k[j][1][d];
    }
    for (std::size_t k = 0; k + 1 < n; ++k) day.cavity_w_m2k[at_step * (n - 1) + k] = state.center.cavity_w_m2k[k][d];
    day.outdoor[at_step] = exchange(state.center.outdoor, d);
    day.room[at_step] = exchange(state.center.room, d);
    for (std::size_t k = 0; k < 4; ++k) day.frame_k[at_step][k] = state.strip.frame_k[k][d];
    day.residual_w_m[at_step] = audit_.residual_w_m[d];
    day.exchanged_w_m[at_step] = audit_.exchanged_w_m[d];
  }
}

LoadsOf<Lanes> Marcher::loads_at(std::size_t at_step) const {
  std::array<const StepLoads*, lane_count> of_lanes;
  for (std::size_t i = 0; i < lane_count; ++i) of_lanes[i] = &days_[day_of(i)][at_step];
  return side_by_side(of_lanes);
}

}  // namespace sunstrain::internal
