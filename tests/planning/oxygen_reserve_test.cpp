#include "planning/oxygen_reserve.h"

#include <gtest/gtest.h>

#include "emergency/holds.h"
#include "planning/loading.h"
#include "support/made_case.h"

namespace redd::planning {
namespace {

using inference::Animals;
using redd::testing::made_case;

ReserveCase case_of(const redd::testing::MadeCase& made) { return reserve_case(made.season, made.records, made.belief, made.heat, made.now); }

TEST(OxygenReserve, TheLoadingAndAnEmergencyTellTheSameHours) {
  for (const auto& made : redd::testing::cases_of_all_lives()) {
    if (!emergency::has_animals(made.at())) continue;
    const auto basket = emergency::still_basket(made.at()).span;
    const auto holds = oxygen_holds(case_of(made));
    if (in_basket(life_of(made.belief))) {
      ASSERT_TRUE(basket && holds.front().span);
      EXPECT_EQ(basket->likely, holds.front().span->likely);
    }
    const auto tank = emergency::still_tank(made.at()).span;
    const auto mine = std::ranges::find(holds, OxygenConc::from_mg_o2_per_l(tank_limit_mg_per_l), &OxygenHold::limit);
    ASSERT_NE(mine, holds.end());
    ASSERT_EQ(tank.has_value(), mine->span.has_value());
    if (tank) EXPECT_EQ(tank->soonest, mine->span->soonest);
  }
}

TEST(OxygenReserve, LowerLimitsLastLonger) {
  const auto at = case_of(made_case(Animals::fry, 400, 12, 100, -40.0));
  const auto seven = tank_reserve(at), four = tank_reserve(at, OxygenConc::from_mg_o2_per_l(4));
  ASSERT_TRUE(seven.soonest && four.soonest);
  EXPECT_LT(*seven.soonest, *four.soonest);
}

TEST(OxygenReserve, StartsAtAFreshReadingAndForgetsAnOldOne) {
  auto made = made_case(Animals::fry, 200, 10, 200, -10.0);
  inference::QuantityBelief read;
  read.quantity = inference::Quantity::oxygen;
  read.value = {7.5, 8.0, 8.5, Support::measured};
  read.age_days = 1;
  made.belief.water[read.quantity] = read;
  EXPECT_EQ(oxygen_at_first(made.season, made.belief, made.heat.water).mid, OxygenConc::from_mg_o2_per_l(8.0));
  made.belief.water[read.quantity].age_days = 20;
  EXPECT_GT(oxygen_at_first(made.season, made.belief, made.heat.water).mid, OxygenConc::from_mg_o2_per_l(11.0));
}

TEST(OxygenReserve, EachStageHasItsLimits) {
  const auto limits = [](const redd::testing::MadeCase& made) {
    std::vector<double> found;
    for (const auto& hold : oxygen_holds(case_of(made))) found.push_back(hold.limit.mg_o2_per_l());
    return found;
  };
  EXPECT_EQ(limits(made_case(Animals::alevin, 100, 8, 200, 20.0)), (std::vector{5.0, 8.0, 7.0, 5.0}));
  EXPECT_EQ(limits(made_case(Animals::fry, 100, 8, 200, -10.0)), (std::vector{7.0, 5.0, 4.0}));
  EXPECT_TRUE(oxygen_holds(case_of(made_case(Animals::none, 0, 8))).empty());
}

TEST(OxygenReserve, ReleasedAnimalsNoLongerBreathe) {
  auto made = made_case(Animals::fry, 200, 10, 200, -10.0);
  const auto all = tank_reserve(case_of(made));
  made.belief.brood.released_count = 120;
  EXPECT_EQ(count_of(made.season, made.belief), 80);
  EXPECT_GT(*tank_reserve(case_of(made)).soonest, *all.soonest);
}

}  // namespace
}  // namespace redd::planning
