#include "planning/water_tanks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "planning/water_forecast.h"
#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;
using TankQuantity = tank::Quantity;

WaterTanks drawn(const AskedWater& made, TankDraws draws = {}) { return water_tanks(made.belief, made.now, nullptr, {}, draws); }

double middle(std::span<const double> column) {
  std::vector<double> values(column.begin(), column.end());
  std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2));
  return values[values.size() / 2];
}

TEST(DrawnFrom, KeepsMiddleAndEndsAndIsNeverNegative) {
  const Estimate<double> e{1.0, 2.0, 6.0};
  EXPECT_DOUBLE_EQ(drawn_from(e, 0.0), 2.0);
  EXPECT_DOUBLE_EQ(drawn_from(e, 1.645), 6.0);
  EXPECT_DOUBLE_EQ(drawn_from(e, -1.645), 1.0);
  EXPECT_DOUBLE_EQ(drawn_from(e, -50.0), 0.0);
}

TEST(WaterTanks, TheSameSeedDrawsTheSameTanksAndAnotherSeedOthers) {
  const auto made = asked_water(ripe_season(), 56);
  const auto once = drawn(*made), again = drawn(*made), other = drawn(*made, {.seed = 2});
  EXPECT_TRUE(std::ranges::equal(once.tanks.column(TankQuantity::nitrite), again.tanks.column(TankQuantity::nitrite)));
  EXPECT_EQ(once.ph_offset, again.ph_offset);
  EXPECT_NE(once.ph_offset, other.ph_offset);
  EXPECT_EQ(once.size(), 192u);
}

TEST(WaterTanks, StandWithinWhatTheReadingsAllow) {
  auto season = ripe_season();
  season.step(56, "ammonia", 1.6);  // far from what the model would say
  season.step(56, "nitrate", 40);
  const auto made = asked_water(season, 56);
  const auto tanks = drawn(*made);
  const auto& read = made->belief.find(inference::Quantity::total_ammonia)->value;
  for (const double value : tanks.tanks.column(TankQuantity::total_ammonia)) {
    EXPECT_GT(value, 0.5 * read.low);
    EXPECT_LT(value, 2.0 * read.high);
  }
  const auto& nitrate = made->belief.find(inference::Quantity::nitrate)->value;
  EXPECT_NEAR(middle(tanks.tanks.column(TankQuantity::nitrate)), nitrate.mid, nitrate.high - nitrate.low);
}

TEST(WaterTanks, PhIsThatOfTheReading) {
  auto season = ripe_season();
  season.step(56, "ph", 7.6);
  const auto made = asked_water(season, 56);
  const auto tanks = drawn(*made);
  const auto now = water_now(tanks, made->now.season.forcing, tanks.at_day);
  const auto& read = made->belief.find(inference::Quantity::ph)->value;
  EXPECT_NEAR(middle(now.ph), read.mid, 0.05);
  EXPECT_TRUE(tanks.ph_read);
}

TEST(WaterTanks, WithoutAPhTestAnythingUsualIsReckonedWithAndSaid) {
  SmallSeason season;
  season.step(3, "ammonia", 0.2);
  season.eggs(4);
  const auto made = asked_water(season, 5);
  const auto tanks = drawn(*made);
  EXPECT_FALSE(tanks.ph_read);
  const auto now = water_now(tanks, made->now.season.forcing, tanks.at_day);
  EXPECT_LT(*std::ranges::min_element(now.ph), 6.8);
  EXPECT_GT(*std::ranges::max_element(now.ph), 8.2);
  EXPECT_FALSE(tanks.assumed.empty());
}

TEST(WaterTanks, AReadingOffTheTopOfItsCardHasNoLowTanks) {
  auto season = ripe_season();
  season.add(56, SmallSeason::reading("ammonia", records::Reading::Form::above_last, std::nullopt));
  const auto made = asked_water(season, 56);
  EXPECT_GT(*std::ranges::min_element(drawn(*made).tanks.column(TankQuantity::total_ammonia)), 1.0);
}

TEST(NewWaterDraws, SpreadWithWhatIsNotKnown) {
  records::SourceWater tap;
  tap.nitrate = NitrogenConc::from_mg_n_per_l(2);
  const auto known = new_water_draws(new_water(tap, 0, {}), 400, 1), unknown = new_water_draws(new_water(std::nullopt, 0, {}), 400, 1);
  const auto spread = [](const std::vector<NewWaterDraw>& draws) {
    const auto [low, high] = std::ranges::minmax(draws, {}, &NewWaterDraw::nitrate_mg_n_per_l);
    return high.nitrate_mg_n_per_l - low.nitrate_mg_n_per_l;
  };
  EXPECT_LT(spread(known), spread(unknown));
}

}  // namespace
}  // namespace redd::planning
