// One step of all cells of a plane: (1 - X/w)(1 - Y/w)(1 - Z/w) change = how far the state ahead is off its balance,
// X and Y conduction along a row and across the rows, Z all that a column of lites has with its surroundings and with
// the frame. X and Y move heat and leave its sum, so the sum is the one that the step's own exchanges give.
#include "plane_step.hpp"

#include <algorithm>

namespace sunstrain::internal {
namespace {

using Equations = PlaneStepper::Equations;

// The strip's own cells without what they store, conduct and give the frame, over their width.
void lay(const StripRows& rows, const PlaneLight& light, std::vector<Equations>& into) {
  Felt<double> felt;
  feel<double>(rows, light.loads, light.center, felt);
  felt.joint_w_mk = felt.joint_in_w_m = 0.0;
  for (std::size_t cell = 0; cell < rows.cells; ++cell) {
    const std::size_t in_rows = rows.cells - 1 - cell;
    Equations e{};
    cell_equations<0, double>(rows, in_rows, light.loads, felt, {}, e.matrix, e.right);
    const double per_m = 1.0 / rows.mesh.width_m[cell];
    for (std::size_t lite = 0; lite < rows.lites; ++lite) {
      e.matrix[in_half(lite, lite)] -= rows.fixed_w_mk[in_rows * rows.lites + lite];
      e.right[lite] *= per_m;
    }
    for (double& each : e.matrix) each *= per_m;
    into.push_back(e);
  }
}

std::vector<Equations> lay(const PlaneSheet& sheet, const PlaneLight& light) {
  std::vector<Equations> of_kinds;
  lay(sheet.along_x, light, of_kinds);
  lay(sheet.along_y, light, of_kinds);
  return of_kinds;
}

double mixed(double shade, double sun, double light) { return shade + light * (sun - shade); }

ExchangeOf<double> mixed(const ExchangeOf<double>& shade, const ExchangeOf<double>& sun, double light) {
  const double h = mixed(shade.conductance_w_m2k, sun.conductance_w_m2k, light);
  return {h,
          mixed(shade.conductance_w_m2k * shade.temperature_k, sun.conductance_w_m2k * sun.temperature_k, light) / h};
}

PlaneStepper::Joint joint_at(const PlaneSheet& sheet, const PlaneLight& light) {
  const StripMesh& mesh = sheet.along_x.mesh;
  const JointOf<double> joint = joint_of<double>(mesh, light.center.outdoor.conductance_w_m2k);
  return {joint.conductance_w_mk, joint.conductance_w_mk * light.center.outdoor.temperature_k +
                                      joint.source_share * light.loads.frame_absorbed_w_m2 * mesh.joint_area_m};
}

// One place of the frame; its light is that of the cell on its edge.
FrameStep<double> around_frame(const PlaneSheet& sheet, const PlaneStep& step, std::size_t place) {
  const RimPlace& rim = sheet.rim[place];
  const double light = step.light[rim.edge_cell];
  FrameStep<double> around{rim.outer_w_k / rim.length_m,
                           rim.inner_w_k / rim.length_m,
                           mixed(step.shade->center.outdoor, step.sun->center.outdoor, light),
                           mixed(step.shade->center.open_room, step.sun->center.open_room, light),
                           mixed(step.shade->loads.frame_absorbed_w_m2, step.sun->loads.frame_absorbed_w_m2, light),
                           step.weight_per_s,
                           {}};
  for (std::size_t n = 0; n < 4; ++n)
    around.history_k_per_s[n] =
        step.one_per_s * step.one->frame_k[place][n] - step.two_per_s * step.two->frame_k[place][n];
  return around;
}

}  // namespace

PlaneStepper::PlaneStepper(const PlaneSheet& sheet)
    : sheet_(&sheet), off_k_(sheet.lites() * sheet.grid.cells()), turned_k_(sheet.grid.cells()) {
  for (std::size_t lite = 0; lite < sheet.lites(); ++lite) {
    x_.emplace_back(sheet.grid.x_m, sheet.diffusivity_m2_s(lite));
    y_.emplace_back(sheet.grid.y_m, sheet.diffusivity_m2_s(lite));
  }
}

template <std::size_t fixed>
Equations PlaneStepper::at(std::size_t cell, double light) const {
  const Equations &shade = shade_[sheet_->kind_of[cell]], &adds = sun_adds_[sheet_->kind_of[cell]];
  Equations e;
  const std::size_t lites = fixed > 0 ? fixed : sheet_->lites();
  for (std::size_t k = 0; k < half_matrix(lites); ++k) e.matrix[k] = shade.matrix[k] + light * adds.matrix[k];
  for (std::size_t k = 0; k < lites; ++k) e.right[k] = shade.right[k] + light * adds.right[k];
  return e;
}

// By how much what a cell stores and gives its surroundings does not add up in the state ahead.
template <std::size_t fixed>
void PlaneStepper::off_balance(const PlaneStep& step) {
  const std::size_t lites = fixed > 0 ? fixed : sheet_->lites(), cells = sheet_->grid.cells();
  const double *one_k = step.one->cell_k.data(), *two_k = step.two->cell_k.data();
  for (std::size_t cell = 0; cell < cells; ++cell) {
    const Equations e = at<fixed>(cell, step.light[cell]);
    double k[fixed > 0 ? fixed : most_lites];
    for (std::size_t lite = 0; lite < lites; ++lite) k[lite] = ahead_.cell_k[lite * cells + cell];
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const std::size_t row = lite * cells + cell;
      const double stored = step.one_per_s * one_k[row] - step.two_per_s * two_k[row] - step.weight_per_s * k[lite];
      const double gained = e.right[lite] - row_times(e.matrix, lite, lites, k);
      off_k_[row] = (stored + gained / sheet_->stored_j_m2k[lite]) / step.weight_per_s;
    }
  }
}

