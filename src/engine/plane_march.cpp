// A plane step by step: the middles of glass in the sun and in the shade settle first, then all cells with their
// exchanges.
#include <algorithm>
#include <stdexcept>

#include "plane_step.hpp"

namespace sunstrain {

using namespace internal;

namespace {

// Half a kelvin's thousandth in a round, as the strips' middles settle.
constexpr Settled settled = settled_of({});

// The middle of glass under one light, and where it stood the step before.
struct Column {
  CenterOf<double> now, before;
};

CenterOf<double> middle_of(const LineDay& day, std::size_t step) {
  CenterOf<double> center{};
  for (std::size_t lite = 0; lite < day.lites; ++lite) {
    center.mean_k[lite] = day.mean_k[(step - day.first_step) * day.lites + lite];
    center.face_k[lite][0] = center.face_k[lite][1] = center.mean_k[lite];
  }
  return center;
}

// Of a strip at a depth: straight between its cells' middles.
double at_depth(std::span<const double> depth_m, std::span<const double> strip_k, double at_m) {
  const auto above = static_cast<std::size_t>(std::lower_bound(depth_m.begin(), depth_m.end(), at_m) - depth_m.begin());
  if (above == 0) return strip_k.front();
  if (above == depth_m.size()) return strip_k.back();
  return strip_k[above - 1] +
         (at_m - depth_m[above - 1]) / (depth_m[above] - depth_m[above - 1]) * (strip_k[above] - strip_k[above - 1]);
}

double middle(const std::vector<double>& edges, std::size_t cell) { return 0.5 * (edges[cell] + edges[cell + 1]); }

}  // namespace

struct PlaneMarch::Impl {
  Impl(const Line& line, const PlaneGrid& grid) : sheet(line, grid), stepper(sheet) {}

  void settle(const StepLoads& loads, const PlaneStep& formula, Column& column, PlaneLight& light) {
    light.loads = loads_of(loads);
    CenterHistory<double> stored;
    stored.weight_per_s = formula.weight_per_s;
    for (std::size_t lite = 0; lite < sheet.lites(); ++lite)
      stored.history_k_per_s[lite] =
          formula.one_per_s * column.now.mean_k[lite] - formula.two_per_s * column.before.mean_k[lite];
    light.center = column.now;
    const Line& line = sheet.line;
    settle_center<double>(line.glazing, light.loads, line.shade, line.air, stored, settled, light.center);
    column = {light.center, column.now};
  }

  PlaneSheet sheet;
  PlaneStepper stepper;
  Column sun{}, shade{};
  PlaneState now, before, next;
  double last_step_s = 0.0;
  PlaneAudit audit{};
};

PlaneMarch::PlaneMarch(const Line& line, const PlaneGrid& grid) : impl_(std::make_unique<Impl>(line, grid)) {}
PlaneMarch::~PlaneMarch() = default;
PlaneMarch::PlaneMarch(PlaneMarch&&) noexcept = default;
PlaneMarch& PlaneMarch::operator=(PlaneMarch&&) noexcept = default;

const PlaneGrid& PlaneMarch::grid() const { return impl_->sheet.grid; }
double PlaneMarch::residual_w() const { return impl_->audit.residual_w; }
double PlaneMarch::exchanged_w() const { return impl_->audit.exchanged_w; }
std::span<const double> PlaneMarch::lite_k(std::size_t lite) const {
  const std::size_t cells = grid().cells();
  return std::span(impl_->now.cell_k).subspan(lite * cells, cells);
}

void PlaneMarch::start(const LineDay& sun, const LineDay& shade, std::size_t step, std::span<const double> light) {
  Impl& s = *impl_;
  const PlaneGrid& g = grid();
  const std::size_t lites = s.sheet.lites();
  if (sun.lites != lites || shade.lites != lites || !sun.tells_of(step) || !shade.tells_of(step))
    throw std::invalid_argument("a plane starts from a step that both its strips tell of, of as many lites");
  s.now.cell_k.clear();
  for (std::size_t lite = 0; lite < lites; ++lite) {
    const auto in_sun = sun.strip(step, lite), in_shade = shade.strip(step, lite);
    for (std::size_t j = 0; j < g.rows(); ++j) {
      const double y = middle(g.y_m, j), to_y = std::min(y, g.y_m.back() - y);
      for (std::size_t i = 0; i < g.columns(); ++i) {
        const double x = middle(g.x_m, i), depth = std::min({x, g.x_m.back() - x, to_y});
        const double m = light[j * g.columns() + i];
        s.now.cell_k.push_back((1.0 - m) * at_depth(shade.depth_m, in_shade, depth) +
                               m * at_depth(sun.depth_m, in_sun, depth));
      }
    }
  }
  s.now.frame_k.clear();
  for (const RimPlace& place : s.sheet.rim) {
    const double m = light[place.edge_cell];
    std::array<double, 4>& frame_k = s.now.frame_k.emplace_back();
    for (std::size_t n = 0; n < 4; ++n)
      frame_k[n] = (1.0 - m) * shade.frame_k[step - shade.first_step][n] + m * sun.frame_k[step - sun.first_step][n];
  }
  s.now.held_j = held_j(s.sheet, s.now);
  s.sun.now = s.sun.before = middle_of(sun, step);
  s.shade.now = s.shade.before = middle_of(shade, step);
  s.last_step_s = 0.0;
}

void PlaneMarch::step(const StepLoads& sun, const StepLoads& shade, std::span<const double> light, double step_s) {
  Impl& s = *impl_;
  if (light.size() != grid().cells() || s.now.cell_k.empty() || !(step_s > 0.0))
    throw std::invalid_argument("a plane's step needs a start, a light on every cell and a positive length");
  const bool first = step_s != s.last_step_s;
  PlaneLight in_sun, in_shade;
  const PlaneStep step{(first ? 1.0 : 1.5) / step_s,
                       (first ? 1.0 : 2.0) / step_s,
                       (first ? 0.0 : 0.5) / step_s,
                       &in_sun,
                       &in_shade,
                       light,
                       &s.now,
                       first ? &s.now : &s.before};
  s.settle(sun, step, s.sun, in_sun);
  s.settle(shade, step, s.shade, in_shade);
  s.stepper.take(step, s.next);
  s.next.held_j = held_j(s.sheet, s.next);
  s.audit = audit(s.sheet, step, s.next);
  std::swap(s.before, s.now);
  std::swap(s.now, s.next);
  s.last_step_s = step_s;
}

}  // namespace sunstrain
