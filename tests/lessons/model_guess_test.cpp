#include "lessons/model_guess.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "lessons/class_season.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;
using redd::testing::on_day;

Question question(const ClassSeason& season, std::string_view key, int day) {
  const auto all = questions_of(season.log(), {}, on_day(day, 12));
  const auto found = std::ranges::find(all, key, &Question::key);
  require(found != all.end(), "question", "no such question");
  return *found;
}

TEST(ModelGuess, ChancesOfStepsSumToOneAndPeakAtTheLastReading) {
  const ClassSeason season(8);
  const auto guess = model_guess(question(season, "k/kh/2031-01-14", 8), season.log(), {});
  ASSERT_TRUE(guess);
  EXPECT_LT(guess->low, 6.0);
  EXPECT_GT(guess->high, 6.0);
  const auto steps = model_guess(question(season, "k/ph/2031-01-14", 8), season.log(), {});
  ASSERT_TRUE(steps);
  EXPECT_NEAR(std::accumulate(steps->probabilities.begin(), steps->probabilities.end(), 0.0), 1.0, 1e-12);
  EXPECT_EQ(std::ranges::max_element(steps->probabilities) - steps->probabilities.begin(), 2);
}

TEST(ModelGuess, IsFrozenWhenTheQuestionOpens) {
  ClassSeason season(8);
  const auto q = question(season, "k/ph/2031-01-14", 8);
  const auto then = model_guess(q, season.log(), {});
  season.step(10, "ph", 8.4);
  season.step(15, "ph", 8.4);
  const auto later = model_guess(q, season.log(), {});
  EXPECT_EQ(then->probabilities, later->probabilities);
}

TEST(ModelGuess, GetsSurerWhileATestStaysPut) {
  const ClassSeason season(50);
  const auto early = model_guess(question(season, "k/ph/2031-01-07", 50), season.log(), {});
  const auto late = model_guess(question(season, "k/ph/2031-02-25", 50), season.log(), {});
  ASSERT_TRUE(early && late);
  EXPECT_GT(late->probabilities[2], early->probabilities[2] + 0.1);
}

TEST(ModelGuess, OfTemperatureGoesToTheSetPoint) {
  ClassSeason season(8);
  season.add(9, records::SetPoint{Temperature::from_c(5)});
  season.temperature(14, 8.0);  // a Monday
  const auto guess = model_guess(question(season, "temperature/2031-01-20", 14), season.log(), {});
  ASSERT_TRUE(guess);
  EXPECT_NEAR(guess->mid, 5.0, 0.2);
  EXPECT_GT(guess->high - guess->low, 1.0);
}

TEST(ModelGuess, OfHatchingLiesBetweenNoneAndAllAlive) {
  ClassSeason season(8);
  season.eggs(8, 400);
  season.add(22, records::Count{records::Count::What::hatched, 20});
  const auto guess = model_guess(question(season, "hatched/2031-01-31", 22), season.log(), {});
  ASSERT_TRUE(guess);
  EXPECT_GE(guess->values.front(), 0.0);
  EXPECT_LE(guess->values.back(), 205.0);
  EXPECT_TRUE(std::ranges::is_sorted(guess->values));
  EXPECT_LE(guess->low, guess->high);
}

}  // namespace
}  // namespace redd::lessons
