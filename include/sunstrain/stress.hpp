// The tensile stress along the edge of a free rectangular pane that a temperature field causes.
// Plane stress: sigma_edge = E alpha (H - T), H the L2 projection of T onto the harmonic functions of
// the rectangle (derived in reference/theory.md). Linear in T; uniform and linear fields give zero.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace sunstrain {

enum class Side { bottom, right, top, left };
inline constexpr std::array<Side, 4> all_sides{Side::bottom, Side::right, Side::top, Side::left};

// A product of two one-dimensional profiles, amplitude * X(x) * Y(y), K. x 0 to width from the left,
// y 0 to height from the bottom, both as seen from outdoors.
struct ProductTerm {
  double amplitude_k;
  std::function<double(double)> x_profile, y_profile;
};

// Where a field changes fast: positions that quadrature must not step over (shadow edges, the sightline), with
// the length scale w of the change there, as in exp(-|x|/w), tanh(x/w), erf(x/w), or a third of the length of a
// straight ramp (then name both its ends). reach_m: the change may lie anywhere within position +- reach (a moving
// or a slanting shadow). Sets quadrature and mode count. Both ends of each direction are always features, with the
// sharpest width given (0.02 m if none is).
struct Feature {
  double position_m, width_m;
  double reach_m = 0.0;
};

struct FieldFeatures {
  std::vector<Feature> along_x, along_y;
  // Every field mirrors itself about the middle of the width: the solver is made for those alone, in two thirds of the
  // time, and takes no sampled field and no profile along x that does not (std::invalid_argument).
  bool mirrored_in_x = false;
};

struct EdgePeak {
  double stress_pa = 0.0;
  Side side = Side::bottom;
  double position_m = 0.0;
};

struct EdgeStress {
  // Tensile positive, Pa; positions from the left (bottom, top) or from the bottom (left, right), m.
  std::array<std::vector<double>, 4> position_m, stress_pa;  // indexed by Side
  // The highest stress, between the points too (cubic through the neighbors, held below the bound that
  // a concave peak sets), so it may lie a little above the highest sample.
  double peak_pa = 0.0;
  Side peak_side = Side::bottom;
  double peak_position_m = 0.0;
};

struct PaneElasticity {
  double young_pa, expansion_per_k;
};

// How finely to resolve; the defaults are the stated criterion, other values serve convergence studies.
struct StressResolution {
  double half_waves_per_width = 1.0;  // modes: sharpest feature width / half-wave of the last mode
  double panel_per_width = 4.0;       // quadrature panels: length at a feature / its width
};

// The solver for one pane shape: everything that does not depend on the temperature is done once. Const
// and free of shared state after construction, so any number of threads may use one solver.
// width_m, height_m 0.05 to 12, feature widths 0.001 and up (and not under the longer side / 2400), points_per_side
// even, 8 to 4096.
// Throws std::invalid_argument out of range.
class EdgeStressSolver {
 public:
  EdgeStressSolver(double width_m, double height_m, const FieldFeatures& features, PaneElasticity elasticity,
                   int points_per_side = 64, StressResolution resolution = {});
  ~EdgeStressSolver();
  EdgeStressSolver(EdgeStressSolver&&) noexcept;
  EdgeStressSolver& operator=(EdgeStressSolver&&) noexcept;

  // Where profiles are sampled along x: quadrature points, edge points, both ends, a point just inside each end.
  std::span<const double> x_sample_points() const;
  std::span<const double> y_sample_points() const;
  // Points along the edges at which the stress is reported: the same for bottom and top (x), left and right (y).
  std::span<const double> x_edge_points() const;
  std::span<const double> y_edge_points() const;
  std::size_t x_sample_size() const;
  std::size_t y_sample_size() const;
  std::vector<double> sample_x(const std::function<double(double)>& profile) const;
  std::vector<double> sample_y(const std::function<double(double)>& profile) const;

  // A profile made ready: its integrals against the modes, and its values along the edges. Costs more
  // than the product it enters, so keep it where a profile comes back (a frame strip, a shadow at one hour).
  // It belongs to the solver that made it.
  struct Profile {
    std::vector<double> data;
  };
  Profile transform_x(std::span<const double> x_samples) const;
  Profile transform_y(std::span<const double> y_samples) const;
  // Many at once: samples one profile after another, transforms likewise into `into` (profile_size each).
  std::size_t x_profile_size() const;
  std::size_t y_profile_size() const;
  void transform_x_batch(std::span<const double> samples, std::span<double> into) const;
  void transform_y_batch(std::span<const double> samples, std::span<double> into) const;

  // A field is a sum of products; amplitudes in K. A constant offset is free of stress and may be left out.
  struct Product {
    double amplitude_k;
    std::span<const double> x, y;
  };  // transformed profiles
  EdgeStress solve(std::span<const Product> products) const;
  // The stress only: points_per_side values for bottom, right, top, left in turn. Allocates nothing.
  void solve_into(std::span<const Product> products, std::span<double> stress_pa) const;
  // Many fields: field f is products[starts[f]] up to products[starts[f + 1]]; 4 * points_per_side values each.
  void solve_batch(std::span<const Product> products, std::span<const std::size_t> starts,
                   std::span<double> stress_pa) const;
  // What each sample along y is worth, for an x profile that is its own mirror image: the stress, Pa, of X(x) times 1
  // at that sample and 0 at every other. Since samples and stress are linear in each other, the stress of any X(x) Y(y)
  // is the sum over Y's samples. Given for the samples above the middle, from the top down: quadrature points, edge
  // points, the end, the point just inside it; a sample below is its mirror image and gives the same upside down.
  // stress_pa: y_half_samples() times 2 * points_per_side values: below the middle, then above it, each half of the
  // horizontal edge from the corner, then the vertical edge from the corner. std::invalid_argument for a profile with
  // an odd part or a wrong size.
  std::size_t y_half_samples() const;
  void stress_of_y_samples(std::span<const double> x_profile, std::span<double> stress_pa) const;
  // The peak of a stress so reported, between the points too.
  EdgePeak find_peak(std::span<const double> stress_pa) const;

  struct SampledProduct {
    double amplitude_k;
    std::span<const double> x_samples, y_samples;
  };
  EdgeStress solve(std::span<const SampledProduct> products) const;
  EdgeStress solve(std::span<const ProductTerm> terms) const;

  // Any field: sampled at field_points(), in that order.
  struct Point {
    double x_m, y_m;
  };
  std::vector<Point> field_points() const;
  EdgeStress solve_field(std::span<const double> temperature_k) const;
  EdgeStress solve_general(const std::function<double(double, double)>& temperature) const;

  int modes_x() const;
  int modes_y() const;
  int points_per_side() const;

 private:
  struct Shape;
  std::unique_ptr<const Shape> shape_;
};

}  // namespace sunstrain
