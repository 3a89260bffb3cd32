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
// odd modes apart); its values and its tail along the half edge; its values at the far end and just inside it.
struct ProfileLayout {
  struct Part {
    std::size_t bilinear, trig, edge, tail, end, depth;
    std::array<std::size_t, 2> hyperbolic;
  };
  std::array<Part, 2> part;
  std::size_t size = 0;
};

// Rows x columns, column by column, rows padded; a chunk of rows uses only its first columns, beyond which (far
// from the end of the pane) every entry of those rows is nothing.
struct ChunkedTable {
  static constexpr int chunk = 16;
  int rows = 0, columns = 0;
  std::vector<double> entries;  // chunk by chunk, each columns_of[chunk] columns of 16
  std::vector<int> columns_of;
  std::vector<std::size_t> start_of;
  const double* row_start(std::size_t row) const { return &entries[start_of[row / chunk] + row % chunk]; }
};

struct Direction {
  double length_m = 0.0, depth_m = 0.0;
  int parities = 2;  // 1: even profiles alone
  int modes = 0, crossing_modes = 0;
  std::vector<double> nodes, edge_points, sample_points;  // ascending from the near end; samples = all in order
  std::vector<double> node_distance, edge_distance;       // halves, from the far end
  std::array<ChunkedTable, 2> integral;                   // rows: bilinear, trig, hyperbolic in order of mode
  std::array<std::vector<double>, 2> edge_modes;          // of each parity at the half edge points, edge x modes
  // What a profile holds beyond the last mode, at the half edge points: edge_share * value there + tail_of_nodes
  // (half edge x half nodes) * values at the half nodes + tail_of_end * value at the far end.
  std::vector<double> edge_share;
  std::array<std::vector<double>, 2> tail_of_nodes, tail_of_end;
  ProfileLayout layout;

  std::size_t half_edge() const { return edge_distance.size(); }
};

Direction make_direction(double length_m, double crossing_length_m, int modes, int crossing_modes,
                         std::span<const Feature> features, double end_width_m, double panel_per_width,
                         int points_per_side, int parities);

// samples: at sample_points, `count` profiles one after another, at most 4. into: layout.size values each. Throws
// std::invalid_argument for a profile that is not even where the direction is made for those alone.
void transform(const Direction& direction, std::size_t count, std::span<const double> samples, std::span<double> into);

// The tail alone, of values along a line at the nodes, the edge points and both ends; parity 0 or 1.
void line_tail(const Direction& direction, int parity, std::span<const double> line, double* tail);

// The even and the odd half of values given at mirrored points, as seen at the far end.
void fold_values(std::span<const double> values, double* even, double* odd);

// Writes sin(first x), sin((first + 2) x), ...
void fill_sines(double x, int first, std::size_t count, double* into);

}  // namespace sunstrain::stress_detail
