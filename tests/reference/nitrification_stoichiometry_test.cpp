// What a whole filter takes from the water for each milligram of ammonia nitrogen, against the published balances.
// Wastewater and aquaculture practice, from memory of US EPA 1975 and of Ebeling and others 2006 and Timmons and Ebeling 2007: 4.18 g O2 (4.57
// without growth), 7.05-7.14 g alkalinity as CaCO3, 0.976 g NO3-N, 5.85 g CO2 for each g of ammonia-N.
#include <gtest/gtest.h>

#include "chemistry/molar_masses.h"
#include "tank/ensemble.h"
#include "tank/processes.h"

namespace redd::reference {
namespace {

struct Use {
  double oxygen_mg, alkalinity_mg_caco3, nitrate_mg_n;
};

/// By the table: one mg of ammonia-N that leaves the water, partly into bacteria, and all nitrite oxidised.
Use by_table(double ya, double yn) {
  const auto table = tank::process_table(ya, yn);
  const auto& a = table[0];
  const auto& n = table[1];
  // Extents for one mg N: nitrite made equals nitrite used; ammonia used is one.
  const double per_a = 1.0, per_n = a[2] / -n[2];
  const double ammonia = -(per_a * a[1] + per_n * n[1]);
  const double oxygen = -(per_a * a[7] + per_n * n[7]), alkalinity = -(per_a * a[8] + per_n * n[8]);
  const double mg_caco3_per_meq = chemistry::molar_mass::caco3 / 2.0;
  return {oxygen / ammonia, alkalinity / ammonia * mg_caco3_per_meq, per_n * n[3] / ammonia};
}

TEST(NitrificationStoichiometry, OxygenAlkalinityAndNitrateOfOneMilligram) {
  const Use grown = by_table(0.18, 0.06);
  EXPECT_GE(grown.oxygen_mg, 4.18);
  EXPECT_LE(grown.oxygen_mg, 4.57);
  // For each mg oxidised (not built in): 3.43 - 0.18 and 1.14 - 0.06.
  EXPECT_NEAR(grown.oxygen_mg / grown.nitrate_mg_n, 4.33, 0.01);
  EXPECT_GE(grown.alkalinity_mg_caco3, 7.05);
  EXPECT_LE(grown.alkalinity_mg_caco3, 7.15);  // 7.14 rounds 7.146
  EXPECT_NEAR(grown.nitrate_mg_n, 0.976, 0.005);
  const Use hardly_grown = by_table(1e-6, 1e-6);
  EXPECT_NEAR(hardly_grown.oxygen_mg, 4.57, 0.005);
  EXPECT_NEAR(hardly_grown.alkalinity_mg_caco3, 7.14, 0.01);
}

TEST(NitrificationStoichiometry, OfAWorkingTank) {
  // A settled filter fed with ammonium chloride for 20 days: bacteria grow and die, so between the two.
  tank::OneTank one;
  one.volume_l = 100.0;
  one.state.oxygen_mg_o2_per_l = 8.0;
  one.state.alkalinity_meq_per_l = 20.0;
  one.state.inorganic_carbon_mmol_per_l = 20.0;
  one.state.ammonia_oxidisers_mg_cod_per_l = 1.5;
  one.state.nitrite_oxidisers_mg_cod_per_l = 0.6;
  const tank::Forcing forcing{0.0, {{.temperature_c = 20.0, .ammonium_salt_mg_n_per_day = 100.0}}};
  tank::advance(one, forcing, 0.0, 30.0);
  const auto before = one.state;
  tank::advance(one, forcing, 30.0, 50.0);
  const double oxidised = 20.0 + before.total_ammonia_mg_n_per_l - one.state.total_ammonia_mg_n_per_l;
  const double alkalinity = (before.alkalinity_meq_per_l - one.state.alkalinity_meq_per_l) * chemistry::molar_mass::caco3 / 2.0;
  EXPECT_GE(alkalinity / oxidised, 7.05);
  EXPECT_LE(alkalinity / oxidised, 7.15);
  EXPECT_NEAR((one.state.nitrate_mg_n_per_l - before.nitrate_mg_n_per_l) / oxidised, 0.98, 0.02);
}

}  // namespace
}  // namespace redd::reference
