#pragma once
// Ion activities in dilute fresh water: how much dissolved ions screen each other. Range: ionic strength up to 0.1 mol/L.

#include <cmath>

#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::chemistry {

/// Debye-Hueckel constant A of water, log base 10, (L/mol)^1/2.
///
/// In      temperature: 0-90 C.
/// Out     0.492 at 0 C to 0.511 at 25 C.
/// Source  A = 1.8246e6 / (dielectric constant x kelvin)^1.5 (density taken as 1 g/mL; costs 0.0005 at 25 C), dielectric constant
///         of water by [malmberg1956].
inline double debye_huckel_a(Temperature temperature) {
  const double t = temperature.c();
  const double dielectric = 87.740 + t * (-0.40008 + t * (9.398e-4 - t * 1.410e-6));
  const double x = dielectric * temperature.k();
  return 1.8246e6 / (x * std::sqrt(x));
}

/// Base-10 logarithm of the activity coefficient of an ion with this charge (0 or below in fresh water).
///
/// In      ionic_strength_mol_per_l: 0-0.1 (the equation is usable to about 0.5).  charge: 1, 2...
/// Source  [davies1962], with the factor 0.3.
inline double log_activity(Temperature temperature, double ionic_strength_mol_per_l, int charge) {
  const double root = std::sqrt(ionic_strength_mol_per_l);
  return -debye_huckel_a(temperature) * charge * charge * (root / (1.0 + root) - 0.3 * ionic_strength_mol_per_l);
}

/// Ionic strength of a bicarbonate water from its alkalinity, mol/L, when nothing else is known.
///
/// Assumed: all of it sodium bicarbonate, 1.0 x alkalinity. In a pure calcium bicarbonate water it is 1.5 x; that moves pH by up to
///          0.006 and CO2 by up to 1.2 % at 4 meq/L, so a caller who knows better gives the ionic strength itself.
inline double ionic_strength_from_alkalinity(Alkalinity alkalinity) {
  constexpr double per_equivalent = 1.0;
  return per_equivalent * 1e-3 * std::fmax(0.0, alkalinity.meq_per_l());
}

inline bool activity_in_fitted_range(double ionic_strength_mol_per_l) {
  return ionic_strength_mol_per_l >= 0.0 && ionic_strength_mol_per_l <= 0.1;
}

}  // namespace redd::chemistry
