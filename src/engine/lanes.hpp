// Eight independent computations side by side: the formulas of heat are written once, for a double or for Lanes.
// Internal.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "wide.hpp"

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"  // about passing such values between files built for different machines: never
#endif

namespace sunstrain::internal {

inline constexpr std::size_t lane_count = 8;

// Two vectors of four each, which is as wide as a machine's registers are taken to be; in classes of a stated
// alignment, for the vector types' own differs between the two copies of a function.
using Four = double __attribute__((vector_size(32)));
using FourBits = long long __attribute__((vector_size(32)));

struct alignas(32) LaneMask {
  FourBits low, high;
};

struct alignas(32) Lanes {
  Four low, high;

  SUNSTRAIN_INLINE double operator[](std::size_t lane) const { return lane < 4 ? low[lane] : high[lane - 4]; }
  SUNSTRAIN_INLINE void set(std::size_t lane, double value) {
    if (lane < 4)
      low[lane] = value;
    else
      high[lane - 4] = value;
  }
  SUNSTRAIN_INLINE Lanes& operator+=(const Lanes& b) {
    low += b.low;
    high += b.high;
    return *this;
  }
  SUNSTRAIN_INLINE Lanes& operator+=(double b) {
    low += b;
    high += b;
    return *this;
  }
  SUNSTRAIN_INLINE Lanes& operator-=(const Lanes& b) {
    low -= b.low;
    high -= b.high;
    return *this;
  }
  SUNSTRAIN_INLINE Lanes& operator*=(const Lanes& b) {
    low *= b.low;
    high *= b.high;
    return *this;
  }
  SUNSTRAIN_INLINE Lanes operator-() const { return {-low, -high}; }
};

#define SUNSTRAIN_LANES_OPERATOR(op)                                                                                \
  SUNSTRAIN_INLINE Lanes operator op(const Lanes& a, const Lanes& b) { return {a.low op b.low, a.high op b.high}; } \
  SUNSTRAIN_INLINE Lanes operator op(double a, const Lanes& b) { return {a op b.low, a op b.high}; }                \
  SUNSTRAIN_INLINE Lanes operator op(const Lanes& a, double b) { return {a.low op b, a.high op b}; }
SUNSTRAIN_LANES_OPERATOR(+)
SUNSTRAIN_LANES_OPERATOR(-)
SUNSTRAIN_LANES_OPERATOR(*)
SUNSTRAIN_LANES_OPERATOR(/)
#undef SUNSTRAIN_LANES_OPERATOR

SUNSTRAIN_INLINE LaneMask operator>(const Lanes& a, double b) { return {a.low > b, a.high > b}; }
SUNSTRAIN_INLINE LaneMask operator>=(const Lanes& a, double b) { return {a.low >= b, a.high >= b}; }
SUNSTRAIN_INLINE LaneMask operator&(const LaneMask& a, const LaneMask& b) { return {a.low & b.low, a.high & b.high}; }

template <class R>
struct MaskOf {
  using Type = LaneMask;
};
template <>
struct MaskOf<double> {
  using Type = bool;
};

SUNSTRAIN_INLINE double choose(bool which, double yes, double no) { return which ? yes : no; }
SUNSTRAIN_INLINE Lanes choose(const LaneMask& which, const Lanes& yes, const Lanes& no) {
  return {which.low ? yes.low : no.low, which.high ? yes.high : no.high};
}

SUNSTRAIN_INLINE double larger(double a, double b) { return a > b ? a : b; }
SUNSTRAIN_INLINE Lanes larger(const Lanes& a, const Lanes& b) {
  return {a.low > b.low ? a.low : b.low, a.high > b.high ? a.high : b.high};
}

SUNSTRAIN_INLINE double size_of(double a) { return std::abs(a); }
SUNSTRAIN_INLINE Lanes size_of(const Lanes& a) { return larger(a, -a); }

// One double after another, for what has no vector form: f(double) for each.
template <class F>
SUNSTRAIN_INLINE double each(double a, F f) {
  return f(a);
}
template <class F>
SUNSTRAIN_INLINE Lanes each(const Lanes& a, F f) {
  Lanes result;
  for (std::size_t i = 0; i < lane_count; ++i) result.set(i, f(a[i]));
  return result;
}

SUNSTRAIN_INLINE double root(double a) { return std::sqrt(a); }
SUNSTRAIN_INLINE Lanes root(const Lanes& a) {
  Lanes result;
  for (std::size_t i = 0; i < lane_count; ++i) result.set(i, __builtin_sqrt(a[i]));
  return result;
}

SUNSTRAIN_INLINE bool any(bool a) { return a; }
SUNSTRAIN_INLINE bool any(const LaneMask& a) {
  const FourBits both = a.low | a.high;
  const long long found = both[0] | both[1] | both[2] | both[3];
  return found != 0;
}

// The lanes' values, one after another.
SUNSTRAIN_INLINE const double* values_of(const Lanes& a) { return reinterpret_cast<const double*>(&a); }

SUNSTRAIN_INLINE double lane(double a, std::size_t) { return a; }
SUNSTRAIN_INLINE double lane(const Lanes& a, std::size_t i) { return a[i]; }
SUNSTRAIN_INLINE bool lane(bool a, std::size_t) { return a; }
SUNSTRAIN_INLINE bool lane(const LaneMask& a, std::size_t i) { return (i < 4 ? a.low[i] : a.high[i - 4]) != 0; }
SUNSTRAIN_INLINE void set_lane(double& a, std::size_t, double value) { a = value; }
SUNSTRAIN_INLINE void set_lane(Lanes& a, std::size_t i, double value) { a.set(i, value); }
inline constexpr std::size_t lanes_of(const double*) { return 1; }
inline constexpr std::size_t lanes_of(const Lanes*) { return lane_count; }

}  // namespace sunstrain::internal
