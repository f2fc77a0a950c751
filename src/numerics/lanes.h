#pragma once
// Four numbers (or eight of single precision) handled as one by the machine's vector unit, with the few functions a process model needs. The compiler splits or joins
// them for whatever machine it compiles for; each lane is computed as plain IEEE arithmetic, so the answer is the same on all of
// them, in the browser too. Everything here has internal linkage, so that a file compiled for a wider unit keeps its own copy.

#include <cstddef>
#include <cstdint>

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"  // all users are inlined; nothing passes lanes across a compiled border
#endif

namespace redd::numerics {

inline constexpr std::size_t lane_count = 4;
using Lanes = double __attribute__((vector_size(32)));
using LaneBits = std::int64_t __attribute__((vector_size(32)));
/// A mask: all bits set in lanes where it holds.
using LaneMask = LaneBits;

namespace {

/// Eight numbers of single precision in the same room, for work whose tolerance is a thousandth or so: twice the particles in the time of four.
/// A class and not the bare vector, because the compiler will not multiply a bare one by a double.
inline constexpr std::size_t float_lane_count = 8;
struct FloatLanes {
  using Vector = float __attribute__((vector_size(32)));
  Vector v;
};

#define REDD_FLOAT_LANES_OPERATOR(op)                                                                                                               \
  [[maybe_unused, gnu::always_inline]] inline FloatLanes operator op(const FloatLanes& a, const FloatLanes& b) { return {a.v op b.v}; }             \
  [[maybe_unused, gnu::always_inline]] inline FloatLanes operator op(const FloatLanes& a, double b) { return {a.v op static_cast<float>(b)}; }      \
  [[maybe_unused, gnu::always_inline]] inline FloatLanes operator op(double a, const FloatLanes& b) { return {static_cast<float>(a) op b.v}; }
REDD_FLOAT_LANES_OPERATOR(+)
REDD_FLOAT_LANES_OPERATOR(-)
REDD_FLOAT_LANES_OPERATOR(*)
REDD_FLOAT_LANES_OPERATOR(/)
#undef REDD_FLOAT_LANES_OPERATOR
[[maybe_unused, gnu::always_inline]] inline FloatLanes operator-(const FloatLanes& a) { return {-a.v}; }
[[maybe_unused, gnu::always_inline]] inline FloatLanes& operator+=(FloatLanes& a, const FloatLanes& b) { return a = a + b; }

/// The same number in all lanes of a kind of number.
template <class Real>
[[maybe_unused, gnu::always_inline]] inline Real in_all(double x) {
  return Real{} + x;
}
template <class Real>
inline constexpr std::size_t count_of = sizeof(Real) == sizeof(double) ? 1 : lane_count;
template <>
inline constexpr std::size_t count_of<FloatLanes> = float_lane_count;

[[maybe_unused, gnu::always_inline]] inline void load_into(const double* from, FloatLanes& to) {
  for (std::size_t i = 0; i < float_lane_count; ++i) to.v[i] = static_cast<float>(from[i]);
}
[[maybe_unused, gnu::always_inline]] inline void store(const FloatLanes& x, double* to) {
  for (std::size_t i = 0; i < float_lane_count; ++i) to[i] = static_cast<double>(x.v[i]);
}
[[maybe_unused, gnu::always_inline]] inline FloatLanes largest_of(const FloatLanes& a, const FloatLanes& b) { return {a.v > b.v ? a.v : b.v}; }
[[maybe_unused, gnu::always_inline]] inline FloatLanes smallest_of(const FloatLanes& a, const FloatLanes& b) { return {a.v < b.v ? a.v : b.v}; }
[[maybe_unused, gnu::always_inline]] inline FloatLanes size_of_each(const FloatLanes& a) { return {a.v < 0.0f ? -a.v : a.v}; }
[[maybe_unused, gnu::always_inline]] inline FloatLanes where_positive(const FloatLanes& x, const FloatLanes& then, const FloatLanes& otherwise) {
  return {x.v > 0.0f ? then.v : otherwise.v};
}
[[maybe_unused, gnu::always_inline]] inline double largest_lane(const FloatLanes& a) {
  float largest = a.v[0], sum = 0.0f;
  for (std::size_t i = 0; i < float_lane_count; ++i) {
    if (a.v[i] > largest) largest = a.v[i];
    sum += a.v[i] - a.v[i];
  }
  return static_cast<double>(sum == 0.0f ? largest : sum);
}
[[maybe_unused, gnu::always_inline]] inline FloatLanes square_root(const FloatLanes& a) {
  FloatLanes r{};
  for (std::size_t i = 0; i < float_lane_count; ++i) r.v[i] = __builtin_sqrtf(a.v[i]);
  return r;
}
/// e^x for |x| < 80; relative error below 2e-7.
[[maybe_unused, gnu::always_inline]] inline FloatLanes exponential(const FloatLanes& x) {
  using Bits = std::int32_t __attribute__((vector_size(32)));
  constexpr float shift = 0x1.8p23f;
  const FloatLanes::Vector shifted = x.v * 1.44269504f + shift, k = shifted - shift;
  const FloatLanes::Vector r = (x.v - k * 0.693359375f) + k * 2.12194440e-4f;
  FloatLanes::Vector p = r * (1.0f / 5040.0f) + 1.0f / 720.0f;
  p = p * r + 1.0f / 120.0f;
  p = p * r + 1.0f / 24.0f;
  p = p * r + 1.0f / 6.0f;
  p = p * r + 0.5f;
  p = p * r + 1.0f;
  p = p * r + 1.0f;
  const FloatLanes::Vector one = FloatLanes::Vector{} + 1.0f;
  return {p * (FloatLanes::Vector)(((Bits)shifted << 23) + (Bits)one)};
}

[[maybe_unused, gnu::always_inline]] inline void load_into(const double* from, Lanes& to) { to = Lanes{from[0], from[1], from[2], from[3]}; }
[[maybe_unused, gnu::always_inline]] inline Lanes where_positive(const Lanes& x, const Lanes& then, const Lanes& otherwise) { return x > 0.0 ? then : otherwise; }

[[maybe_unused, gnu::always_inline]] inline Lanes lanes(double x) { return Lanes{x, x, x, x}; }

[[maybe_unused, gnu::always_inline]] inline Lanes load(const double* from) { return Lanes{from[0], from[1], from[2], from[3]}; }

[[maybe_unused, gnu::always_inline]] inline void store(const Lanes& x, double* to) {
  to[0] = x[0];
  to[1] = x[1];
  to[2] = x[2];
  to[3] = x[3];
}

[[maybe_unused, gnu::always_inline]] inline Lanes largest_of(const Lanes& a, const Lanes& b) { return a > b ? a : b; }
[[maybe_unused, gnu::always_inline]] inline Lanes smallest_of(const Lanes& a, const Lanes& b) { return a < b ? a : b; }
[[maybe_unused, gnu::always_inline]] inline Lanes size_of_each(const Lanes& a) { return a < 0.0 ? -a : a; }

/// The largest lane; not a number if any lane is not one.
[[maybe_unused, gnu::always_inline]] inline double largest_lane(const Lanes& a) {
  double largest = a[0];
  for (std::size_t i = 1; i < lane_count; ++i)
    if (a[i] > largest || a[i] != a[i]) largest = a[i];
  return a[0] == a[0] && a[1] == a[1] && a[2] == a[2] ? largest : a[0] + a[1] + a[2];
}
template <class Real>
[[maybe_unused, gnu::always_inline]] inline double smallest_lane(const Real& a) { return -largest_lane(-a); }

[[maybe_unused, gnu::always_inline]] inline Lanes square_root(const Lanes& a) {
  return Lanes{__builtin_sqrt(a[0]), __builtin_sqrt(a[1]), __builtin_sqrt(a[2]), __builtin_sqrt(a[3])};
}

/// e^x for |x| < 700; relative error below 1e-15.
/// Source  Argument reduced by multiples of ln 2, then the exponential series to the 13th power (remainder 4e-18 at ln(2)/2).
[[maybe_unused, gnu::always_inline]] inline Lanes exponential(const Lanes& x) {
  constexpr double per_ln2 = 1.4426950408889634;
  constexpr double ln2_high = 6.93147180369123816490e-01, ln2_low = 1.90821492927058770002e-10;
  constexpr double shift = 0x1.8p52;  // adding it leaves the nearest whole number in the low bits
  const Lanes shifted = x * per_ln2 + shift;
  const Lanes k = shifted - shift;
  const Lanes r = (x - k * ln2_high) - k * ln2_low;
  Lanes p = lanes(1.0 / 6227020800.0);
  p = p * r + 1.0 / 479001600.0;
  p = p * r + 1.0 / 39916800.0;
  p = p * r + 1.0 / 3628800.0;
  p = p * r + 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  // The low bits of `shifted` are k in two's complement; moved up to the exponent they make 2^k.
  const LaneBits power = ((LaneBits)shifted << 52) + (LaneBits)lanes(1.0);
  return p * (Lanes)power;
}

/// Natural logarithm of x between 0.8 and 1.25; relative error below 1e-14. For factors a degree.
/// Source  ln x = 2 artanh((x - 1)/(x + 1)), series to the 13th power.
template <class Real>
[[maybe_unused, gnu::always_inline]] inline Real logarithm_near_one(const Real& x) {
  const Real z = (x - 1.0) / (x + 1.0);
  const Real q = z * z;
  Real p = in_all<Real>(1.0 / 13.0);
  p = p * q + 1.0 / 11.0;
  p = p * q + 1.0 / 9.0;
  p = p * q + 1.0 / 7.0;
  p = p * q + 1.0 / 5.0;
  p = p * q + 1.0 / 3.0;
  p = p * q + 1.0;
  return 2.0 * z * p;
}

}  // namespace
}  // namespace redd::numerics
