// Step by step through days, up to eight side by side.
#include <algorithm>
#include <array>
#include <stdexcept>

#include "marcher.hpp"

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

void check_shapes(const Line& line, std::span<const std::vector<StepLoads>> side_by_side, std::size_t lead_in,
                  double step_s) {
  for (const auto& one : side_by_side) {
    check_shapes(line, one, step_s);
    if (one.size() != side_by_side.front().size() || one.size() <= lead_in)
      throw std::invalid_argument("what is marched side by side needs equally many steps, more than the lead-in");
  }
}

constexpr int most_days = 12;

// Steps three times as long bring the state near the one that returns every midnight: from six in the evening on for
// light frames. How many are taken depends on the frame alone, so that a day comes out the same whatever days it is
// marched beside.
void approach_midnight(Marcher& marcher, const StripRows& rows, double step_s) {
  constexpr std::size_t stride = 3;
  constexpr int heavy_days = 6;
  const bool heavy = is_heavy(*rows.mesh.frame);
  const std::size_t steps = marcher.steps(), from = heavy ? 0 : steps - steps / 4;
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
  day.first_step = 0;
  day.depth_m = rows.mesh.depth_m;
  day.lites = rows.lites;
  day.cell_k.resize(steps * rows.rows);
  day.mean_k.resize(steps * rows.lites);
  day.face_difference_k.resize(steps * rows.lites);
  day.cavity_w_m2k.resize(steps * (rows.lites - 1));
  day.outdoor.resize(steps);
  day.room.resize(steps);
  day.frame_k.resize(steps);
  day.residual_w_m.resize(steps);
  day.exchanged_w_m.resize(steps);
}

// Marches up to eight days until each has closed; a day that has is not written again.
void march_until_closed(Marcher& marcher, double step_s, double closed_k, std::span<LineDay> results) {
  std::array<bool, lane_count> closed{};
  for (int pass = 0; pass < most_days; ++pass) {
    const StripTemperatures<Lanes> midnight = marcher.strip();
    for (std::size_t i = 0; i < marcher.steps(); ++i) {
      marcher.step(i, step_s);
      marcher.record(i, closed, results);
    }
    const auto difference_k = largest_differences_k(midnight, marcher.strip());
    bool all = true;
    for (std::size_t d = 0; d < results.size(); ++d) all = (closed[d] = closed[d] || difference_k[d] < closed_k) && all;
    if (all) break;
  }
}

// Once through; what the lead-in shows is not kept.
void march_once(Marcher& marcher, std::size_t lead_in, double step_s, std::span<LineDay> results) {
  constexpr std::array<bool, lane_count> open{};
  for (std::size_t i = 0; i < marcher.steps(); ++i) {
    marcher.step(i, step_s);
    if (i >= lead_in) marcher.record(i - lead_in, open, results);
  }
}

// Eight at a time: march(marcher, which is the first, their results).
template <class March>
void march_in_groups(const StripRows& rows, std::span<const std::vector<StepLoads>> all, std::size_t lead_in,
                     MarchCare care, March march, std::vector<LineDay>& into) {
  into.resize(all.size());
  for (LineDay& day : into) make_room(rows, all.front().size() - lead_in, day);
  for (std::size_t first = 0; first < all.size(); first += lane_count) {
    const std::size_t many = std::min(lane_count, all.size() - first);
    Marcher marcher(rows, all.subspan(first, many), settled_of(care));
    march(marcher, first, std::span(into).subspan(first, many));
  }
}

}  // namespace

void march_days(const Line& line, std::span<const std::vector<StepLoads>> days, double step_s,
                std::vector<LineDay>& into, MarchCare care) {
  check_shapes(line, days, 0, step_s);
  const StripRows rows(line, strip_mesh(line));
  const auto march = [&](Marcher& marcher, std::size_t, std::span<LineDay> results) {
    approach_midnight(marcher, rows, step_s);
    march_until_closed(marcher, step_s, care.closed_k, results);
  };
  march_in_groups(rows, days, 0, care, march, into);
}

void march_aside(const Line& line, std::span<const LineDay> days, std::span<const std::vector<StepLoads>> loads,
                 std::size_t first_step, double step_s, std::vector<LineDay>& into, MarchCare care) {
  if (days.size() != loads.size()) throw std::invalid_argument("every day needs its loads");
  check_shapes(line, loads, 0, step_s);
  const StripRows rows(line, strip_mesh(line));
  const auto march = [&](Marcher& marcher, std::size_t first, std::span<LineDay> results) {
    marcher.start_from(days.subspan(first, results.size()), first_step);
    march_once(marcher, 0, step_s, results);
  };
  march_in_groups(rows, loads, 0, care, march, into);
  for (LineDay& day : into) day.first_step = first_step;
}

void march_spans(const Line& line, std::span<const std::vector<StepLoads>> spans, std::size_t lead_in, double step_s,
                 std::vector<LineDay>& into) {
  check_shapes(line, spans, lead_in, step_s);
  const StripRows rows(line, strip_mesh(line));
  const auto march = [&](Marcher& marcher, std::size_t, std::span<LineDay> results) {
    marcher.start(0);
    march_once(marcher, lead_in, step_s, results);
  };
  march_in_groups(rows, spans, lead_in, {}, march, into);
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
