#pragma once
// Oxygen that water holds in balance with air, by temperature, pressure, elevation and salinity. Start at oxygen_saturation().

#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::chemistry {

inline constexpr double standard_pressure_mmhg = 760.0;

/// Air pressure of the standard atmosphere at this height.
///
/// In      elevation_m: about -400 to 5000 m above sea level. The day's weather moves the true pressure by up to some 3 %.
/// Source  [colt2012], barometric formula at 15 C.
double pressure_mmhg_at_elevation(double elevation_m);

/// Dissolved oxygen in water at equilibrium with moist air.
///
/// In      temperature: 0-40 C.  pressure_mmhg: true station pressure (not reduced to sea level), above the vapour pressure of water.
///         salinity_psu: 0-40.
/// Out     mg/L, falling with temperature and salinity, rising with pressure; 14.62 at 0 C and 1 atm.
/// Source  [benson1984], eq. 32, as adopted by [usgs2011]; pressure [usgs1981].  Differs: the fuller pressure form of Standard Methods
///         4500-O agrees within 0.02 %.
OxygenConc oxygen_saturation(Temperature temperature, double pressure_mmhg = standard_pressure_mmhg, double salinity_psu = 0.0);

/// Vapour pressure of fresh water, mmHg, in the form the pressure correction was published with. Source [usgs1981].
double vapor_pressure_mmhg(Temperature temperature);

bool oxygen_in_fitted_range(Temperature temperature, double pressure_mmhg, double salinity_psu);

}  // namespace redd::chemistry
