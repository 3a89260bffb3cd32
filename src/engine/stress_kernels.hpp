// The inner loops of the stress stage. Each output is summed in one fixed order whatever the width of the
// machine's vectors, so the same inputs give the same bits on every processor. Internal to the stress stage.
#pragma once

#include <cstddef>
#include <memory>

#include "wide.hpp"

namespace sunstrain::stress_detail {

// out[0..rows) += sum over columns of matrix[rows * column ..] * factor[column]
void multiply_add(const double* matrix, const double* factor, std::size_t rows, std::size_t columns, double* out);

// The same for `count` fields, their factors and outs so far apart.
void multiply_add_many(const double* matrix, const double* factors, std::size_t factor_stride, std::size_t rows,
                       std::size_t columns, std::size_t count, double* outs, std::size_t out_stride);

// Two opposite edges from the blocks' half edges: first named parity along the edge, second across. far, near: 2 half
// values from the near end of the edge to its far end.
void unfold_edges(const double* even_even, const double* odd_even, const double* even_odd, const double* odd_odd,
                  std::size_t half, double scale, double* far, double* near);

// out += factor * a * b, value by value
void add_triple(double factor, const double* a, const double* b, std::size_t count, double* out);

// out += a_factor * a + b_factor * b, value by value
void add_two(double a_factor, const double* a, double b_factor, const double* b, std::size_t count, double* out);

// What a sum over the steps from value to value can be at most where each step's factor lies between least and most,
// the first value against 0.
double highest_sum(const double* values, const double* least, const double* most, std::size_t count);

// A few thousand doubles without a heap allocation, more with one; nothing is in them yet.
class Scratch {
 public:
  explicit Scratch(std::size_t size) {
    if (size > inline_size) heap_.reset(new double[size]);
  }
  double* data() { return heap_ ? heap_.get() : inline_; }

 private:
  static constexpr std::size_t inline_size = 2048;
  double inline_[inline_size];
  std::unique_ptr<double[]> heap_;
};

}  // namespace sunstrain::stress_detail
