#pragma once
// The process model of tank and filter as one table: what each process does to each quantity (Petersen or Gujer form), and how fast each runs.
// Read process_table() for what, and process_rates() in detail/rates.h for how fast.
//
// Alkalinity follows charge and nothing else: + 1/14 meq for each mg of ammonium-N gained, - 1/14 for each mg of nitrite- or nitrate-N.
// Oxygen follows oxygen demand (COD). Both are proved below, with nitrogen and carbon.

#include <array>
#include <cstddef>
#include <initializer_list>

#include "chemistry/molar_masses.h"
#include "chemistry/nitrification.h"
#include "tank/state.h"

namespace redd::tank {

namespace stoichiometry {
using chemistry::ammonia_to_nitrite_mg_o2_per_mg_n;
using chemistry::nitrite_to_nitrate_mg_o2_per_mg_n;
/// mg N in 1 mg COD of bacteria, and the share of dead bacteria that nothing breaks down.  Source  [hiatt2008], Table 2 as transcribed.
inline constexpr double biomass_nitrogen = 0.086;
inline constexpr double inert_share = 0.08;
/// mmol carbon in 1 mg COD of bacteria, C5H7O2N (5 carbon to 5 O2).
inline constexpr double biomass_carbon = 1.0 / (2.0 * chemistry::molar_mass::oxygen);
/// meq in 1 mg of nitrogen.
inline constexpr double charge = 1.0 / chemistry::molar_mass::nitrogen;
/// mmol CO2 breathed out for each mg O2.  Source  Respiratory quotient 0.9, midway between fat and protein (textbook, from memory).
inline constexpr double breath_carbon = 0.9 / (2.0 * chemistry::molar_mass::oxygen);
}  // namespace stoichiometry

enum class Process : std::size_t {
  ammonia_oxidation, nitrite_oxidation, ammonia_oxidiser_decay, nitrite_oxidiser_decay, ammonification, nitrite_assimilation,
  excretion, breathing, oxygen_exchange, carbon_dioxide_exchange, recovery
};
inline constexpr std::size_t process_count = 11;

using ProcessRow = std::array<double, integrated_count>;
using ProcessTable = std::array<ProcessRow, process_count>;

/// What one unit of each process does to each quantity.
///
/// In      yields: mg COD of bacteria grown on each mg N oxidised.
/// Out     rows in the order of Process, columns in the order of Quantity.
/// Source  Two-step nitrification as in [sin2008] and [hiatt2008]; nitrogen of dead bacteria goes to organic nitrogen.
///         Differs: where ammonia runs out, nitrite oxidisers build their nitrogen from nitrite (sixth row), so that ammonia stays >= 0.
constexpr ProcessTable process_table(double ammonia_oxidiser_yield, double nitrite_oxidiser_yield) {
  using namespace stoichiometry;
  const double ya = ammonia_oxidiser_yield, yn = nitrite_oxidiser_yield;
  const double n = biomass_nitrogen, c = biomass_carbon, eq = charge, fi = inert_share;
  const double o2a = -(ammonia_to_nitrite_mg_o2_per_mg_n - ya) / ya;
  const double o2n = -(nitrite_to_nitrate_mg_o2_per_mg_n - yn) / yn;
  const double o2s = ammonia_to_nitrite_mg_o2_per_mg_n;
  const double nr = n * (1.0 - fi);
  const double cr = c * (1.0 - fi);
  return {{
      // organic  ammonia       nitrite   nitrate  X_A  X_N  debris  oxygen       alkalinity              carbon  shock
      {0.0,       -1.0/ya - n,  1.0/ya,   0.0,      1.,  0., 0.0,    o2a,         -2.0*eq/ya - n*eq,      -c,     0.0},  // ammonia oxidation (mg COD grown)
      {0.0,       -n,           -1.0/yn,  1.0/yn,   0.,  1., 0.0,    o2n,         -n*eq,                  -c,     0.0},  // nitrite oxidation (mg COD grown)
      {nr,        0.0,          0.0,      0.0,     -1.,  0., fi,     -(1.0 - fi), 0.0,                    cr,     0.0},  // decay of ammonia oxidisers
      {nr,        0.0,          0.0,      0.0,      0., -1., fi,     -(1.0 - fi), 0.0,                    cr,     0.0},  // decay of nitrite oxidisers
      {-1.0,      1.0,          0.0,      0.0,      0.,  0., 0.0,    0.0,         eq,                     0.0,    0.0},  // ammonification (mg N)
      {0.0,       1.0,          -1.0,     0.0,      0.,  0., 0.0,    o2s,         2.0*eq,                 0.0,    0.0},  // nitrite assimilated for ammonia (mg N)
      {0.0,       1.0,          0.0,      0.0,      0.,  0., 0.0,    0.0,         eq,                     0.0,    0.0},  // excretion (mg N)
      {0.0,       0.0,          0.0,      0.0,      0.,  0., 0.0,    -1.0,        0.0,                    breath_carbon, 0.0},  // breathing (mg O2)
      {0.0,       0.0,          0.0,      0.0,      0.,  0., 0.0,    1.0,         0.0,                    0.0,    0.0},  // oxygen from air (mg O2)
      {0.0,       0.0,          0.0,      0.0,      0.,  0., 0.0,    0.0,         0.0,                    1.0,    0.0},  // carbon dioxide from air (mmol)
      {0.0,       0.0,          0.0,      0.0,      0.,  0., 0.0,    0.0,         0.0,                    0.0,   -1.0},  // recovery from a chill
  }};
}

/// How much of a conserved thing one unit of each quantity holds.
using Content = std::array<double, integrated_count>;
namespace content {
inline constexpr double n = stoichiometry::biomass_nitrogen;
// Debris keeps the nitrogen of the bacteria it comes from.
inline constexpr Content nitrogen{1, 1, 1, 1, n, n, n, 0, 0, 0, 0};
// Electric charge that alkalinity must answer for: ammonium positive, nitrite and nitrate negative.
inline constexpr Content charge{0, -stoichiometry::charge, stoichiometry::charge, stoichiometry::charge, 0, 0, 0, 0, 1, 0, 0};
// Oxygen demand relative to ammonia: nitrite and nitrate owe the oxygen they took up, oxygen itself is -1.
inline constexpr Content oxygen_demand{0, 0, -chemistry::ammonia_to_nitrite_mg_o2_per_mg_n, -chemistry::ammonia_to_nitrate_mg_o2_per_mg_n,
                                       1, 1, 1, -1, 0, 0, 0};
inline constexpr double c = stoichiometry::biomass_carbon;
inline constexpr Content carbon{0, 0, 0, 0, c, c, c, 0, 0, 1, 0};
}  // namespace content

/// Change of a conserved content by one unit of a process; zero when the process conserves it.
constexpr double imbalance(const ProcessRow& row, const Content& content) {
  double sum = 0.0;
  for (std::size_t i = 0; i < integrated_count; ++i) sum += row[i] * content[i];
  return sum;
}

/// Every process within the water conserves the content; those that trade with air, animals or food are the exceptions named.
constexpr bool conserves(const ProcessTable& table, const Content& content, std::initializer_list<Process> exceptions) {
  for (std::size_t p = 0; p < process_count; ++p) {
    bool excepted = false;
    for (const Process exception : exceptions) excepted = excepted || static_cast<std::size_t>(exception) == p;
    const double left = imbalance(table[p], content);
    if (!excepted && (left > 1e-13 || left < -1e-13)) return false;
  }
  return true;
}

namespace proof {
using enum Process;
inline constexpr ProcessTable typical = process_table(0.17, 0.06);
inline constexpr ProcessTable extreme = process_table(0.02, 0.40);
static_assert(conserves(typical, content::nitrogen, {excretion}) && conserves(extreme, content::nitrogen, {excretion}));
static_assert(conserves(typical, content::charge, {}) && conserves(extreme, content::charge, {}));
static_assert(conserves(typical, content::oxygen_demand, {breathing, oxygen_exchange}) &&
              conserves(extreme, content::oxygen_demand, {breathing, oxygen_exchange}));
static_assert(conserves(typical, content::carbon, {breathing, carbon_dioxide_exchange}) &&
              conserves(extreme, content::carbon, {breathing, carbon_dioxide_exchange}));
}  // namespace proof

namespace kinetics {
/// Half rate at pH 6.6, where the straight line 1 - 0.833 (7.2 - pH) of wastewater practice (textbook, from memory) falls to one half.
/// Differs: a hyperbola in the hydrogen ion instead of two straight lines: no kink, and no dead stop at pH 6.0, where the trickling filter
/// of [tyson2008] still ran at 24 % of its rate at pH 8 (this form: 21 %).
inline constexpr double half_rate_hydrogen_mmol_per_l = 2.5118864315095823e-4;
/// Ammonification and gas exchange by temperature.  Source  Initialisation of a public activated-sludge benchmark (theta 1.072, 1.024).
inline constexpr double ammonification_theta = 1.072;
inline constexpr double gas_transfer_theta = 1.024;
/// Transfer of carbon dioxide over that of oxygen.  Source  Square root of the ratio of diffusion coefficients (from memory).
inline constexpr double carbon_dioxide_over_oxygen = 0.91;
/// Below this oxygen nothing is breathed; squared, so that at ordinary oxygen it changes nothing (4e-5 at 8 mg/L).  Assumed: keeps oxygen >= 0.
inline constexpr double least_oxygen_mg_o2_per_l = 0.05;
/// Below this ammonia nitrite oxidisers turn to nitrite for their nitrogen; squared likewise.  Assumed: keeps ammonia >= 0, far below any test.
inline constexpr double least_ammonia_mg_n_per_l = 1e-3;
/// Faster cooling than this between two days is a shock.  Assumed: 14 C over a week counts as gradual.
/// Source  [hwang2007]: a sudden drop by 10 C cost 20 % more than temperature alone, a gradual one nothing.
inline constexpr double gradual_cooling_c_per_day = 2.0;
inline constexpr double reference_temperature_c = 20.0;
}  // namespace kinetics

}  // namespace redd::tank
