#include "lessons/question.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "lessons/class_season.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;
using redd::testing::on_day;
using redd::testing::SmallSeason;
using Kind = Question::Kind;

const Question* find(const std::vector<Question>& all, std::string_view key) {
  const auto found = std::ranges::find(all, key, &Question::key);
  return found == all.end() ? nullptr : &*found;
}

TEST(QuestionsOf, OpenWithEachSittingOfEachTest) {
  const ClassSeason season(8);
  const auto all = questions_of(season.log(), {}, on_day(8, 12));
  const auto* nitrate = find(all, "k/nitrate/2031-01-14");
  ASSERT_NE(nitrate, nullptr);
  EXPECT_EQ(nitrate->kind, Kind::steps);
  EXPECT_EQ(nitrate->opens_at, on_day(8, 8));
  EXPECT_EQ(nitrate->due, *date_from_iso("2031-01-21"));
  ASSERT_NE(find(all, "k/kh/2031-01-07"), nullptr);
  EXPECT_EQ(find(all, "k/kh/2031-01-07")->kind, Kind::drops);
  EXPECT_NE(find(all, "temperature/2031-01-06"), nullptr);
}

TEST(QuestionsOf, ARepeatWithinTwoDaysOpensNoNewOne) {
  SmallSeason season;
  season.step(7, "nitrate", 5);
  season.step(8, "nitrate", 5);
  season.step(9, "nitrate", 10);
  EXPECT_EQ(questions_of(season.log(), {}, on_day(9, 12)).size(), 1u);
  season.step(10, "nitrate", 10);
  EXPECT_EQ(questions_of(season.log(), {}, on_day(10, 12)).size(), 2u);
}

TEST(QuestionsOf, StayAskedWhenTheReadingIsCorrectedLater) {
  SmallSeason season;
  const auto id = season.step(7, "nitrate", 5);
  const auto before = questions_of(season.log(), {}, on_day(7, 12));
  auto corrected = SmallSeason::reading("nitrate", records::Reading::Form::step, 40);
  season.add(9, corrected);
  season.log().back().entry.at = on_day(7);
  season.log().back().entry.supersedes = id;
  const auto after = questions_of(season.log(), {}, on_day(9, 12));
  ASSERT_EQ(after.size(), 1u);
  EXPECT_EQ(after[0].key, before[0].key);
  EXPECT_EQ(after[0].opens_at, before[0].opens_at);
}

TEST(QuestionsOf, AboutHatchingOnlyOnceItHasBegun) {
  SmallSeason season;
  season.eggs(8);
  EXPECT_TRUE(questions_of(season.log(), {}, on_day(20, 12)).empty());
  season.add(22, records::Count{records::Count::What::hatched, 30});  // a Tuesday
  const auto all = questions_of(season.log(), {}, on_day(22, 12));
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].key, "hatched/2031-01-31");
  EXPECT_EQ(all[0].scale, 200.0);
}

TEST(OutcomeOf, IsTheNextSittingAndSharedBetweenTwoSteps) {
  SmallSeason season;
  season.step(1, "nitrate", 5);
  season.between(8, "nitrate", 5, 10);
  const auto q = questions_of(season.log(), {}, on_day(8, 12)).front();
  const auto outcome = outcome_of(q, records::effective(season.log(), on_day(8, 12)), {});
  ASSERT_TRUE(outcome);
  EXPECT_EQ(outcome->at, on_day(8, 8));
  EXPECT_EQ(outcome->weights, (std::vector<double>{0, 0.5, 0.5, 0, 0, 0}));
}

TEST(OutcomeOf, AReadingBetweenStepsFarApartIsSharedByAllFromOneToTheOther) {
  SmallSeason season;
  season.step(1, "nitrate", 5);
  season.between(8, "nitrate", 5, 40);
  const auto q = questions_of(season.log(), {}, on_day(8, 12)).front();
  const auto outcome = outcome_of(q, records::effective(season.log(), on_day(8, 12)), {});
  ASSERT_TRUE(outcome);
  EXPECT_EQ(outcome->weights, (std::vector<double>{0, 0.25, 0.25, 0.25, 0.25, 0}));
}

TEST(OutcomeOf, TakesTheMeanOfSeveralTeamsAndEndsOfTheCardAsTheLastStep) {
  ClassSeason season(1);
  season.team_step(8, "nitrate", 10, "Team Otter");
  season.team_step(8, "nitrate", 20, "Team Heron");
  season.add(8, SmallSeason::reading("nitrate", records::Reading::Form::above_last, std::nullopt), 9);
  const auto all = questions_of(season.log(), {}, on_day(8, 12));
  const auto outcome = outcome_of(*find(all, "k/nitrate/2031-01-07"), records::effective(season.log(), on_day(8, 12)), {});
  ASSERT_TRUE(outcome);
  EXPECT_NEAR(outcome->weights[2], 1 / 3.0, 1e-12);
  EXPECT_NEAR(outcome->weights[5], 1 / 3.0, 1e-12);
}

TEST(OutcomeOf, AnEstimatedCountIsARange) {
  SmallSeason season;
  season.eggs(8);
  season.add(22, records::Count{records::Count::What::hatched, 30});
  season.add(25, records::Count{records::Count::What::hatched, 100, records::Count::How::estimated});
  const auto all = questions_of(season.log(), {}, on_day(25, 12));
  const auto outcome = outcome_of(*find(all, "hatched/2031-01-31"), records::effective(season.log(), on_day(25, 12)), {});
  ASSERT_TRUE(outcome);
  EXPECT_NEAR(outcome->low, 90, 1e-9);
  EXPECT_NEAR(outcome->high, 110, 1e-9);
}

TEST(PlaceOf, NumbersTheCard) {
  const auto kit = SmallSeason::kit();
  const auto& nitrate = kit.tests[2];
  const auto place = [&](records::Reading::Form form, std::optional<double> value, std::optional<double> upper = {}) {
    auto r = SmallSeason::reading("nitrate", form, value);
    r.upper_value = upper;
    return place_of(nitrate, r);
  };
  using Form = records::Reading::Form;
  EXPECT_EQ(place(Form::step, 0), 0.0);
  EXPECT_EQ(place(Form::step, 20), 3.0);
  EXPECT_EQ(place(Form::between, 20, 40), 3.5);
  EXPECT_EQ(place(Form::between, 5, 40), 2.5);
  EXPECT_EQ(place(Form::between, 0, 10), 1.0);
  EXPECT_EQ(place(Form::above_last, std::nullopt), 5.5);
  EXPECT_FALSE(place(Form::step, 7));
}

}  // namespace
}  // namespace redd::lessons