void PlaneStepper::rim_off_balance(const PlaneStep& step) {
  const std::size_t lites = sheet_->lites(), cells = sheet_->grid.cells();
  for (std::size_t p = 0; p < sheet_->rim.size(); ++p) {
    const std::array<double, 4>& frame_k = ahead_.frame_k[p];
    for (const RimCell& rim : sheet_->rim[p].cells) {
      const double m = step.light[rim.cell];
      for (std::size_t lite = 0; lite < lites; ++lite) {
        const double k = ahead_.cell_k[lite * cells + rim.cell];
        double in_w = rim.outer_w_k[lite] * (frame_k[1] - k) + rim.inner_w_k[lite] * (frame_k[2] - k);
        if (lite == 0)
          in_w += rim.cut_edge_m * (mixed(joint_in_shade_.in_w_m, joint_in_sun_.in_w_m, m) -
                                    mixed(joint_in_shade_.w_mk, joint_in_sun_.w_mk, m) * k);
        off_k_[lite * cells + rim.cell] +=
            in_w / (sheet_->area_m2[rim.cell] * sheet_->stored_j_m2k[lite] * step.weight_per_s);
      }
    }
  }
}

// Adds what conduction brings in the state ahead, then solves along the rows and across them.
void PlaneStepper::conduct(double weight_per_s) {
  const std::size_t columns = sheet_->grid.columns(), rows = sheet_->grid.rows(), cells = columns * rows;
  for (std::size_t lite = 0; lite < sheet_->lites(); ++lite) {
    Conduction &along = x_[lite], &across = y_[lite];
    double* const off = &off_k_[lite * cells];
    const double* const k = &ahead_.cell_k[lite * cells];
    for (std::size_t j = 0; j < rows; ++j) {
      for (std::size_t i = 0; i < columns; ++i) {
        const std::size_t c = j * columns + i;
        double rate = 0.0;
        if (i > 0) rate += along.to_before_per_s[i] * (k[c - 1] - k[c]);
        if (i + 1 < columns) rate += along.to_after_per_s[i] * (k[c + 1] - k[c]);
        if (j > 0) rate += across.to_before_per_s[j] * (k[c - columns] - k[c]);
        if (j + 1 < rows) rate += across.to_after_per_s[j] * (k[c + columns] - k[c]);
        turned_k_[i * rows + j] = off[c] + rate / weight_per_s;
      }
    }
    along.solve(turned_k_.data(), rows, weight_per_s);
    for (std::size_t j = 0; j < rows; ++j)
      for (std::size_t i = 0; i < columns; ++i) off[j * columns + i] = turned_k_[i * rows + j];
    across.solve(off, columns, weight_per_s);
  }
}

