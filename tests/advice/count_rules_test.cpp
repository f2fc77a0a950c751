// The rules that speak of counts and losses.
#include <gtest/gtest.h>

#include <algorithm>

#include "advice/advise.h"
#include "support/small_season.h"

namespace redd::advice {
namespace {

using redd::testing::SmallSeason;
using records::Count;
using What = records::Count::What;

SmallSeason quiet_eggs(int last) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  for (int day = 8; day <= last; ++day)
    if (day % 7 < 5) season.add(day, Count{What::dead_eggs, 0});
  return season;
}

const Action* of_key(const Advice& advice, std::string_view key) {
  const auto found = std::ranges::find(advice.actions, key, &Action::key);
  return found == advice.actions.end() ? nullptr : &*found;
}
bool mentions(const std::vector<Sentence>& sentences, std::string_view part) {
  return std::ranges::any_of(sentences, [&](const Sentence& s) { return s.pattern.find(part) != std::string::npos; });
}

TEST(Losses, MoreThanExpectedAskForTestsInOrderAndForHelp) {
  auto season = quiet_eggs(21);
  const auto change = season.add(21, records::WaterChange{Volume::from_l(40)});
  const auto found = season.add(22, Count{What::dead_eggs, 8});
  const auto advice = season.look(22).advice;
  const Action* action = of_key(advice, "losses");
  ASSERT_NE(action, nullptr);
  EXPECT_EQ(action->tone, Tone::act);
  EXPECT_EQ(action->because.front().records, std::vector<records::RecordId>{found});
  EXPECT_TRUE(std::ranges::any_of(action->because, [&](const Reason& r) { return r.records == std::vector<records::RecordId>{change}; }));
  EXPECT_TRUE(mentions(action->cautions, "agency"));
  EXPECT_TRUE(mentions(action->cautions, "No medicine"));
  EXPECT_TRUE(mentions(action->cautions, "cold"));
}

TEST(Losses, ATenthInThreeDaysIsAnAlarm) {
  auto season = quiet_eggs(21);
  season.add(22, Count{What::dead_eggs, 30});
  EXPECT_EQ(season.look(22).advice.headline.tone, Tone::alarm);
}

TEST(Losses, WaterTestedBeforeManyDiedIsNotCalledInOrder) {
  auto season = quiet_eggs(21);
  season.quiet_tests(18);
  EXPECT_EQ(season.look(21).advice.water.at(WaterKey::nitrite).tone, Tone::good);
  season.add(22, Count{What::dead_eggs, 30});
  EXPECT_EQ(season.look(22).advice.water.at(WaterKey::nitrite).tone, Tone::unknown);
  season.step(22, "nitrite", 0, 10);
  EXPECT_EQ(season.look(22).advice.water.at(WaterKey::nitrite).tone, Tone::good) << "tested since";
}

TEST(Losses, ASingleDeathAsksToPickAndCountAndNoMore) {
  auto season = quiet_eggs(21);
  season.add(22, Count{What::dead_eggs, 1});
  EXPECT_EQ(of_key(season.look(22).advice, "losses"), nullptr);
  EXPECT_EQ(of_key(season.look(22).advice, "losses/pick_the_dead"), nullptr) << "today's are picked";
  const auto next_day = season.look(23).advice;
  const Action* action = of_key(next_day, "losses/pick_the_dead");
  ASSERT_NE(action, nullptr);
  EXPECT_EQ(action->tone, Tone::watch);
  season.add(23, Count{What::dead_eggs, 0});
  EXPECT_EQ(of_key(season.look(23).advice, "losses/pick_the_dead"), nullptr);
}

TEST(Losses, AfterMoreThanUsualADailyLookIsAskedForOnce) {
  auto season = quiet_eggs(21);
  season.quiet_tests(21);
  season.add(22, Count{What::dead_eggs, 8});
  season.add(25, Count{What::dead_eggs, 1});
  for (const int day : {25, 28}) {
    SCOPED_TRACE(day);
    const auto advice = season.look(day).advice;
    const Action* action = of_key(advice, "losses/pick_the_dead");
    ASSERT_NE(action, nullptr) << "also where today's are picked";
    EXPECT_EQ(action->tone, Tone::watch);
    EXPECT_EQ(action->concern.pattern, "More died a few days ago than is usual.");
    EXPECT_NE(advice.headline.tone, Tone::good);
    EXPECT_EQ(std::ranges::count(advice.actions, "losses", &Action::rule), 1);
    EXPECT_EQ(local_day({}, action->by), *date_from_iso("2031-01-06") + std::chrono::days(28)) << "tomorrow is closed on Friday, today is open on Monday";
  }
  season.add(28, Count{What::dead_eggs, 0});
  season.add(30, Count{What::dead_eggs, 0});
  EXPECT_EQ(of_key(season.look(30).advice, "losses/pick_the_dead"), nullptr);
}

TEST(CountDue, ALookForDeadIsAskedForAfterNineDays) {
  auto season = quiet_eggs(16);
  EXPECT_EQ(of_key(season.look(24).advice, "count_due/look_for_dead"), nullptr);
  EXPECT_NE(of_key(season.look(26).advice, "count_due/look_for_dead"), nullptr);
}

/// Alevins: hatched weeks ago by the forecast.
SmallSeason alevins() {
  SmallSeason season;
  for (int day = 0; day <= 40; ++day) season.temperature(day, 9);
  season.eggs(8, 400);
  return season;
}

TEST(CountDue, ACountIsAskedForOnceTheyHaveHatched) {
  auto season = alevins();
  int day = 9;
  while (day < 60 && season.look(day).belief.brood.forecast->stage(biology::Stage::hatch).past_fraction.mid < 0.95) ++day;
  ASSERT_LT(day, 60);
  EXPECT_EQ(of_key(season.look(day - 2).advice, "count_due/count"), nullptr) << "not while they hatch";
  const auto advice = season.look(day + 3).advice;
  const Action* action = of_key(advice, "count_due/count");
  ASSERT_NE(action, nullptr);
  EXPECT_EQ(action->aim, Aim::deadline);
  EXPECT_TRUE(mentions(action->cautions, "yolk sac"));
  season.add(day + 3, Count{What::alive, 195});
  EXPECT_EQ(of_key(season.look(day + 3).advice, "count_due/count"), nullptr);
}

TEST(CountDue, MissingAnimalsAreLookedFor) {
  auto season = alevins();
  season.add(38, Count{What::alive, 120});
  const auto advice = season.look(38).advice;
  const Action* action = of_key(advice, "count_due/animals_missing");
  ASSERT_NE(action, nullptr);
  EXPECT_NE(action->how_much.pattern.find("Under the lid"), std::string::npos);
}

TEST(CountDue, NumbersThatDoNotAddUpAreSaid) {
  auto season = alevins();
  season.add(30, Count{What::dead_eggs, 90});
  season.add(38, Count{What::alive, 198});
  EXPECT_NE(of_key(season.look(38).advice, "count_due/counts_disagree"), nullptr);
}

}  // namespace
}  // namespace redd::advice
