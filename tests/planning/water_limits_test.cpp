#include "planning/water_limits.h"

#include <gtest/gtest.h>

#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

WaterLimits of(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  return water_limits(made->season, made->belief, made->now, made->zone);
}

TEST(WaterLimits, HoldFromTheDayAnimalsAreThere) {
  SmallSeason season;
  EXPECT_FALSE(of(season, 5).from_day);
  auto& setup = std::get<records::SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = setup.first_day + std::chrono::days(20);
  const auto before = of(season, 5);
  ASSERT_TRUE(before.from_day);
  EXPECT_DOUBLE_EQ(*before.from_day, 20.0);
  EXPECT_FALSE(before.hold_on(19.9));
  EXPECT_TRUE(before.hold_on(20.0));
  season.eggs(20);
  EXPECT_TRUE(of(season, 21).hold_on(21.5));
}

TEST(WaterLimits, TheKeeperMayLowerTheNitrateMarkAndNotRaiseIt) {
  SmallSeason season;
  auto& setup = std::get<records::SeasonSetup>(season.log().front().entry.body);
  const double ours = of(season, 5).nitrate_mg_n_per_l;
  setup.nitrate_act_mg_no3_per_l = 40;
  EXPECT_DOUBLE_EQ(of(season, 5).nitrate_mg_n_per_l, ours);
  setup.nitrate_act_mg_no3_per_l = 15;
  EXPECT_DOUBLE_EQ(of(season, 5).nitrate_mg_n_per_l, NitrogenConc::from_mg_no3_per_l(15).mg_n_per_l());
}

TEST(WaterLimits, TemperaturesFollowTheStagesToCome) {
  const auto limits = of(ripe_season(), 56);
  ASSERT_GE(limits.temperatures.size(), 2u);
  EXPECT_EQ(limits.temperatures_on(56.0).animals, limits.temperatures.front().animals);
  EXPECT_EQ(limits.temperatures_on(1000.0).animals, "fry");
}

TEST(WaterLimits, HardnessMayDriftByHalfOrTwoDegreesFromTheBroodsFirstWater) {
  EXPECT_DOUBLE_EQ(largest_drift_meq_per_l(4.0), 2.0);
  EXPECT_NEAR(largest_drift_meq_per_l(0.5), Hardness::from_german_degrees(2).meq_per_l(), 1e-3);
  auto season = ripe_season();
  const double high = *of(season, 56).hardness_high_meq_per_l;
  season.drops(56, "gh", 14);  // later readings do not move the limit
  EXPECT_DOUBLE_EQ(*of(season, 57).hardness_high_meq_per_l, high);
}

TEST(WaterLimits, EveryLimitIsSaidWithASource) {
  const auto lines = limit_lines(of(ripe_season(), 56), asked_water(ripe_season(), 56)->belief);
  EXPECT_EQ(lines.size(), water_limit_count);
  for (const auto& line : lines) {
    EXPECT_FALSE(line.source.empty()) << limit_key(line.kind);
    EXPECT_FALSE(line.sentence.empty()) << limit_key(line.kind);
  }
}

TEST(WaterLimits, NitrogenIsShownAsTheKeepersCardsPrintIt) {
  const auto made = asked_water(ripe_season(), 56);
  const auto basis_with = [&](records::TestUnit unit) {
    auto belief = made->belief;
    belief.water.at(inference::Quantity::nitrite).unit = unit;
    const auto lines = limit_lines(water_limits(made->season, belief, made->now, made->zone), belief);
    const auto nitrite = std::ranges::find(lines, WaterLimitKind::nitrite, &LimitLine::kind);
    return std::get<ShownNitrogen>(nitrite->sentence.values.at(0)).basis;
  };
  EXPECT_EQ(basis_with(records::TestUnit::mg_no2_per_l), NitrogenBasis::no2);
  EXPECT_EQ(basis_with(records::TestUnit::mg_n_per_l), NitrogenBasis::n);
}

}  // namespace
}  // namespace redd::planning
