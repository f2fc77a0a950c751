#pragma once
// Heat: power, energy, heat capacity, conductance, and spans in hours. Watts and joules inside; kilowatt-hours and BTU at the edge only.
// Horsepower has no conversion on purpose: cooling per nominal horsepower differs by a third between makers' test points.

#include <chrono>
#include <compare>

#include "quantities/temperature.h"

namespace redd {

/// A span in hours, fractions allowed. Converts to and from Days by itself.
using Hours = std::chrono::duration<double, std::ratio<3600>>;

/// Heat moved, in joules. Any sign.
class Energy {
 public:
  static constexpr double joules_per_kwh = 3.6e6;
  static constexpr Energy from_j(double value) { return Energy(value); }
  static constexpr Energy from_kwh(double value) { return Energy(value * joules_per_kwh); }
  constexpr double j() const { return j_; }
  constexpr double kwh() const { return j_ / joules_per_kwh; }
  friend constexpr auto operator<=>(Energy, Energy) = default;
  friend constexpr Energy operator+(Energy a, Energy b) { return Energy(a.j_ + b.j_); }
  friend constexpr Energy operator-(Energy a, Energy b) { return Energy(a.j_ - b.j_); }
  friend constexpr Energy operator*(double k, Energy a) { return Energy(k * a.j_); }

 private:
  explicit constexpr Energy(double j) : j_(j) {}
  double j_;
};

/// Heat flow or electric power, in watts. Heat flowing into the water is positive.
/// 1 BTU (International Table) = 1055.05585262 J exactly; a ton of refrigeration = 12000 BTU/h.
class Power {
 public:
  static constexpr double watts_per_btu_per_h = 1055.05585262 / 3600.0;
  static constexpr Power from_w(double value) { return Power(value); }
  static constexpr Power from_btu_per_h(double value) { return Power(value * watts_per_btu_per_h); }
  constexpr double w() const { return w_; }
  constexpr double btu_per_h() const { return w_ / watts_per_btu_per_h; }
  friend constexpr auto operator<=>(Power, Power) = default;
  friend constexpr Power operator+(Power a, Power b) { return Power(a.w_ + b.w_); }
  friend constexpr Power operator-(Power a, Power b) { return Power(a.w_ - b.w_); }
  friend constexpr Power operator*(double k, Power a) { return Power(k * a.w_); }
  friend constexpr Energy operator*(Power a, Hours span) { return Energy::from_j(a.w_ * 3600.0 * span.count()); }

 private:
  explicit constexpr Power(double w) : w_(w) {}
  double w_;
};

/// Heat flow per degree of difference between two sides, W/K. >= 0 by use.
class Conductance {
 public:
  static constexpr Conductance from_w_per_k(double value) { return Conductance(value); }
  constexpr double w_per_k() const { return w_per_k_; }
  friend constexpr auto operator<=>(Conductance, Conductance) = default;
  friend constexpr Conductance operator+(Conductance a, Conductance b) { return Conductance(a.w_per_k_ + b.w_per_k_); }
  friend constexpr Conductance operator*(double k, Conductance a) { return Conductance(k * a.w_per_k_); }
  friend constexpr Power operator*(Conductance a, TemperatureChange difference) { return Power::from_w(a.w_per_k_ * difference.c()); }

 private:
  explicit constexpr Conductance(double w_per_k) : w_per_k_(w_per_k) {}
  double w_per_k_;
};

/// Heat that warms a body by one degree, J/K. > 0 by use.
class HeatCapacity {
 public:
  static constexpr HeatCapacity from_j_per_k(double value) { return HeatCapacity(value); }
  constexpr double j_per_k() const { return j_per_k_; }
  friend constexpr auto operator<=>(HeatCapacity, HeatCapacity) = default;
  friend constexpr HeatCapacity operator+(HeatCapacity a, HeatCapacity b) { return HeatCapacity(a.j_per_k_ + b.j_per_k_); }
  friend constexpr Energy operator*(HeatCapacity a, TemperatureChange change) { return Energy::from_j(a.j_per_k_ * change.c()); }

 private:
  explicit constexpr HeatCapacity(double j_per_k) : j_per_k_(j_per_k) {}
  double j_per_k_;
};

}  // namespace redd
