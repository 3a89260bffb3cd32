#include "stress_kernels.hpp"

#include <cstring>

namespace sunstrain::stress_detail {

namespace {

// Four lanes; where a machine has only two they are done in two steps, with the same result.
using Lanes = double __attribute__((vector_size(32)));

// The short loops over lanes and fields vanish, so that the sums live in registers.
#if defined(__clang__)
#define SUNSTRAIN_UNROLL _Pragma("clang loop unroll(full)")
#else
#define SUNSTRAIN_UNROLL _Pragma("GCC unroll 8")
#endif

SUNSTRAIN_INLINE void load(Lanes& lanes, const double* from) { std::memcpy(&lanes, from, sizeof lanes); }
SUNSTRAIN_INLINE void store(double* to, const Lanes& lanes) { std::memcpy(to, &lanes, sizeof lanes); }

// out[4 * blocks of row .. ] += columns of matrix, `stride` apart, times factor; for `fields` fields at once.
template <int blocks, int fields>
SUNSTRAIN_INLINE void tile(const double* matrix, std::size_t stride, const double* factors, std::size_t factor_stride,
                           std::size_t columns, double* outs, std::size_t out_stride) {
  Lanes sum[fields][blocks];
  SUNSTRAIN_UNROLL
  for (int f = 0; f < fields; ++f) SUNSTRAIN_UNROLL
  for (int k = 0; k < blocks; ++k) load(sum[f][k], outs + static_cast<std::size_t>(f) * out_stride + 4 * k);
  for (std::size_t j = 0; j < columns; ++j) {
    const double* column = matrix + stride * j;
    Lanes entry[blocks];
    SUNSTRAIN_UNROLL
    for (int k = 0; k < blocks; ++k) load(entry[k], column + 4 * k);
    SUNSTRAIN_UNROLL
    for (int f = 0; f < fields; ++f) {
      const double factor = factors[static_cast<std::size_t>(f) * factor_stride + j];
      SUNSTRAIN_UNROLL
      for (int k = 0; k < blocks; ++k) sum[f][k] += entry[k] * factor;
    }
  }
  SUNSTRAIN_UNROLL
  for (int f = 0; f < fields; ++f) SUNSTRAIN_UNROLL
  for (int k = 0; k < blocks; ++k) store(outs + static_cast<std::size_t>(f) * out_stride + 4 * k, sum[f][k]);
}

SUNSTRAIN_INLINE void one_row(const double* matrix, std::size_t stride, const double* factor, std::size_t columns,
                              double* out) {
  double sum = *out;
  for (std::size_t j = 0; j < columns; ++j) sum += matrix[stride * j] * factor[j];
  *out = sum;
}

struct Fields {
  const double* factors;
  std::size_t factor_stride;
  double* outs;
  std::size_t out_stride;
};

template <int fields>
SUNSTRAIN_INLINE void multiply_fields(const double* matrix, std::size_t rows, std::size_t columns, const Fields& all,
                                      std::size_t first) {
  const double* factor = all.factors + first * all.factor_stride;
  double* out = all.outs + first * all.out_stride;
  std::size_t row = 0;
  for (; row + 8 <= rows; row += 8)
    tile<2, fields>(matrix + row, rows, factor, all.factor_stride, columns, out + row, all.out_stride);
  for (; row + 4 <= rows; row += 4)
    tile<1, fields>(matrix + row, rows, factor, all.factor_stride, columns, out + row, all.out_stride);
  for (; row < rows; ++row)
    for (std::size_t f = 0; f < fields; ++f)
      one_row(matrix + row, rows, factor + f * all.factor_stride, columns, out + f * all.out_stride + row);
}

}  // namespace

SUNSTRAIN_WIDE_CLONES
void multiply_add(const double* matrix, const double* factor, std::size_t rows, std::size_t columns, double* out) {
  std::size_t row = 0;
  for (; row + 32 <= rows; row += 32) tile<8, 1>(matrix + row, rows, factor, 0, columns, out + row, 0);
  for (; row + 16 <= rows; row += 16) tile<4, 1>(matrix + row, rows, factor, 0, columns, out + row, 0);
  for (; row + 4 <= rows; row += 4) tile<1, 1>(matrix + row, rows, factor, 0, columns, out + row, 0);
  for (; row < rows; ++row) one_row(matrix + row, rows, factor, columns, out + row);
}

SUNSTRAIN_WIDE_CLONES
void multiply_add_many(const double* matrix, const double* factors, std::size_t factor_stride, std::size_t rows,
                       std::size_t columns, std::size_t count, double* outs, std::size_t out_stride) {
  const Fields all{factors, factor_stride, outs, out_stride};
  std::size_t field = 0;
  for (; field + 4 <= count; field += 4) multiply_fields<4>(matrix, rows, columns, all, field);
  if (count - field == 3) multiply_fields<3>(matrix, rows, columns, all, field);
  if (count - field == 2) multiply_fields<2>(matrix, rows, columns, all, field);
  if (count - field == 1)
    multiply_add(matrix, factors + field * factor_stride, rows, columns, outs + field * out_stride);
}

SUNSTRAIN_WIDE_CLONES
double highest_sum(const double* values, const double* least, const double* most, std::size_t count) {
  const auto highest = [](double step, double low, double high) { return step * (step >= 0.0 ? high : low); };
  double rest = count > 0 ? highest(values[0], least[0], most[0]) : 0.0;
  Lanes sum{};
  std::size_t k = 1;
  for (; k + 4 <= count; k += 4) {
    Lanes at, before, low, high;
    load(at, values + k);
    load(before, values + k - 1);
    load(low, least + k);
    load(high, most + k);
    const Lanes step = at - before;
    sum += step * (step >= 0.0 ? high : low);
  }
  for (; k < count; ++k) rest += highest(values[k] - values[k - 1], least[k], most[k]);
  return rest + (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

SUNSTRAIN_WIDE_CLONES
void unfold_edges(const double* even_even, const double* odd_even, const double* even_odd, const double* odd_odd,
                  std::size_t half, double scale, double* far, double* near) {
  const std::size_t last = 2 * half - 1;
  std::size_t i = 0;
  for (; i + 4 <= half; i += 4) {
    Lanes ee, oe, eo, oo;
    load(ee, even_even + i);
    load(oe, odd_even + i);
    load(eo, even_odd + i);
    load(oo, odd_odd + i);
    const Lanes even = (ee + eo) * scale, odd = (oe + oo) * scale, even_near = (ee - eo) * scale,
                odd_near = (oe - oo) * scale;
    store(far + i, even - odd);
    store(near + i, even_near - odd_near);
    store(far + last - i - 3, __builtin_shufflevector(even + odd, even, 3, 2, 1, 0));
    store(near + last - i - 3, __builtin_shufflevector(even_near + odd_near, even, 3, 2, 1, 0));
  }
  for (; i < half; ++i) {
    const double even = (even_even[i] + even_odd[i]) * scale, odd = (odd_even[i] + odd_odd[i]) * scale,
                 even_near = (even_even[i] - even_odd[i]) * scale, odd_near = (odd_even[i] - odd_odd[i]) * scale;
    far[i] = even - odd;
    near[i] = even_near - odd_near;
    far[last - i] = even + odd;
    near[last - i] = even_near + odd_near;
  }
}

SUNSTRAIN_WIDE_CLONES
void add_triple(double factor, const double* a, const double* b, std::size_t count, double* out) {
  std::size_t i = 0;
  for (; i + 4 <= count; i += 4) {
    Lanes la, lb, sum;
    load(la, a + i);
    load(lb, b + i);
    load(sum, out + i);
    store(out + i, sum + factor * la * lb);
  }
  for (; i < count; ++i) out[i] += factor * a[i] * b[i];
}

SUNSTRAIN_WIDE_CLONES
void add_two(double a_factor, const double* a, double b_factor, const double* b, std::size_t count, double* out) {
  std::size_t i = 0;
  for (; i + 4 <= count; i += 4) {
    Lanes la, lb, sum;
    load(la, a + i);
    load(lb, b + i);
    load(sum, out + i);
    store(out + i, sum + (a_factor * la + b_factor * lb));
  }
  for (; i < count; ++i) out[i] += a_factor * a[i] + b_factor * b[i];
}

}  // namespace sunstrain::stress_detail
