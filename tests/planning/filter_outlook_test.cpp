#include "planning/filter_outlook.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::planning {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;

TEST(ReadyDefinition, IsThreeTimesTheHeaviestDayWithinBounds) {
  const records::SeasonSetup season;
  EXPECT_DOUBLE_EQ(ready_definition(season, 0.0).test_dose_mg_n_per_l, 0.5);
  EXPECT_DOUBLE_EQ(ready_definition(season, 0.25).test_dose_mg_n_per_l, 0.75);
  EXPECT_DOUBLE_EQ(ready_definition(season, 3.0).test_dose_mg_n_per_l, 1.0);
  EXPECT_DOUBLE_EQ(ready_definition(season, 0.0).within_hours, 24.0);
}

TEST(ReadyDefinition, IsTheKeepersOwnWhereGiven) {
  records::SeasonSetup season;
  season.ready_test_dose_mg_n_per_l = 2.0;
  season.ready_within_hours = 48.0;
  season.ready_nitrite_mg_n_per_l = 0.3;
  const auto ready = ready_definition(season, 0.25);
  EXPECT_DOUBLE_EQ(ready.test_dose_mg_n_per_l, 2.0);
  EXPECT_DOUBLE_EQ(ready.within_hours, 48.0);
  EXPECT_DOUBLE_EQ(ready.nitrite_limit_mg_n_per_l, 0.3);
  EXPECT_DOUBLE_EQ(ready.total_ammonia_limit_mg_n_per_l, 0.2);
}

struct Asked {
  season::FilterAsked asked;
  inference::FilterPosterior posterior;
};

/// Five warm weeks with a dose each, tested weekly; eggs on day 70.
class Ripening {
 public:
  explicit Ripening(int egg_day = 70) {
    auto& setup = std::get<records::SeasonSetup>(season_.log().front().entry.body);
    setup.egg_day = setup.first_day + std::chrono::days(egg_day);
    setup.egg_count = 200;
    season_.add(0, records::SetPoint{Temperature::from_c(23)}, 2);
    for (int week = 0; week < 5; ++week) {
      season_.temperature(7 * week + 1, 23);
      season_.add(7 * week + 1, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(0.8)}, 9);
      season_.step(7 * week + 6, "ammonia", week < 2 ? 0.8 : 0.2);
      season_.step(7 * week + 6, "nitrite", week < 2 ? 0.1 : 0.8);
      season_.drops(7 * week + 6, "kh", 5);
    }
  }
  SmallSeason& log() { return season_; }
  Asked ask(int day) const {
    auto asked = season::filter_asked({}, season_.log(), on_day(day, 12));
    require(asked.has_value() && asked->has_value(), "Ripening", "nothing to foretell");
    auto posterior = inference::FilterPosterior::of((*asked)->case_now.season, {.chains = 64, .chain_length = 4, .block = 32, .full_cost_data = 2, .seed = 5});
    return {**asked, std::move(posterior)};
  }

 private:
  SmallSeason season_;
};

TEST(FilterOutlook, AnswersForEggDay) {
  const Ripening tank;
  const auto [asked, posterior] = tank.ask(35);
  const auto outlook = filter_outlook(asked.season, asked.belief, asked.case_now, posterior, {});
  ASSERT_TRUE(outlook);
  EXPECT_EQ(outlook->by_day, asked.season.egg_day);
  EXPECT_TRUE(outlook->by_probability >= 0.0 && outlook->by_probability <= 1.0);
  ASSERT_TRUE(outlook->measures);
  EXPECT_DOUBLE_EQ(outlook->measures->planned_probability, outlook->by_probability);
  ASSERT_TRUE(outlook->cold_today_probability);                               // the tank is warm
  EXPECT_LE(*outlook->cold_today_probability, outlook->today_probability);    // cold is never quicker
  EXPECT_EQ(outlook->sittings, 5u);
  EXPECT_TRUE(outlook->complete);
  ASSERT_TRUE(outlook->hatch);
  EXPECT_GT(*outlook->hatch, *asked.season.egg_day);
  EXPECT_GT(outlook->outlook.coming_load_mg_n_per_l_per_day, 0.0);            // of the eggs that are planned
}

TEST(FilterOutlook, IsTheSameForOneThreadAndForSeveralQuestions) {
  const Ripening tank;
  const auto [asked, posterior] = tank.ask(35);
  const auto once = filter_outlook(asked.season, asked.belief, asked.case_now, posterior, {});
  const auto again = filter_outlook(asked.season, asked.belief, asked.case_now, posterior, {});
  ASSERT_TRUE(once && again);
  EXPECT_EQ(once->by_probability, again->by_probability);
  EXPECT_EQ(once->outlook.ready.mid, again->outlook.ready.mid);
}

TEST(FilterOutlook, ProposesNeitherAmmoniaNorWarmthJustBeforeTheEggs) {
  const Ripening tank(37);
  const auto [asked, posterior] = tank.ask(35);
  const auto outlook = filter_outlook(asked.season, asked.belief, asked.case_now, posterior, {});
  ASSERT_TRUE(outlook && outlook->measures);
  for (const auto& effect : outlook->measures->effects) {
    EXPECT_NE(effect.measure.kind, inference::MeasureKind::ammonia_dose);
    EXPECT_NE(effect.measure.kind, inference::MeasureKind::weekly_ammonia);
  }
}

TEST(FilterOutlook, AsksForNoReadinessOnceAnimalsAreIn) {
  Ripening tank(30);
  tank.log().eggs(30);
  const auto [asked, posterior] = tank.ask(35);
  const auto outlook = filter_outlook(asked.season, asked.belief, asked.case_now, posterior, {});
  ASSERT_TRUE(outlook);
  EXPECT_FALSE(outlook->by_day);
  EXPECT_FALSE(outlook->measures);
  EXPECT_FALSE(outlook->cold_today_probability);
}

TEST(FilterOutlook, IsNothingForAnotherTank) {
  const Ripening one, other(60);
  const auto [asked, posterior] = one.ask(35);
  auto elsewhere = other.ask(35).asked;
  elsewhere.case_now.season.volume_l = 100;
  EXPECT_FALSE(filter_outlook(elsewhere.season, elsewhere.belief, elsewhere.case_now, posterior, {}));
}

TEST(FilterOutlook, LosesTrackWhenTwoReadingsAgreeAgainstAllOthersAndNotForOne) {
  Ripening tank;
  for (const int day : {41, 48, 55}) {
    tank.log().step(day, "ammonia", 0);
    tank.log().step(day, "nitrite", 0);
  }
  for (int i = 0; i < 3; ++i) tank.log().step(58, "nitrite", 0, 8 + i);
  const auto quiet = tank.ask(59);
  EXPECT_FALSE(filter_outlook(quiet.asked.season, quiet.asked.belief, quiet.asked.case_now, quiet.posterior, {})->lost_track);
  tank.log().step(60, "ph", 8.4);                   // one wild reading
  const auto once = tank.ask(60);
  EXPECT_FALSE(filter_outlook(once.asked.season, once.asked.belief, once.asked.case_now, once.posterior, {})->lost_track);
}

TEST(FilterOutlook, AReleasedBroodIsForetoldNothing) {
  Ripening tank(30);
  tank.log().eggs(30);
  tank.log().add(32, records::Release{200, "Invented Brook"});
  const auto asked = season::filter_asked({}, tank.log().log(), on_day(33, 12));
  ASSERT_TRUE(asked.has_value());
  EXPECT_FALSE(asked->has_value());
}

}  // namespace
}  // namespace redd::planning
