#pragma once
// The carbonate system of fresh water: pH, alkalinity, total inorganic carbon (DIC) and carbon dioxide, any two giving the rest.
// Start at carbonate_from_ph() or carbonate_from_pco2(). pH is on the activity scale; concentrations are molar, with activity
// coefficients by Davies. Pure functions, no allocation, called once per particle and step.
//
// Alkalinity here is carbonate alkalinity: [HCO3] + 2 [CO3] + [OH] - [H]. Differs: the acid-base action of ammonia, phosphate,
// silica and humic acids is left out. 1 mg N/L of total ammonia at pH 8.5 and 10 C carries 0.004 meq/L of the measured alkalinity.

#include <optional>

#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::chemistry {

/// Partial pressure of CO2 in outdoor air, microatmospheres. Assumed: 420, the clean-air average of the early 2020s; rises about 2.5 a year.
/// A classroom full of people is often at 1000-2000.
inline constexpr double outdoor_co2_uatm = 420.0;

/// Equilibrium constants at one temperature and ionic strength. pk*: thermodynamic (ionic strength zero), base-10.
/// The *_mixed ones take the hydrogen ion as activity (what a pH test reads) and all else as concentration.
struct CarbonateConstants {
  double pk1, pk2, pkw;
  double pkh;  ///< CO2 (gas) to CO2 dissolved, mol/L/atm
  double k1_mixed, k2_mixed, kw_mixed;
  double kh;
  double hydrogen_activity_coefficient;
};

/// In      temperature: 0-90 C.  ionic_strength_mol_per_l: 0-0.1.
/// Errors  none; outside extrapolates, carbonate_in_fitted_range() is false.
/// Source  [plummer1982], K1, K2 and KH as printed in the WATEQ4F data base of PHREEQC [parkhurst2013]; Kw from the same data base.
CarbonateConstants carbonate_constants(Temperature temperature, double ionic_strength_mol_per_l);

/// One water, fully described.
struct CarbonateState {
  double ph;
  double alkalinity_meq_per_l;
  double dic_mmol_per_l;
  double co2_mg_per_l;   ///< dissolved CO2 (with H2CO3), as CO2
  double pco2_uatm;      ///< of a gas in equilibrium with it
  double bicarbonate_mmol_per_l;
  double carbonate_mmol_per_l;
};

/// Ionic strength is taken from the alkalinity when none is given (see activity.h).
using IonicStrength = std::optional<double>;

/// The water with this pH.
/// Errors  nothing when no such water exists: at this pH hydroxide alone exceeds the alkalinity.
std::optional<CarbonateState> carbonate_from_ph(Temperature temperature, Alkalinity alkalinity, Ph ph,
                                                IonicStrength ionic_strength_mol_per_l = {});

/// The water in equilibrium with a gas of this CO2 pressure (> 0): "open" system, for instance after long aeration.
std::optional<CarbonateState> carbonate_from_pco2(Temperature temperature, Alkalinity alkalinity, double pco2_uatm,
                                                  IonicStrength ionic_strength_mol_per_l = {});

/// The water with this dissolved CO2 (> 0), mg/L.
std::optional<CarbonateState> carbonate_from_co2(Temperature temperature, Alkalinity alkalinity, double co2_mg_per_l,
                                                 IonicStrength ionic_strength_mol_per_l = {});

/// The water with this total inorganic carbon (>= 0): "closed" system, nothing exchanged with air.
std::optional<CarbonateState> carbonate_from_dic(Temperature temperature, Alkalinity alkalinity, double dic_mmol_per_l,
                                                 IonicStrength ionic_strength_mol_per_l = {});

/// Temperature 0-90 C and alkalinity up to 10 meq/L (beyond that the ionic-strength estimate and Davies' equation are doubtful).
bool carbonate_in_fitted_range(Temperature temperature, Alkalinity alkalinity);

}  // namespace redd::chemistry
