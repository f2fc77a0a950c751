#pragma once
// Temperature (a point) and TemperatureChange (a distance). Points subtract to a change and never add, so that
// "20 C warmer" can't be read as "20 C". Fahrenheit lives here and at the form only.

#include <compare>

namespace redd {

/// A difference of two temperatures, kelvin-sized. Any finite value.
class TemperatureChange {
 public:
  static constexpr TemperatureChange from_c(double change_c) { return TemperatureChange(change_c); }
  static constexpr TemperatureChange from_f(double change_f) { return TemperatureChange(change_f / 1.8); }
  constexpr double c() const { return change_c_; }
  constexpr double f() const { return change_c_ * 1.8; }
  friend constexpr auto operator<=>(TemperatureChange, TemperatureChange) = default;
  friend constexpr TemperatureChange operator*(double factor, TemperatureChange a) { return from_c(factor * a.c()); }
  friend constexpr TemperatureChange operator-(TemperatureChange a) { return from_c(-a.c()); }

 private:
  explicit constexpr TemperatureChange(double change_c) : change_c_(change_c) {}
  double change_c_;
};

/// A temperature. Fresh-water formulae state their own narrower ranges.
class Temperature {
 public:
  static constexpr Temperature from_c(double value_c) { return Temperature(value_c); }
  static constexpr Temperature from_f(double value_f) { return Temperature((value_f - 32.0) / 1.8); }
  static constexpr Temperature from_k(double value_k) { return Temperature(value_k - 273.15); }
  constexpr double c() const { return value_c_; }
  constexpr double f() const { return value_c_ * 1.8 + 32.0; }
  constexpr double k() const { return value_c_ + 273.15; }
  friend constexpr auto operator<=>(Temperature, Temperature) = default;
  friend constexpr TemperatureChange operator-(Temperature a, Temperature b) {
    return TemperatureChange::from_c(a.c() - b.c());
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureChange b) { return from_c(a.c() + b.c()); }
  friend constexpr Temperature operator-(Temperature a, TemperatureChange b) { return from_c(a.c() - b.c()); }

 private:
  explicit constexpr Temperature(double value_c) : value_c_(value_c) {}
  double value_c_;
};

/// Accumulated thermal units: the sum over days of daily mean temperature above the base.
/// The trade's Fahrenheit daily temperature units count degrees above 32 F, so 1 C-day = 1.8 F units (same base 0 C).
class ThermalSum {
 public:
  static constexpr ThermalSum from_c_days(double sum_c_days) { return ThermalSum(sum_c_days); }
  static constexpr ThermalSum from_f_units(double sum_f_units) { return ThermalSum(sum_f_units / 1.8); }
  constexpr double c_days() const { return sum_c_days_; }
  constexpr double f_units() const { return sum_c_days_ * 1.8; }
  static constexpr Temperature base() { return Temperature::from_c(0.0); }
  friend constexpr auto operator<=>(ThermalSum, ThermalSum) = default;
  friend constexpr ThermalSum operator+(ThermalSum a, ThermalSum b) { return from_c_days(a.c_days() + b.c_days()); }
  /// One more day at this mean temperature; below the base nothing accumulates.
  constexpr ThermalSum after_days(double days, Temperature mean) const {
    return from_c_days(sum_c_days_ + (mean > base() ? days * (mean - base()).c() : 0.0));
  }

 private:
  explicit constexpr ThermalSum(double sum_c_days) : sum_c_days_(sum_c_days) {}
  double sum_c_days_;
};

}  // namespace redd
