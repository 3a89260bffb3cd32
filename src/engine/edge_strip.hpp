// Internal: the strip of glass from the cut edge to the middle, with the frame's nodes: mesh, conductances, solution.
#pragma once

#include "center_balance.hpp"
#include "sunstrain/heat.hpp"

namespace sunstrain::internal {

// The part of the strip that does not change from step to step. All conductances per metre of edge.
struct StripMesh {
  std::vector<double> edge_m;                                  // cells + 1 positions from the cut edge
  std::vector<double> depth_m;                                 // cells
  std::vector<double> width_m;                                 // cells
  std::vector<double> exposed;                                 // share of each cell in front of the sightline
  std::vector<double> corner;                                  // share within the room-side corner (weaker film)
  std::vector<std::vector<double>> conduction_w_mk;            // [lite][cell]: to the next cell
  std::vector<double> outer_contact_w_mk;                      // first lite's outer face to the outer node
  std::vector<double> inner_contact_w_mk;                      // last lite's inner face to the inner node
  std::vector<double> edge_to_outer_w_mk, edge_to_inner_w_mk;  // per lite: cut edge across the clearance
  std::vector<std::vector<double>> spacer_w_mk;                // [cavity][cell]: fixed part (spacer and seals)
  std::vector<std::vector<double>> gap_share;                  // [cavity][cell]: share that faces the gas
  double joint_area_m = 0.0, joint_resistance_mk_w = 0.0;      // structural silicone's half joint
  const FrameFit* frame = nullptr;
  std::size_t cells() const { return depth_m.size(); }
};

StripMesh strip_mesh(const Line& line);

inline constexpr std::size_t most_lites = 8;  // the solver's widest band

struct StripState {
  std::vector<double> cell_k;  // [lite * cells + cell]
  std::array<double, 4> frame_k;
};

// How each node stores heat over the step: rate = capacity (weight T - history).
struct StripStorage {
  double weight_per_s = 0.0;
  const std::vector<double>* cell_history_k_per_s = nullptr;
  const std::array<double, 4>* frame_history_k_per_s = nullptr;
};

struct StripAudit {
  double residual_w_m, exchanged_w_m;
};

// Solves the strip for one step with the exchanges of the settled middle; scratch is reused between calls.
class StripSolver {
 public:
  StripSolver(const Line& line, StripMesh mesh);
  const StripMesh& mesh() const { return mesh_; }
  StripAudit solve(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage, StripState& state);

 private:
  void assemble(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage);
  void add_surface(std::size_t lite, const Exchange& exchange, double source_w_m2, bool room_side);
  void add_cavity(std::size_t k, double gas_w_m2k, double source_a, double source_b);
  void add_contacts();
  template <std::size_t band>
  void factorize_and_substitute();
  void solve_frame(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage, StripState& state);
  StripAudit audit(const StepLoads& loads, const CenterBalance& center, const StripStorage& storage,
                   const StripState& state) const;
  std::size_t row(std::size_t lite, std::size_t cell) const { return cell * lites_ + lite; }

  const Line* line_;
  StripMesh mesh_;
  std::size_t lites_, rows_, band_;
  std::vector<double> matrix_;                         // lower band, [row * (band + 1) + offset to the left]
  std::vector<double> sources_, to_outer_, to_inner_;  // right-hand side, and coupling to the two frame nodes
  // The glass as a linear answer: to its sources, and to each of the two inner frame nodes at 1 K. Worked side by side.
  struct Response {
    double base, outer, inner;
  };
  std::vector<Response> response_;
};

}  // namespace sunstrain::internal
