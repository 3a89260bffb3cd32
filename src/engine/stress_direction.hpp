// One direction of the pane made ready: sample points, and the tables that turn a sampled profile into its
// integrals against the modes. Internal to the stress stage.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "stress_quadrature.hpp"

namespace sunstrain::stress_detail {

// Modes of one parity (0 even, 1 odd about the middle) are m = 1, 3, 5 ... (even) or 2, 4, 6 ... (odd).
constexpr int modes_of_parity(int modes, int parity) { return (modes + 1 - parity) / 2; }
constexpr int mode_number(int parity, int index) { return 2 * index + 1 + parity; }

// Where each part of a transformed profile lies, per parity: its integral against 1 (even) or the odd linear
// function; against the sines of this direction; against the hyperbolic profiles of the crossing family (even and
// odd modes apart); and the values that enter along the edges.
struct ProfileLayout {
  struct Part {
    std::size_t bilinear, trig, edge, end;
    std::array<std::size_t, 2> hyperbolic;
  };
  std::array<Part, 2> part;
  std::size_t size = 0;
};

// Rows x columns, column by column, rows padded; a chunk of rows uses only its first columns, beyond which (far
// from the end of the pane) every entry of those rows is nothing.
struct ChunkedTable {
  static constexpr int chunk = 8;
  int rows = 0, columns = 0;
  std::vector<double> entries;  // chunk by chunk, each columns_of[chunk] columns of 8
  std::vector<int> columns_of;
  std::vector<std::size_t> start_of;
};

struct Direction {
  double length_m = 0.0;
  int modes = 0, crossing_modes = 0;
  std::vector<double> nodes, edge_points, sample_points;  // ascending from the near end; samples = all in order
  std::vector<double> node_distance, edge_distance;       // halves, from the far end
  std::array<ChunkedTable, 2> integral;                   // rows: bilinear, trig, hyperbolic in order of mode
  std::array<std::vector<double>, 2> dense_integral;      // the same, rows x half nodes, column by column
  ProfileLayout layout;

  std::size_t half_edge() const { return edge_distance.size(); }
};

Direction make_direction(double length_m, double crossing_length_m, int modes, int crossing_modes,
                         std::span<const Feature> features, double end_width_m, double panel_per_width,
                         int points_per_side);

// samples: at sample_points. into: layout.size values.
void transform(const Direction& direction, std::span<const double> samples, std::span<double> into);

// The even and the odd half of values given at mirrored points, as seen at the far end.
void fold_values(std::span<const double> values, double* even, double* odd);

// Writes sin(first x), sin((first + 2) x), ...
void fill_sines(double x, int first, std::size_t count, double* into);

}  // namespace sunstrain::stress_detail