template <std::size_t fixed>
void PlaneStepper::solve_open(const PlaneStep& step, PlaneState& next) const {
  const std::size_t lites = fixed > 0 ? fixed : sheet_->lites(), cells = sheet_->grid.cells();
  for (std::size_t cell = 0; cell < cells; ++cell) {
    if (sheet_->in_rim[cell]) continue;
    Equations e = at<fixed>(cell, step.light[cell]);
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const double weight = sheet_->stored_j_m2k[lite] * step.weight_per_s;
      e.matrix[in_half(lite, lite)] += weight;
      e.right[lite] = weight * off_k_[lite * cells + cell];
    }
    invert<fixed, double>(lites, e.matrix);
    for (std::size_t lite = 0; lite < lites; ++lite)
      next.cell_k[lite * cells + cell] = ahead_.cell_k[lite * cells + cell] + row_times(e.matrix, lite, lites, e.right);
  }
}

// A cell's equations with what it gives the frame; `right` without what the frame gives it. The matrix becomes its
// inverse.
template <std::size_t fixed>
void PlaneStepper::rim_equations(const PlaneStep& step, const RimCell& rim, Equations& e) const {
  const std::size_t lites = fixed > 0 ? fixed : sheet_->lites(), cells = sheet_->grid.cells();
  const double area_m2 = sheet_->area_m2[rim.cell], m = step.light[rim.cell];
  e = at<fixed>(rim.cell, m);
  double k[fixed > 0 ? fixed : most_lites], change[fixed > 0 ? fixed : most_lites];
  for (std::size_t i = 0; i < half_matrix(lites); ++i) e.matrix[i] *= area_m2;
  for (std::size_t lite = 0; lite < lites; ++lite) {
    const double weight = area_m2 * sheet_->stored_j_m2k[lite] * step.weight_per_s;
    e.matrix[in_half(lite, lite)] += weight + rim.outer_w_k[lite] + rim.inner_w_k[lite];
    k[lite] = ahead_.cell_k[lite * cells + rim.cell];
    change[lite] = weight * off_k_[lite * cells + rim.cell];
  }
  e.matrix[0] += rim.cut_edge_m * mixed(joint_in_shade_.w_mk, joint_in_sun_.w_mk, m);
  for (std::size_t lite = 0; lite < lites; ++lite) e.right[lite] = row_times(e.matrix, lite, lites, k) + change[lite];
  invert<fixed, double>(lites, e.matrix);
}

