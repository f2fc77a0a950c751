#include "planning/water_forecast.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/water_season.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using namespace redd::testing;
using TankQuantity = tank::Quantity;

TEST(Pour, MixesWhatIsDissolvedAndLeavesTheFilter) {
  const auto asked = asked_water(ripe_season(), 56);
  const auto made = water_case(asked->asked());
  WaterTanks w = made.tanks;
  pour(w, {made.tanks.at_day, 0.25, false, 0.0}, made.new_water, Temperature::from_c(8));
  for (std::size_t i = 0; i < w.size(); ++i) {
    const auto before = made.tanks.tanks.state(i), after = w.tanks.state(i);
    EXPECT_NEAR(after.nitrate_mg_n_per_l, 0.75 * before.nitrate_mg_n_per_l + 0.25 * made.new_water[i].nitrate_mg_n_per_l, 1e-9);
    EXPECT_NEAR(after.total_ammonia_mg_n_per_l, 0.75 * before.total_ammonia_mg_n_per_l + 0.25 * made.new_water[i].total_ammonia_mg_n_per_l, 1e-9);
    EXPECT_NEAR(after.hardness_meq_per_l, 0.75 * before.hardness_meq_per_l + 0.25 * made.new_water[i].hardness_meq_per_l, 1e-9);
    EXPECT_DOUBLE_EQ(after.ammonia_oxidisers_mg_cod_per_l, before.ammonia_oxidisers_mg_cod_per_l);
  }
}

TEST(Pour, VacuumingTakesMoreWasteThanTheWaterAlone) {
  const auto asked = asked_water(ripe_season(), 56);
  const auto made = water_case(asked->asked());
  WaterTanks with = made.tanks, without = made.tanks;
  for (WaterTanks* w : {&with, &without}) std::ranges::fill(w->tanks.column(TankQuantity::organic_nitrogen), 0.4);
  pour(with, {0, 0.1, true, 0.0}, made.new_water, Temperature::from_c(8));
  pour(without, {0, 0.1, false, 0.0}, made.new_water, Temperature::from_c(8));
  for (std::size_t i = 0; i < with.size(); ++i) {
    EXPECT_LT(with.tanks.state(i).organic_mg_n_per_l, without.tanks.state(i).organic_mg_n_per_l);
    EXPECT_NEAR(with.tanks.state(i).organic_mg_n_per_l, 0.4 * (1.0 - with.vacuum_share[i]), 1e-9);
  }
}

TEST(ForecastWater, ChangesLowerNitrateAndSayByHowMuch) {
  auto season = ripe_season();
  season.step(56, "nitrate", 20);
  const auto asked = asked_water(season, 56);
  const auto made = water_case(asked->asked());
  const std::vector<WaterDeed> deeds{{made.noon_of(made.open_days.front()), 0.4, false, 0.0}};
  const auto with = forecast_water(made.tanks, made.course(), deeds, {.bands = true}), without = forecast_water(made.tanks, made.course(), {}, {.bands = true});
  ASSERT_TRUE(with.sound && without.sound);
  EXPECT_LT(with.bands.back().nitrate_mg_n_per_l.mid, 0.75 * without.bands.back().nitrate_mg_n_per_l.mid);
  ASSERT_EQ(with.changes.size(), 1u);
  EXPECT_LT(with.changes[0].after.nitrate_mg_n_per_l.mid, with.changes[0].before.nitrate_mg_n_per_l.mid);
  EXPECT_EQ(with.bands.size(), without.bands.size());
  EXPECT_GE(with.bands.size(), 20u);
}

TEST(ForecastWater, ALimitBelowTheWaterIsBrokenByEveryTankFromTheStart) {
  const auto asked = asked_water(ripe_season(), 56);
  auto made = water_case(asked->asked());
  made.limits.nitrate_mg_n_per_l = -1.0;
  const auto found = forecast_water(made.tanks, made.course(), {});
  EXPECT_DOUBLE_EQ(found.broken_probability, 1.0);
  EXPECT_DOUBLE_EQ(found.by_limit[static_cast<std::size_t>(WaterLimitKind::nitrate)], 1.0);
  EXPECT_EQ(found.first, WaterLimitKind::nitrate);
  EXPECT_DOUBLE_EQ(*found.first_mid_day, made.watch_from_day);
  EXPECT_GT(found.standard_error, 0.0);  // never exactly certain
  EXPECT_DOUBLE_EQ(found.exposure, 1.0);
  EXPECT_FALSE(found.kept_from_day);
}

