#include "lessons/replicates.h"

#include <gtest/gtest.h>

#include <cmath>

#include "inference/observation_model.h"
#include "lessons/class_season.h"
#include "numerics/random.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;
using redd::testing::on_day;
using Fit = Repeatability::Fit;

Replicates of(const ClassSeason& season, int day) { return replicates_of(records::effective(season.log(), on_day(day, 12)), {}); }

TEST(Replicates, WithoutTeamsAreNone) {
  EXPECT_TRUE(of(ClassSeason(1), 1).sittings.empty());  // its nitrate is read twice by the same hands
}

TEST(Replicates, OfEachTeamOnlyTheNewestReadingCounts) {
  ClassSeason season(-1);
  season.team_step(8, "nitrate", 10, "Team Heron");
  season.team_step(8, "nitrate", 40, "Team Heron");
  EXPECT_TRUE(of(season, 8).sittings.empty());
  season.step(8, "nitrate", 20, 10);  // by the author of the log, Team Otter
  season.team_step(8, "nitrate", 10, "Team Otter");
  const auto found = of(season, 8);
  ASSERT_EQ(found.sittings.size(), 1u);
  ASSERT_EQ(found.sittings[0].readings.size(), 2u);
  EXPECT_EQ(found.sittings[0].readings[0].team, "Team Heron");
  EXPECT_EQ(found.sittings[0].readings[0].printed, 40.0);
  EXPECT_EQ(found.sittings[0].readings[1].team, "Team Otter");
  EXPECT_EQ(found.sittings[0].readings[1].printed, 20.0);  // at ten, after the one at nine
}

TEST(Replicates, GiveTheSpreadInTheCardsOwnUnit) {
  ClassSeason season(-1);
  season.team_step(8, "nitrate", 10, "Team Otter");
  season.team_step(8, "nitrate", 20, "Team Heron");
  season.team_step(8, "nitrate", 20, "Team Dipper");
  const auto found = of(season, 8);
  ASSERT_EQ(found.sittings.size(), 1u);
  const auto& s = found.sittings[0];
  EXPECT_EQ(s.printed.count, 3);
  EXPECT_NEAR(s.printed.mean, 50.0 / 3.0, 1e-9);
  EXPECT_NEAR(s.printed.standard_deviation, 10.0 / std::sqrt(3.0), 1e-9);
  EXPECT_NEAR(s.places.standard_deviation, 1.0 / std::sqrt(3.0), 1e-9);
  EXPECT_EQ(s.step, 10.0);
  EXPECT_NEAR(s.rounding_sd, 10.0 / std::sqrt(12.0), 1e-12);
  ASSERT_EQ(found.repeatability.size(), 1u);
  EXPECT_EQ(found.repeatability[0].fit, Fit::too_few);
}

TEST(Replicates, BeforeAndAfterAWaterChangeAreNotTheSameWater) {
  ClassSeason season(-1);
  season.team_drops(8, "kh", 6, "Team Otter");
  season.add(8, records::WaterChange{Volume::from_l(40)}, 9);
  season.team_drops(8, "kh", 5, "Team Heron");
  EXPECT_TRUE(of(season, 8).sittings.empty());
}

/// Teams whose eyes scatter by this many steps, for thirty sittings in the middle of the card.
Repeatability simulated(double eye_sd, std::uint64_t seed) {
  ClassSeason season(-1);
  numerics::RandomStream chance(seed);
  const auto kit = ClassSeason::kit();
  for (int week = 0; week < 30; ++week) {
    const double truth = chance.uniform_between(1.5, 3.5);
    for (const char* team : {"Team Otter", "Team Heron", "Team Dipper"}) {
      auto reading = inference::reading_at(kit.tests[2], truth, chance.normal(0, eye_sd));
      reading.kit = "k";
      reading.test = "nitrate";
      reading.team = team;
      season.add(7 * week + 1, reading, 9);
    }
  }
  return of(season, 300).repeatability.at(0);
}

TEST(Repeatability, FitsReadersAsTheModelTakesThemAndTellsWiderOnes) {
  EXPECT_EQ(simulated(inference::reader_error_steps, 5).fit, Fit::fits);
  EXPECT_EQ(simulated(1.3, 6).fit, Fit::wider);
  EXPECT_EQ(simulated(0.02, 7).fit, Fit::narrower);
}

TEST(Repeatability, TeamsThatAlwaysAgreeAreNotSuspected) {
  ClassSeason season(-1);
  for (int day = 1; day < 50; day += 7)
    for (const char* team : {"Team Otter", "Team Heron"}) season.team_step(day, "nitrate", 20, team);
  const auto found = of(season, 60).repeatability.at(0);
  EXPECT_EQ(found.freedom, 7);
  EXPECT_EQ(found.sd, 0.0);
  EXPECT_EQ(found.fit, Fit::alike);
}

}  // namespace
}  // namespace redd::lessons
