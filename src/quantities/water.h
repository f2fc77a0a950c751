#pragma once
// The other water quantities: pH, alkalinity, hardness, oxygen, volume, mass. Alkalinity (carbonate hardness, KH) and
// general hardness (Ca + Mg, GH) share their units and differ as types: they are independent of each other.

#include <compare>
#include <optional>
#include <string_view>

namespace redd {

/// pH on the activity (NBS) scale. Never averaged as a number: waters mix through the carbonate system.
class Ph {
 public:
  static constexpr Ph from_ph(double value) { return Ph(value); }
  constexpr double ph() const { return ph_; }
  friend constexpr auto operator<=>(Ph, Ph) = default;

 private:
  explicit constexpr Ph(double value) : ph_(value) {}
  double ph_;
};

/// Units in which alkalinity and hardness are printed by kits and utilities.
enum class HardnessUnit {
  mg_caco3_per_l, german_degrees, french_degrees, english_degrees, us_grains_per_gallon, mmol_per_l, meq_per_l
};

/// mg CaCO3 per litre in one of the unit.
/// Source  Definitions: CaCO3 100.0869 g/mol; German degree 10 mg CaO/L (CaO 56.0774 g/mol); French degree 10 mg CaCO3/L;
///         English (Clark) degree 1 grain per imperial gallon (64.79891 mg / 4.54609 L); 1 grain per US gallon
///         (/ 3.785411784 L); mmol/L counts Ca + Mg.
constexpr double one_unit_mg_caco3_per_l(HardnessUnit unit) {
  constexpr double caco3_g_per_mol = 100.0869;
  constexpr double cao_g_per_mol = 56.0774;
  constexpr double grain_mg = 64.79891;
  switch (unit) {
    case HardnessUnit::german_degrees: return 10.0 * caco3_g_per_mol / cao_g_per_mol;
    case HardnessUnit::french_degrees: return 10.0;
    case HardnessUnit::english_degrees: return grain_mg / 4.54609;
    case HardnessUnit::us_grains_per_gallon: return grain_mg / 3.785411784;
    case HardnessUnit::mmol_per_l: return caco3_g_per_mol;
    case HardnessUnit::meq_per_l: return caco3_g_per_mol / 2.0;
    case HardnessUnit::mg_caco3_per_l: break;
  }
  return 1.0;
}

constexpr double hardness_converted(double value, HardnessUnit from, HardnessUnit to) {
  return value * one_unit_mg_caco3_per_l(from) / one_unit_mg_caco3_per_l(to);
}

/// The unit of this name, or nothing.
constexpr std::optional<HardnessUnit> hardness_unit_named(std::string_view name) {
  if (name == "mg_caco3_per_l") return HardnessUnit::mg_caco3_per_l;
  if (name == "german_degrees") return HardnessUnit::german_degrees;
  if (name == "french_degrees") return HardnessUnit::french_degrees;
  if (name == "english_degrees") return HardnessUnit::english_degrees;
  if (name == "us_grains_per_gallon") return HardnessUnit::us_grains_per_gallon;
  if (name == "mmol_per_l") return HardnessUnit::mmol_per_l;
  if (name == "meq_per_l") return HardnessUnit::meq_per_l;
  return std::nullopt;
}

namespace detail {
/// Shared body of Alkalinity and Hardness: an amount of charge per litre. The tag keeps the two apart.
template <class Tag>
class ChargeConc {
 public:
  static constexpr ChargeConc from_meq_per_l(double value) { return ChargeConc(value); }
  static constexpr ChargeConc from(double value, HardnessUnit unit) {
    return ChargeConc(hardness_converted(value, unit, HardnessUnit::meq_per_l));
  }
  static constexpr ChargeConc from_mg_caco3_per_l(double value) { return from(value, HardnessUnit::mg_caco3_per_l); }
  static constexpr ChargeConc from_german_degrees(double value) { return from(value, HardnessUnit::german_degrees); }
  constexpr double meq_per_l() const { return meq_per_l_; }
  constexpr double as(HardnessUnit unit) const {
    return hardness_converted(meq_per_l_, HardnessUnit::meq_per_l, unit);
  }
  constexpr double mg_caco3_per_l() const { return as(HardnessUnit::mg_caco3_per_l); }
  constexpr double german_degrees() const { return as(HardnessUnit::german_degrees); }
  friend constexpr auto operator<=>(ChargeConc, ChargeConc) = default;

 private:
  explicit constexpr ChargeConc(double value) : meq_per_l_(value) {}
  double meq_per_l_;
};
}  // namespace detail

/// Acid-neutralising capacity, mostly bicarbonate in fresh water. Kits call it KH.
using Alkalinity = detail::ChargeConc<struct AlkalinityTag>;
/// Calcium plus magnesium. Kits call it GH.
using Hardness = detail::ChargeConc<struct HardnessTag>;

/// Dissolved oxygen.
class OxygenConc {
 public:
  static constexpr OxygenConc from_mg_o2_per_l(double value) { return OxygenConc(value); }
  constexpr double mg_o2_per_l() const { return mg_o2_per_l_; }
  friend constexpr auto operator<=>(OxygenConc, OxygenConc) = default;

 private:
  explicit constexpr OxygenConc(double value) : mg_o2_per_l_(value) {}
  double mg_o2_per_l_;
};

/// Volume of water. US liquid gallon = 3.785411784 L exactly (NIST Handbook 44).
class Volume {
 public:
  static constexpr double litres_per_us_gallon = 3.785411784;
  static constexpr Volume from_l(double value) { return Volume(value); }
  static constexpr Volume from_us_gallons(double value) { return Volume(value * litres_per_us_gallon); }
  constexpr double l() const { return l_; }
  constexpr double us_gallons() const { return l_ / litres_per_us_gallon; }
  friend constexpr auto operator<=>(Volume, Volume) = default;

 private:
  explicit constexpr Volume(double value) : l_(value) {}
  double l_;
};

/// Mass. Avoirdupois ounce = 28.349523125 g exactly.
class Mass {
 public:
  static constexpr double grams_per_ounce = 28.349523125;
  static constexpr Mass from_g(double value) { return Mass(value); }
  static constexpr Mass from_mg(double value) { return Mass(value / 1000.0); }
  static constexpr Mass from_ounces(double value) { return Mass(value * grams_per_ounce); }
  constexpr double g() const { return g_; }
  constexpr double mg() const { return g_ * 1000.0; }
  constexpr double ounces() const { return g_ / grams_per_ounce; }
  friend constexpr auto operator<=>(Mass, Mass) = default;

 private:
  explicit constexpr Mass(double value) : g_(value) {}
  double g_;
};

}  // namespace redd