// The cells of one place with their length of frame: each is taken out of the frame's four equations, these are solved,
// then each is put back.
template <std::size_t fixed>
void PlaneStepper::solve_rim(const PlaneStep& step, PlaneState& next) {
  const std::size_t lites = fixed > 0 ? fixed : sheet_->lites(), cells = sheet_->grid.cells();
  for (std::size_t p = 0; p < sheet_->rim.size(); ++p) {
    const RimPlace& place = sheet_->rim[p];
    const std::array<double, 4>& ahead_k = ahead_.frame_k[p];
    GlassOnFrame<double> glass{};
    rim_.resize(std::max(rim_.size(), place.cells.size()));
    for (std::size_t c = 0; c < place.cells.size(); ++c) {
      const RimCell& rim = place.cells[c];
      Equations& e = rim_[c];
      rim_equations<fixed>(step, rim, e);
      for (std::size_t lite = 0; lite < lites; ++lite)
        e.right[lite] -= rim.outer_w_k[lite] * ahead_k[1] + rim.inner_w_k[lite] * ahead_k[2];
      for (std::size_t lite = 0; lite < lites; ++lite) {
        const double by_outer = row_times(e.matrix, lite, lites, rim.outer_w_k) / place.length_m,
                     by_inner = row_times(e.matrix, lite, lites, rim.inner_w_k) / place.length_m;
        glass.outer_outer += by_outer * rim.outer_w_k[lite];
        glass.outer_inner += by_outer * rim.inner_w_k[lite];
        glass.inner_inner += by_inner * rim.inner_w_k[lite];
        glass.outer_base += by_outer * e.right[lite];
        glass.inner_base += by_inner * e.right[lite];
      }
    }
    std::array<double, 4>& frame_k = next.frame_k[p];
    solve_frame<double>(*sheet_->along_x.mesh.frame, around_frame(*sheet_, step, p), glass, frame_k.data());
    for (std::size_t c = 0; c < place.cells.size(); ++c) {
      const RimCell& rim = place.cells[c];
      Equations& e = rim_[c];
      for (std::size_t lite = 0; lite < lites; ++lite)
        e.right[lite] += rim.outer_w_k[lite] * frame_k[1] + rim.inner_w_k[lite] * frame_k[2];
      for (std::size_t lite = 0; lite < lites; ++lite)
        next.cell_k[lite * cells + rim.cell] = row_times(e.matrix, lite, lites, e.right);
    }
  }
}

// Where the state goes on to by itself: on as it went, or to begin with as it is.
void PlaneStepper::go_ahead(const PlaneStep& step) {
  ahead_ = *step.one;
  if (step.two_per_s == 0.0) return;
  for (std::size_t i = 0; i < ahead_.cell_k.size(); ++i) ahead_.cell_k[i] += step.one->cell_k[i] - step.two->cell_k[i];
  for (std::size_t p = 0; p < ahead_.frame_k.size(); ++p)
    for (std::size_t n = 0; n < 4; ++n) ahead_.frame_k[p][n] += step.one->frame_k[p][n] - step.two->frame_k[p][n];
}

void PlaneStepper::take(const PlaneStep& step, PlaneState& next) {
  shade_ = lay(*sheet_, *step.shade);
  sun_adds_ = lay(*sheet_, *step.sun);
  for (std::size_t kind = 0; kind < shade_.size(); ++kind) {
    for (std::size_t i = 0; i < std::size(shade_[kind].matrix); ++i)
      sun_adds_[kind].matrix[i] -= shade_[kind].matrix[i];
    for (std::size_t i = 0; i < std::size(shade_[kind].right); ++i) sun_adds_[kind].right[i] -= shade_[kind].right[i];
  }
  joint_in_shade_ = joint_at(*sheet_, *step.shade);
  joint_in_sun_ = joint_at(*sheet_, *step.sun);
  go_ahead(step);
  next.cell_k.resize(ahead_.cell_k.size());
  next.frame_k.resize(ahead_.frame_k.size());
  const auto with = [&]<std::size_t fixed>() {
    off_balance<fixed>(step);
    rim_off_balance(step);
    conduct(step.weight_per_s);
    solve_rim<fixed>(step, next);
    solve_open<fixed>(step, next);
  };
  switch (sheet_->lites()) {
    case 1:
      return with.operator()<1>();
    case 2:
      return with.operator()<2>();
    case 3:
      return with.operator()<3>();
    default:
      return with.operator()<0>();
  }
}

}  // namespace sunstrain::internal
