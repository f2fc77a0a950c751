#include "season/water_look.h"

#include <gtest/gtest.h>

#include "support/water_season.h"

namespace redd::season {
namespace {

using namespace redd::testing;

planning::FilterOutlook with_tanks(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  planning::FilterOutlook outlook;
  outlook.tanks = std::make_shared<const tank::Ensemble>(planning::water_case(made->asked()).tanks.tanks);
  return outlook;
}

std::optional<planning::WaterProgramme> programme_of(const SmallSeason& season, int day, const planning::FilterOutlook* filter) {
  const auto view = believed_day({}, season.log(), on_day(day, 12));
  return water_programme_of(*view, filter);
}

TEST(WaterProgrammeOf, WaitsForTheFiltersOutlook) {
  const auto season = ripe_season();
  const auto outlook = with_tanks(season, 56);
  EXPECT_FALSE(programme_of(season, 56, nullptr));
  const auto found = programme_of(season, 56, &outlook);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->from_posterior);
}

TEST(WaterProgrammeOf, IsNotWorkedOutWhereNoRuleWouldSpeakOfIt) {
  const auto season = ripe_season();
  const auto outlook = with_tanks(season, 56);
  EXPECT_FALSE(programme_of(season, 90, &outlook));  // nobody has tested for weeks
  SmallSeason empty;
  empty.quiet_tests(5);
  EXPECT_FALSE(programme_of(empty, 6, &outlook));    // nothing lives in it
}

TEST(LookAtWater, TheSameLogAndMomentGiveTheSameProgramme) {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  const auto once = look_at_water({}, season.log(), on_day(56, 12)), again = look_at_water({}, season.log(), on_day(56, 12));
  ASSERT_TRUE(once.has_value() && once->programme && again->programme);
  ASSERT_EQ(once->programme->programme.changes.size(), again->programme->programme.changes.size());
  EXPECT_EQ(once->programme->programme.forecast.broken_probability, again->programme->programme.forecast.broken_probability);
}

TEST(LookAtWater, NamesFirstWhatTodaysListAsks) {
  auto season = ripe_season();
  const auto begins = [](const WaterLook& look) { return !look.programme->cautions.empty() && look.programme->cautions.front().pattern.starts_with("Today's list asks for this first: Change"); };
  EXPECT_FALSE(begins(*look_at_water({}, season.log(), on_day(56, 12))));
  season.step(56, "nitrite", 0.8);
  EXPECT_TRUE(begins(*look_at_water({}, season.log(), on_day(56, 12))));
}

TEST(LookAtWater, WithoutASeasonSaysSo) { EXPECT_EQ(look_at_water({}, {}, on_day(3)).problems().front().code, "no_season"); }

}  // namespace
}  // namespace redd::season
