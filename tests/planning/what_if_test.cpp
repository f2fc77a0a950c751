#include "planning/what_if.h"

#include <gtest/gtest.h>

#include "support/what_if_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

const WhatIfBase& base() {
  static const WhatIfBase made = chilled_base();
  return made;
}

WhatIf told(const WhatIfSliders& sliders, const WhatIfBase& from = base()) {
  auto answer = what_if(from, sliders);
  require(answer.has_value(), "what_if_test", "no answer");
  require(answer->sound, "what_if_test", "not sound");
  return std::move(answer).value();
}

const std::vector<WaterBand>& line(const WhatIf& answer, WhatIfLine which) { return answer.bands[static_cast<std::size_t>(which)]; }
double chance(const WhatIf& answer, WhatIfLimit which) { return answer.summary.chance(which).probability.value_or(-1.0); }

TEST(WhatIf, AllAsItIsIsAsPlanned) {
  const auto answer = told({});
  for (std::size_t k = 0; k < what_if_limit_count; ++k) EXPECT_EQ(answer.summary.chances[k].probability, base().as_planned.chances[k].probability);
  ASSERT_TRUE(answer.summary.hatch.mid);
  EXPECT_EQ(answer.summary.hatch.mid, base().as_planned.hatch.mid);
  for (const auto& bands : answer.bands) ASSERT_EQ(bands.size(), static_cast<std::size_t>(what_if_days) + 1);
}

TEST(WhatIf, AsPlannedTheWaterStaysAtTheSetPoint) {
  const auto answer = told({});
  for (const auto& band : line(answer, WhatIfLine::temperature)) EXPECT_NEAR(band.mid, 8.0, 0.5);
  EXPECT_LT(chance(answer, WhatIfLimit::not_held), 0.2);
}

TEST(WhatIf, AWarmerRoomNeverMakesTheWaterColder) {
  double before = told({.room_warmer_c = -10}).summary.warmest_c.mid, before_chance = 0.0;
  for (double warmer = -8; warmer <= 15; warmer += 1.0) {
    const auto answer = told({.room_warmer_c = warmer});
    EXPECT_GE(answer.summary.warmest_c.mid, before - 1e-9) << warmer;
    EXPECT_GE(chance(answer, WhatIfLimit::not_held), before_chance) << warmer;
    before = answer.summary.warmest_c.mid;
    before_chance = chance(answer, WhatIfLimit::not_held);
  }
  EXPECT_GT(before_chance, 0.5);  // fifteen degrees more than it was built for
}

TEST(WhatIf, WarmerWaterHatchesEarlierColderLater) {
  const double planned = *told({}).summary.hatch.mid;
  EXPECT_LT(*told({.set_point_warmer_c = 3}).summary.hatch.mid, planned - 1.0);
  EXPECT_GT(*told({.set_point_warmer_c = -3}).summary.hatch.mid, planned + 1.0);
}

TEST(WhatIf, SkippedChangesLeaveMoreNitrate) {
  const auto none = told({.weekly_change_fraction = 0.0}), half = told({.weekly_change_fraction = 0.5});
  EXPECT_GT(line(none, WhatIfLine::nitrate).back().mid, line(half, WhatIfLine::nitrate).back().mid);
  EXPECT_GE(chance(none, WhatIfLimit::nitrate), chance(half, WhatIfLimit::nitrate));
  EXPECT_FALSE(none.summary.chance(WhatIfLimit::jump).probability);  // nothing is changed, so nothing jumps
}

TEST(WhatIf, MoreAnimalsNeverLoadLess) {
  double ammonia = 0.0, oxygen = 100.0;
  for (const double factor : {0.25, 0.5, 1.0, 2.0, 3.0}) {
    const auto answer = told({.animals_factor = factor});
    double sum = 0.0;
    for (const auto& band : line(answer, WhatIfLine::total_ammonia)) sum += band.mid;
    EXPECT_GE(sum, ammonia - 1e-6) << factor;
    EXPECT_LE(line(answer, WhatIfLine::oxygen).back().mid, oxygen + 1e-9) << factor;
    ammonia = sum;
    oxygen = line(answer, WhatIfLine::oxygen).back().mid;
  }
}