TEST(ForecastWater, SaysFromWhenLimitsAreKeptAgain) {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  const auto asked = asked_water(season, 56);
  auto made = water_case(asked->asked());
  for (auto& draw : made.new_water) draw = {0, 0, 0, 1.0, 1.4};
  made.limits.nitrite_mg_n_per_l = made.limits.un_ionized_mg_n_per_l = 100.0;
  const std::vector<WaterDeed> deeds{{made.watch_from_day + 5.5, 0.9, false, 0.0}};
  const auto found = forecast_water(made.tanks, made.course(), deeds);
  ASSERT_TRUE(found.kept_from_day);
  EXPECT_GT(*found.kept_from_day, deeds[0].at_day);
  EXPECT_LT(*found.kept_from_day, deeds[0].at_day + 2.0);
  EXPECT_NEAR(found.exposure_by_limit[static_cast<std::size_t>(WaterLimitKind::nitrate)], 6.0 / 21.0, 0.1);
}

TEST(ForecastWater, NothingIsBrokenWhereNothingLives) {
  const auto asked = asked_water(ripe_season(), 56);
  auto made = water_case(asked->asked());
  made.limits.nitrate_mg_n_per_l = -1.0;
  made.limits.from_day.reset();
  EXPECT_DOUBLE_EQ(forecast_water(made.tanks, made.course(), {}).broken_probability, 0.0);
}

TEST(ForecastWater, AJumpIsALimitOfItsOwn) {
  auto season = ripe_season();
  tap_of(season).alkalinity = Alkalinity::from_german_degrees(14);
  const auto asked = asked_water(season, 56);
  const auto made = water_case(asked->asked());
  const auto jump = [&](double fraction, double step_c) {
    const WaterDeed deed{made.noon_of(made.open_days.front()), fraction, false, step_c};
    return forecast_water(made.tanks, made.course(), std::span(&deed, 1)).by_limit[static_cast<std::size_t>(WaterLimitKind::jump)];
  };
  EXPECT_DOUBLE_EQ(jump(0.05, 0.0), 0.0);
  EXPECT_DOUBLE_EQ(jump(0.5, 0.0), 1.0);
  EXPECT_DOUBLE_EQ(jump(0.05, 1.2), 1.0);
}

TEST(ForecastWater, EvaporationGathersSaltsAndTopsUpNothingElse) {
  const auto asked = asked_water(ripe_season(), 56);
  auto made = water_case(asked->asked());
  const auto gh = [&](double litres, double top_up) {
    std::ranges::fill(made.tanks.evaporation_l_per_day, litres);
    made.top_up_hardness_meq_per_l = top_up;
    return forecast_water(made.tanks, made.course(), {}, {.bands = true}).bands.back().hardness_meq_per_l.mid;
  };
  const double still = gh(0.0, 1.5), topped = gh(2.0, 1.5);
  EXPECT_NEAR(topped - still, 2.0 * programme_days * 1.5 / 200.0, 0.02);
  EXPECT_DOUBLE_EQ(gh(2.0, 0.0), still);  // distilled water leaves nothing behind
}

TEST(ForecastWater, GivingUpNeverOverstatesTheChance) {
  auto season = ripe_season();
  season.step(56, "ammonia", 1.6);
  season.step(56, "ph", 8.0);
  const auto asked = asked_water(season, 56);
  const auto made = water_case(asked->asked());
  const double full = forecast_water(made.tanks, made.course(), {}).broken_probability;
  const double given_up = forecast_water(made.tanks, made.course(), {}, {.give_up_above = 0.05}).broken_probability;
  EXPECT_GT(given_up, 0.05);
  EXPECT_LE(given_up, full);
}

}  // namespace
}  // namespace redd::planning
