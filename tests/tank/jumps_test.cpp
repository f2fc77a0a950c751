#include "tank/jumps.h"

#include <gtest/gtest.h>

#include "support/plain_tank.h"

namespace redd::tank {
namespace {

Ensemble tank_of(const TankState& state, double volume_l = 100.0) {
  Ensemble e(1, volume_l);
  e.set(0, state, {});
  return e;
}

TankState full() {
  const auto c = tests::random_case(11, 1);
  TankState s = c.state;
  s.hardness_meq_per_l = 2.5;
  return s;
}

TEST(ChangeWater, BlendsTheWaterAndLeavesTheFilter) {
  Ensemble e = tank_of(full());
  SourceWater source;
  source.nitrate_mg_n_per_l = 2.0;
  source.chloramine_mg_per_l = 2.0;
  source.alkalinity_meq_per_l = 1.0;
  change_water(e, 25.0, source);
  const TankState after = e.state(0), before = full();
  EXPECT_NEAR(after.nitrate_mg_n_per_l, 0.75 * before.nitrate_mg_n_per_l + 0.5, 1e-12);
  // 2 mg/L of chloramine as Cl2 hold 2 x 14.007/70.90 mg of nitrogen.
  EXPECT_NEAR(after.total_ammonia_mg_n_per_l, 0.75 * before.total_ammonia_mg_n_per_l + 0.25 * 2.0 * 14.007 / 70.90, 1e-9);
  EXPECT_NEAR(after.alkalinity_meq_per_l, 0.75 * before.alkalinity_meq_per_l + 0.25, 1e-12);
  EXPECT_EQ(after.ammonia_oxidisers_mg_cod_per_l, before.ammonia_oxidisers_mg_cod_per_l);
  EXPECT_EQ(e.volume_l(), 100.0);
}

TEST(ChangeWater, TakesNoMoreThanThereIs) {
  Ensemble e = tank_of(full());
  change_water(e, 500.0, {});
  EXPECT_EQ(e.state(0).nitrate_mg_n_per_l, 0.0);
  EXPECT_GT(e.state(0).ammonia_oxidisers_mg_cod_per_l, 0.0);
}

TEST(AddWater, UndoesEvaporation) {
  const TankState before = full();
  OneTank one{before, {}, 100.0};
  one.parameters.ammonia_oxidiser_growth_per_day = one.parameters.nitrite_oxidiser_growth_per_day = 0.0;  // let nothing live
  one.parameters.ammonia_oxidiser_decay_per_day = one.parameters.nitrite_oxidiser_decay_per_day = 0.0;
  Forcing forcing;
  forcing.days.assign(5, {.evaporation_l_per_day = 1.0});
  Ensemble e(1, 100.0);
  e.set(0, one.state, one.parameters);
  advance(e, forcing, 0.0, 5.0);
  add_water(e, 5.0, pure_water(Temperature::from_c(20.0)));
  EXPECT_NEAR(e.volume_l(), 100.0, 1e-9);
  EXPECT_NEAR(e.state(0).nitrate_mg_n_per_l, before.nitrate_mg_n_per_l, 1e-9);
  EXPECT_NEAR(e.state(0).hardness_meq_per_l, before.hardness_meq_per_l, 1e-9);
  EXPECT_NEAR(e.state(0).ammonia_oxidisers_mg_cod_per_l, before.ammonia_oxidisers_mg_cod_per_l, 1e-9);
}

TEST(AddDose, AmmoniumSaltBringsNoAlkalinityAndAmmoniaSolutionDoes) {
  Ensemble salt = tank_of(full()), solution = tank_of(full());
  add_dose(salt, {.ammonium_chloride_mg_n = 300.0});
  add_dose(solution, {.ammonia_solution_mg_n = 300.0});
  EXPECT_NEAR(salt.state(0).total_ammonia_mg_n_per_l, full().total_ammonia_mg_n_per_l + 3.0, 1e-12);
  EXPECT_NEAR(solution.state(0).total_ammonia_mg_n_per_l, full().total_ammonia_mg_n_per_l + 3.0, 1e-12);
  EXPECT_EQ(salt.state(0).alkalinity_meq_per_l, full().alkalinity_meq_per_l);
  EXPECT_NEAR(solution.state(0).alkalinity_meq_per_l, full().alkalinity_meq_per_l + 3.0 / 14.007, 1e-12);
}

TEST(AddDose, MayDifferFromParticleToParticle) {
  Ensemble e(2, 100.0);
  e.set(0, full(), {});
  e.set(1, full(), {});
  const double factors[] = {1.0, 0.5};
  add_dose(e, {.nitrite_mg_n = 100.0, .bicarbonate_meq = 50.0}, factors);
  EXPECT_NEAR(e.state(0).nitrite_mg_n_per_l - full().nitrite_mg_n_per_l, 1.0, 1e-12);
  EXPECT_NEAR(e.state(1).nitrite_mg_n_per_l - full().nitrite_mg_n_per_l, 0.5, 1e-12);
  EXPECT_NEAR(e.state(1).inorganic_carbon_mmol_per_l - full().inorganic_carbon_mmol_per_l, 0.25, 1e-12);
}

TEST(LoseFilter, TakesTheSameShareOfAllThatIsAttached) {
  Ensemble e = tank_of(full());
  lose_filter(e, 0.3);
  EXPECT_NEAR(e.state(0).ammonia_oxidisers_mg_cod_per_l, 0.7 * full().ammonia_oxidisers_mg_cod_per_l, 1e-15);
  EXPECT_NEAR(e.state(0).nitrite_oxidisers_mg_cod_per_l, 0.7 * full().nitrite_oxidisers_mg_cod_per_l, 1e-15);
  EXPECT_EQ(e.state(0).nitrate_mg_n_per_l, full().nitrate_mg_n_per_l);
  const double all[] = {1.0};
  lose_filter(e, all);
  EXPECT_EQ(e.state(0).ammonia_oxidisers_mg_cod_per_l, 0.0);
}

TEST(SeedFilter, AddsBacteria) {
  Ensemble e = tank_of({});
  seed_filter(e, 50.0, 20.0);
  EXPECT_NEAR(e.state(0).ammonia_oxidisers_mg_cod_per_l, 0.5, 1e-15);
  EXPECT_NEAR(e.state(0).nitrite_oxidisers_mg_cod_per_l, 0.2, 1e-15);
  Ensemble share = tank_of({});
  seed_filter_share(share, 0.1, 2.0);
  EXPECT_NEAR(share.state(0).ammonia_oxidisers_mg_cod_per_l, 0.1 * 2.0 * 0.17 / 0.10, 1e-12);
}

TEST(AirBalancedCarbon, IsALittleMoreThanTheAlkalinity) {
  const double carbon = air_balanced_carbon_mmol_per_l(Temperature::from_c(15.0), 2.0);
  EXPECT_GT(carbon, 1.9);
  EXPECT_LT(carbon, 2.1);
}

}  // namespace
}  // namespace redd::tank