TEST(WhatIf, FoodCountsOnlyOnceFryEat) {
  const auto eggs = told({.food_factor = 2.0});
  EXPECT_EQ(line(eggs, WhatIfLine::nitrate).front().mid, line(told({}), WhatIfLine::nitrate).front().mid);
  auto fed = base();
  ASSERT_TRUE(fed.brood);
  fed.brood->hatch = fed.today - std::chrono::days(30);
  fed.brood->swim_up = fed.today - std::chrono::days(5);
  fed.dates.reset();
  const auto much = told({.food_factor = 2.0}, fed), little = told({.food_factor = 0.5}, fed);
  EXPECT_GT(line(much, WhatIfLine::nitrate).back().mid, line(little, WhatIfLine::nitrate).back().mid);
}

TEST(WhatIf, MovesSmoothlyWithTheSliders) {
  // The same chance for every place: a small step of a slider makes a small step of every middle.
  for (double warmer = 4.0; warmer < 9.0; warmer += 0.5) {
    const auto one = told({.room_warmer_c = warmer}), next = told({.room_warmer_c = warmer + 0.05});
    for (std::size_t i = 0; i < one.bands[0].size(); ++i) {
      EXPECT_NEAR(line(one, WhatIfLine::temperature)[i].mid, line(next, WhatIfLine::temperature)[i].mid, 0.15) << warmer;
      EXPECT_NEAR(line(one, WhatIfLine::ph)[i].mid, line(next, WhatIfLine::ph)[i].mid, 0.02) << warmer;
    }
  }
}

TEST(WhatIf, SaysNothingBeyondItsRanges) {
  for (const WhatIfSliders& sliders : {WhatIfSliders{.room_warmer_c = 15.5}, {.set_point_warmer_c = -7}, {.animals_factor = 0.1}, {.food_factor = 2.5}, {.weekly_change_fraction = 0.6}, {.room_warmer_c = std::nan("")}}) {
    const auto answer = what_if(base(), sliders);
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.problems().front().code, "out_of_range");
  }
}

TEST(WhatIf, WaterTooWarmForWhatWasTestedLeavesDatesAndOxygenOut) {
  auto weak = base();
  weak.heat.plate->rated = Power::from_w(20);
  weak.heat.held.reset();
  const auto answer = told({.room_warmer_c = 10}, weak);
  EXPECT_TRUE(answer.too_warm_to_tell);
  EXPECT_FALSE(answer.summary.hatch.mid);
  EXPECT_TRUE(line(answer, WhatIfLine::oxygen).empty());
  EXPECT_EQ(chance(answer, WhatIfLimit::too_warm), 1.0);
}

TEST(WhatIf, WithoutTheChillersPowerNobodySaysWhetherItHolds) {
  const auto plain = what_if_base_of(ripe_season(), 56);
  const auto answer = told({.room_warmer_c = 10}, plain);
  EXPECT_FALSE(answer.summary.chance(WhatIfLimit::not_held).probability);
  for (const auto& band : line(answer, WhatIfLine::temperature)) EXPECT_NEAR(band.mid, 8.0, 0.5);
}

TEST(WhatIf, WithoutAnimalsNothingHasToBeKept) {
  auto season = SmallSeason();
  season.add(2, chilled_tank());
  season.quiet_tests(6);
  const auto answer = told({.weekly_change_fraction = 0.0}, what_if_base_of(season, 7));
  for (const WhatIfLimit limit : {WhatIfLimit::too_warm, WhatIfLimit::un_ionized_ammonia, WhatIfLimit::nitrite, WhatIfLimit::oxygen}) EXPECT_FALSE(answer.summary.chance(limit).probability);
  EXPECT_FALSE(answer.summary.hatch.mid);
  EXPECT_FALSE(line(answer, WhatIfLine::nitrate).empty());
}

}  // namespace
}  // namespace redd::planning
