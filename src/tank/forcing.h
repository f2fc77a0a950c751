#pragma once
// What acts on the tank from outside, one entry a day: temperature, loads, air, evaporation. Loads hold for the whole day; temperature runs straight
// from one entry to the next.

#include <vector>

#include "chemistry/carbonate.h"
#include "chemistry/oxygen.h"

namespace redd::tank {

/// One day. Loads are for the whole tank, not per litre.
struct DayForcing {
  double temperature_c = 20.0;                ///< of the water when the day begins
  double excretion_mg_n_per_day = 0.0;        ///< ammonia given off by eggs and fish (brings one equivalent of alkalinity a mole)
  double ammonium_salt_mg_n_per_day = 0.0;    ///< ammonium chloride dripped in (brings no alkalinity)
  double organic_mg_n_per_day = 0.0;          ///< faeces, leftover food, dead eggs left in
  double oxygen_use_mg_o2_per_day = 0.0;      ///< breathing of eggs and fish
  double evaporation_l_per_day = 0.0;
  double air_co2_uatm = chemistry::outdoor_co2_uatm;
  double air_pressure_mmhg = chemistry::standard_pressure_mmhg;
  bool operator==(const DayForcing&) const = default;
};

/// Days in a row. Entry i acts from day first_day + i to first_day + i + 1; before the first and after the last entry the
/// nearest holds. Temperature at first_day + i is that of entry i.
struct Forcing {
  double first_day = 0.0;
  std::vector<DayForcing> days;
};

}  // namespace redd::tank
