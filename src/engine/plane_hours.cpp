#include "plane_hours.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunstrain::internal {
namespace {

// Borders of the light along both directions.
struct Borders {
  std::vector<double> x_m, y_m;
};

// Steps of the design day before the first stress from which on its short steps are taken: an hour, after which little
// is left of what longer ones got wrong.
constexpr std::size_t short_before = 6;

// A diagonal lies everywhere: a border every so often, and cells twice as long as beside one that is known.
constexpr double diagonal_every_m = 0.03, diagonal_cell_m = 0.015;

void add_borders(const LitArea& lit, double width_m, double height_m, Borders& borders) {
  const auto add = [](double at_m, double end_m, std::vector<double>& into) {
    if (at_m > 0.0 && at_m < end_m) into.push_back(at_m);
  };
  for (double x_m : {lit.left_m, lit.right_m}) add(x_m, width_m, borders.x_m);
  for (double y_m : {lit.bottom_m, lit.top_m}) add(y_m, height_m, borders.y_m);
  if (!lit.diagonal) return;
  for (double x_m = 0.0; x_m < width_m; x_m += diagonal_every_m) borders.x_m.push_back(x_m);
  for (double y_m = 0.0; y_m < height_m; y_m += diagonal_every_m) borders.y_m.push_back(y_m);
}

// The moments of the finer day, the light and the loads that go with each.
class Moments {
 public:
  Moments(const Case& pane, const GlazingState& state, const DesignDay& day, int times, const Reference& reference)
      : pane_(&pane),
        fine_(in_finer_steps(pane, day, times, reference)),
        table_(state, pane.room.back_reflectance()),
        times_(static_cast<std::size_t>(times)) {}
  std::size_t in_a_step() const { return times_; }
  std::size_t at_middle_of(std::size_t step) const { return step * times_ + times_ / 2; }
  double step_s() const { return fine_.step_s; }
  Light light(std::size_t moment) const {
    const DayStep& step = fine_.steps[moment];
    return light_of(pane_->shadow.in_month(step.month), pane_->width_m, pane_->height_m, pane_->edge.bite_m,
                    step.slope);
  }
  StepLoads loads(std::size_t moment, double beam_on_glass) const {
    return step_loads(*pane_, table_, fine_.steps[moment], fine_.kind, beam_on_glass);
  }

 private:
  const Case* pane_;
  DesignDay fine_;
  AbsorptionTable table_;
  std::size_t times_;
};

// No field of it is taken to mirror itself.
EdgeStressSolver solver_of(const Case& pane, double width_m, double height_m, double softness_m) {
  FieldFeatures features = field_features(width_m, height_m, pane.edge.bite_m, pane.shadow, softness_m);
  features.mirrored_in_x = false;
  return {width_m, height_m, features, pane.elasticity};
}

// Fine where a border lies while the stress is wanted.
PlaneGrid grid_for(const Line& line, const Moments& moments, double width_m, double height_m, const PlaneSpan& span,
                   PlaneFineness fineness) {
  Borders borders;
  for (std::size_t step = span.first; step <= span.last; ++step) {
    for (const LightPart& part : moments.light(moments.at_middle_of(step)).parts) {
      if (part.lit.diagonal) fineness.border_m = std::max(fineness.border_m, diagonal_cell_m);
      add_borders(part.lit, width_m, height_m, borders);
    }
  }
  return plane_grid(line, width_m, height_m, borders.x_m, borders.y_m, fineness);
}

}  // namespace

const PlanePeak& PlanePeaks::highest() const {
  return *std::max_element(steps.begin(), steps.end(),
                           [](const PlanePeak& a, const PlanePeak& b) { return a.edge.stress_pa < b.edge.stress_pa; });
}

PlanePeaks plane_peaks(const Case& pane, const GlazingState& state, const DesignDay& day, const DayStrips& strips,
                       std::size_t lite, const PlaneSpan& span, const Reference& reference,
                       const PlaneResolution& resolution) {
  const double width_m = pane.width_m + 2 * pane.edge.bite_m, height_m = pane.height_m + 2 * pane.edge.bite_m;
  const Moments moments(pane, state, day, resolution.steps_in_ten_minutes, reference);
  const Line line{state.thermal, pane.edge, pane.room.shade, pane.air};
  const PlaneGrid grid = grid_for(line, moments, width_m, height_m, span, resolution.fineness);
  const double softness_m = blur_m(state, {&strips, 1}, day.steps.size(), lite);
  const EdgeStressSolver solver = solver_of(pane, width_m, height_m, softness_m);
  const PlaneStress stress(solver, grid);
  const ColderBottom bottom{pane.bottom_is_colder(lite) ? pane.bottom_edge_colder_k : 0.0, pane.edge.bite_m,
                            softness_m};

  PlaneMarch march(line, grid);
  const LineDay& shade = strips.shaded != nullptr && strips.shaded->tells_of(span.start) ? *strips.shaded : *strips.lit;
  std::size_t moment = moments.at_middle_of(span.start);
  march.start(*strips.lit, shade, span.start, light_on_cells(grid, moments.light(moment)));
  PlanePeaks peaks;
  for (std::size_t step = span.start; step <= span.last; ++step) {
    const std::size_t stride = step + short_before <= span.first ? moments.in_a_step() : 1;
    while (moment < moments.at_middle_of(step)) {
      moment += stride;
      march.step(moments.loads(moment, 1.0), moments.loads(moment, 0.0), light_on_cells(grid, moments.light(moment)),
                 moments.step_s() * static_cast<double>(stride));
      peaks.worst_residual_share =
          std::max(peaks.worst_residual_share, std::abs(march.residual_w()) / march.exchanged_w());
    }
    if (step < span.first) continue;
    const EdgeStress edge = stress.of(march.lite_k(lite), bottom);
    peaks.steps.push_back({step, {edge.peak_pa, edge.peak_side, edge.peak_position_m}});
  }
  return peaks;
}

}  // namespace sunstrain::internal
