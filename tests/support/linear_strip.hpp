// The engine's strip with every exchange given, so that it is linear in what drives it, and what each driver does.
#pragma once

#include <stdexcept>

#include "../../src/engine/edge_strip.hpp"
#include "heat_lines.hpp"

namespace sunstrain::test {

struct Films {
  double outdoor_w_m2k, room_w_m2k, cavity_w_m2k;
};
struct Drivers {
  double outdoor_k, room_k, sun1_w_m2, sun2_w_m2, frame_w_m2;
};

// The strip with every exchange given: linear in the drivers.
class LinearStrip {
 public:
  LinearStrip(const Line& section, const Films& films)
      : line_(section), films_(films), solver_(line_, internal::strip_mesh(line_)) {}
  LinearStrip(const Line& section, const Films& films, internal::StripMesh mesh)
      : line_(section), films_(films), solver_(line_, std::move(mesh)) {}
  LinearStrip(const LinearStrip&) = delete;  // the solver keeps an eye on line_

  internal::StripState solve(const Drivers& d) {
    const std::size_t n = line_.glazing.lites.size();
    StepLoads loads = heat_lines::loads(n, 0.0, 0.0, 0.0);
    loads.absorbed[0].bulk_w_m2 = d.sun1_w_m2;
    if (n > 1) loads.absorbed[n - 1].bulk_w_m2 = d.sun2_w_m2;  // the inmost lite
    loads.frame_absorbed_w_m2 = d.frame_w_m2;
    CenterBalance center;
    center.outdoor = {films_.outdoor_w_m2k, d.outdoor_k};
    center.room = center.open_room = {films_.room_w_m2k, d.room_k};
    center.cavity_w_m2k.assign(n - 1, films_.cavity_w_m2k);
    internal::StripState state;
    const internal::StripAudit audit = solver_.solve(loads, center, state);
    if (std::abs(audit.residual_w_m) > 1e-9 * std::max(1.0, audit.exchanged_w_m))
      throw std::runtime_error("the strip's heat does not close");
    return state;
  }

  // By straight line between cell middles, from the first two cells to the cut edge itself.
  double at(const internal::StripState& state, std::size_t lite, double depth_m) const {
    const std::vector<double>& d = solver_.mesh().depth_m;
    const double* t = state.cell_k.data() + lite * d.size();
    std::size_t i = 0;
    while (i + 2 < d.size() && d[i + 1] < depth_m) ++i;
    return t[i] + (t[i + 1] - t[i]) * (depth_m - d[i]) / (d[i + 1] - d[i]);
  }

  const internal::StripMesh& mesh() const { return solver_.mesh(); }
  double middle_m() const { return mesh().depth_m.back(); }

 private:
  Line line_;
  Films films_;
  internal::StripSolver solver_;
};

// T = (1 - a) T_out + a T_in + b1 S1 + b2 S2 + c S_frame.
struct Influence {
  double outdoor, room, b1, b2, c;
};

inline Influence influence(LinearStrip& strip, std::size_t lite, double depth_m) {
  const auto at = [&](const Drivers& d) { return strip.at(strip.solve(d), lite, depth_m); };
  return {at({1, 0, 0, 0, 0}), at({0, 1, 0, 0, 0}), at({0, 0, 1, 0, 0}), at({0, 0, 0, 1, 0}), at({0, 0, 0, 0, 1})};
}

}  // namespace sunstrain::test
