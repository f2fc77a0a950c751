#pragma once
// Inputs that many formulas share, so that a temperature is described and bounded the same way everywhere.

#include <string>

#include "calc/formula.h"

namespace redd::calc {

/// What liquid fresh water at the surface can be; anything beyond is a slip of the pen (Fahrenheit, a lost decimal point).
inline constexpr Range possible_water_c{-1.0, 100.0};
inline constexpr Range possible_ph{0.0, 14.0};
inline constexpr Range possible_concentration_mg_per_l{0.0, 1e5};

inline Input water_temperature_c(Range fitted, std::string name = "temperature_c", std::string meaning = "water temperature") {
  return {.name = std::move(name), .unit = "C", .meaning = std::move(meaning), .fitted = fitted, .possible = possible_water_c};
}

inline Input water_ph(Range fitted, std::string name = "ph", std::string meaning = "pH as a test or meter reads it") {
  return {.name = std::move(name), .unit = "", .meaning = std::move(meaning), .fitted = fitted, .possible = possible_ph};
}

/// An optional or required amount that cannot be negative.
inline Input amount(std::string name, std::string unit, std::string meaning, Range possible = possible_concentration_mg_per_l) {
  return {.name = std::move(name), .unit = std::move(unit), .meaning = std::move(meaning), .possible = possible};
}

inline Input optional(Input input, std::string default_text = {}) {
  input.required = false;
  input.default_text = std::move(default_text);
  return input;
}

/// One of a set of which exactly one (required) or at most one (optional) may be given.
inline Input one_of(std::string set, Input input) {
  input.one_of = std::move(set);
  return input;
}

inline Input flag(std::string name, std::string meaning, bool default_value) {
  return {.name = std::move(name), .kind = InputKind::flag, .meaning = std::move(meaning), .required = false,
          .default_text = default_value ? "true" : "false"};
}

inline Input choice(std::string name, std::string meaning, std::vector<std::string> choices) {
  return {.name = std::move(name), .kind = InputKind::choice, .meaning = std::move(meaning), .choices = std::move(choices)};
}

inline Input volume_l() { return {.name = "volume_l", .unit = "L", .meaning = "volume of water", .possible = Range{0.001, 1e7}}; }

}  // namespace redd::calc
