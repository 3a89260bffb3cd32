// Internal: one step of all cells of a plane.
#pragma once

#include "plane_sheet.hpp"

namespace sunstrain::internal {

// What surrounds a column of lites under one light: exchanges settled with its temperatures, and the sun it takes up.
struct PlaneLight {
  LoadsOf<double> loads;
  CenterOf<double> center;
};

struct PlaneState {
  std::vector<double> cell_k;                  // [lite * cells + cell]
  std::vector<std::array<double, 4>> frame_k;  // of each place: outer face, outer node, inner node, inner face
  double held_j = 0.0;                         // heat, from 0 K
};
double held_j(const PlaneSheet& sheet, const PlaneState& state);

// One step: rate = weight T - one T1 + two T2, of the two states before; the light on each cell mixes sun and shade.
struct PlaneStep {
  double weight_per_s, one_per_s, two_per_s;
  const PlaneLight *sun, *shade;
  std::span<const double> light;
  const PlaneState *one, *two;
};

struct PlaneAudit {
  double residual_w, exchanged_w;
};
PlaneAudit audit(const PlaneSheet& sheet, const PlaneStep& step, const PlaneState& next);

// Conduction in one lite along one direction, in every row the same: D d2/dx2 on its cells, the ends insulated.
class Conduction {
 public:
  Conduction(std::span<const double> edge_m, double diffusivity_m2_s);
  std::size_t cells() const { return to_before_per_s.size(); }
  // In place, of `many` rows side by side (cell c of row s at [c * many + s]): u becomes the answer of
  // (1 - D d2/dx2 / weight) answer = u.
  void solve(double* u, std::size_t many, double weight_per_s);
  std::vector<double> to_before_per_s, to_after_per_s;  // of a cell; 0 at the ends

 private:
  void factor(double weight_per_s);
  std::vector<double> from_before_, pivot_, from_after_;
  double factored_per_s_ = 0.0;
};

// Takes steps; storage is used again from one to the next.
class PlaneStepper {
 public:
  explicit PlaneStepper(const PlaneSheet& sheet);
  void take(const PlaneStep& step, PlaneState& next);

  // Of a cell per area under one light, without what it stores, conducts and gives the frame.
  struct Equations {
    double matrix[half_matrix(most_lites)], right[most_lites];
  };
  // Outside structural silicone the cut edge meets the half joint: w T - in flows off per meter of edge.
  struct Joint {
    double w_mk, in_w_m;
  };

 private:
  template <std::size_t fixed>
  void off_balance(const PlaneStep& step);
  template <std::size_t fixed>
  void solve_open(const PlaneStep& step, PlaneState& next) const;
  void rim_off_balance(const PlaneStep& step);
  template <std::size_t fixed>
  void solve_rim(const PlaneStep& step, PlaneState& next);
  template <std::size_t fixed>
  void rim_equations(const PlaneStep& step, const RimCell& rim, Equations& e) const;
  template <std::size_t fixed>
  Equations at(std::size_t cell, double light) const;
  void go_ahead(const PlaneStep& step);
  void conduct(double weight_per_s);

  const PlaneSheet* sheet_;
  std::vector<Conduction> x_, y_;            // by lite
  std::vector<Equations> shade_, sun_adds_;  // by kind; the second: sun less shade
  Joint joint_in_shade_{}, joint_in_sun_{};
  std::vector<Equations> rim_;    // of one place's cells
  PlaneState ahead_;              // as it would go on by itself
  std::vector<double> off_k_;     // by how much the balance there is off, over the weight of what is stored
  std::vector<double> turned_k_;  // of one lite, y fastest
};

}  // namespace sunstrain::internal
