#pragma once
// Concentrations of nitrogen species. Inside the program everything is mg N/L; a kit that prints "as NH3", "as NO2"
// and so on is converted here, by name, and nowhere else. The wrong basis is a factor 1.2 (ammonia) to 4.4 (nitrate).

#include <compare>

namespace redd {

/// Molar masses, g/mol: IUPAC standard atomic weights (abridged 2021): N 14.007, H 1.008, O 15.999.
namespace molar_mass {
inline constexpr double nitrogen = 14.007;
inline constexpr double hydrogen = 1.008;
inline constexpr double oxygen = 15.999;
inline constexpr double nh3 = nitrogen + 3 * hydrogen;
inline constexpr double nh4 = nitrogen + 4 * hydrogen;
inline constexpr double no2 = nitrogen + 2 * oxygen;
inline constexpr double no3 = nitrogen + 3 * oxygen;
}  // namespace molar_mass

/// What a printed nitrogen value counts: the nitrogen alone or the whole molecule.
enum class NitrogenBasis { n, nh3, nh4, no2, no3 };

/// mg of the molecule per mg of nitrogen in it (1 for as-N).
constexpr double mass_per_mass_n(NitrogenBasis basis) {
  switch (basis) {
    case NitrogenBasis::nh3: return molar_mass::nh3 / molar_mass::nitrogen;
    case NitrogenBasis::nh4: return molar_mass::nh4 / molar_mass::nitrogen;
    case NitrogenBasis::no2: return molar_mass::no2 / molar_mass::nitrogen;
    case NitrogenBasis::no3: return molar_mass::no3 / molar_mass::nitrogen;
    case NitrogenBasis::n: break;
  }
  return 1.0;
}

/// Concentration of ammonia, nitrite, nitrate or organic nitrogen, as nitrogen. >= 0 by use; differences may be negative.
class NitrogenConc {
 public:
  static constexpr NitrogenConc from_mg_n_per_l(double value) { return NitrogenConc(value); }
  static constexpr NitrogenConc from_mg_nh3_per_l(double value) { return from(value, NitrogenBasis::nh3); }
  static constexpr NitrogenConc from_mg_nh4_per_l(double value) { return from(value, NitrogenBasis::nh4); }
  static constexpr NitrogenConc from_mg_no2_per_l(double value) { return from(value, NitrogenBasis::no2); }
  static constexpr NitrogenConc from_mg_no3_per_l(double value) { return from(value, NitrogenBasis::no3); }
  static constexpr NitrogenConc from(double value, NitrogenBasis basis) {
    return NitrogenConc(value / mass_per_mass_n(basis));
  }
  constexpr double mg_n_per_l() const { return mg_n_per_l_; }
  constexpr double mg_nh3_per_l() const { return as(NitrogenBasis::nh3); }
  constexpr double mg_nh4_per_l() const { return as(NitrogenBasis::nh4); }
  constexpr double mg_no2_per_l() const { return as(NitrogenBasis::no2); }
  constexpr double mg_no3_per_l() const { return as(NitrogenBasis::no3); }
  constexpr double as(NitrogenBasis basis) const { return mg_n_per_l_ * mass_per_mass_n(basis); }
  friend constexpr auto operator<=>(NitrogenConc, NitrogenConc) = default;
  friend constexpr NitrogenConc operator+(NitrogenConc a, NitrogenConc b) { return NitrogenConc(a.mg_n_per_l_ + b.mg_n_per_l_); }
  friend constexpr NitrogenConc operator*(double k, NitrogenConc a) { return NitrogenConc(k * a.mg_n_per_l_); }

 private:
  explicit constexpr NitrogenConc(double mg_n_per_l) : mg_n_per_l_(mg_n_per_l) {}
  double mg_n_per_l_;
};

}  // namespace redd
