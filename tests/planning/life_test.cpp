#include "planning/life.h"

#include <gtest/gtest.h>

#include "support/made_case.h"

namespace redd::planning {
namespace {

using inference::Animals;
using redd::testing::made_case;

TEST(Life, EachHasItsCaseAndItsWord) {
  const auto cases = redd::testing::cases_of_all_lives();
  ASSERT_EQ(cases.size(), all_lives.size());
  for (std::size_t i = 0; i < cases.size(); ++i) EXPECT_EQ(life_of(cases[i].at()), all_lives[i]) << word_of(all_lives[i]);
}

TEST(Life, DatesNobodyKnowsCountAsTheMoreHelpless) {
  EXPECT_EQ(life_of(made_case(Animals::eyed_egg, 100, 8).belief), Life::eggs_near_hatch);
  EXPECT_EQ(life_of(made_case(Animals::alevin, 100, 8).belief), Life::alevins_near_emergence);
}

TEST(Life, HatchingInsideTheMarginEndsTheGrace) {
  EXPECT_EQ(life_of(made_case(Animals::eyed_egg, 100, 8, 200, 3.5).belief), Life::eggs);
  EXPECT_EQ(life_of(made_case(Animals::eyed_egg, 100, 8, 200, 2.9).belief), Life::eggs_near_hatch);
  EXPECT_EQ(life_of(made_case(Animals::eyed_egg, 100, 8, 200, -1.0).belief), Life::eggs_near_hatch);
  EXPECT_EQ(life_of(made_case(Animals::alevin, 100, 8, 200, 7.5).belief), Life::alevins);
  EXPECT_EQ(life_of(made_case(Animals::alevin, 100, 8, 200, 6.9).belief), Life::alevins_near_emergence);
}

TEST(Life, CountsTheLiving) {
  auto made = made_case(Animals::alevin, 200, 8);
  made.belief.brood.dead_count = 30;
  EXPECT_EQ(count_of(made.season, made.belief), 170);
  made.belief.brood.dead_count = 999;
  EXPECT_EQ(count_of(made.season, made.belief), 1);
  made.belief.brood.animals = Animals::none;
  EXPECT_EQ(count_of(made.season, made.belief), 200);
  made.season.egg_count = 80;
  EXPECT_EQ(count_of(made.season, made.belief), 80);
}

TEST(Life, OxygenUseIsOrderedAndRisesWithNumberAndWarmth) {
  for (const Life life : all_lives) {
    if (life == Life::none) continue;
    const Estimate<double> g{0.1, 0.3, 0.9, Support::assumed};
    const auto use = oxygen_use_mg_o2_per_h(life, 100, g, 0.3, Temperature::from_c(8));
    EXPECT_LE(use.low, use.mid) << word_of(life);
    EXPECT_LE(use.mid, use.high) << word_of(life);
    EXPECT_GT(oxygen_use_mg_o2_per_h(life, 101, g, 0.3, Temperature::from_c(8)).low, use.low) << word_of(life);
    EXPECT_GT(oxygen_use_mg_o2_per_h(life, 100, g, 0.3, Temperature::from_c(9)).low, use.low) << word_of(life);
  }
}

}  // namespace
}  // namespace redd::planning
