#include "planning/temperature_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "report/plan_view.h"
#include "support/small_season.h"

namespace redd::planning {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using std::chrono::days;

records::SeasonSetup& setup_of(SmallSeason& season) { return std::get<records::SeasonSetup>(season.log().front().entry.body); }
Date day_number(int day) { return local_day({}, on_day(day)); }

SmallSeason with_eggs() {
  SmallSeason season;
  for (int day = 1; day < 30; ++day) season.temperature(day, 8);
  season.eggs(10, 250);
  return season;
}

Result<season::PlanView> plan_on(const SmallSeason& season, int day, int hour = 15) { return season::look_at_plan({}, season.log(), on_day(day, hour)); }

std::string problem_of(const SmallSeason& season, int day) {
  const auto plan = plan_on(season, day);
  return plan ? "" : plan.problems().front().code;
}

TEST(TemperaturePlan, SaysWhatIsMissingToPlan) {
  SmallSeason season;
  EXPECT_EQ(problem_of(season, 5), "egg_day_missing");
  setup_of(season).egg_day = day_number(3);
  EXPECT_EQ(problem_of(season, 5), "egg_day_past");
  setup_of(season).species = "unheard_of";
  EXPECT_EQ(problem_of(season, 5), "unknown_species");
  SmallSeason released = with_eggs();
  released.add(28, records::Release{200, "Invented Brook"});
  EXPECT_EQ(problem_of(released, 29), "released");
}

TEST(TemperaturePlan, InTheMorningTheDayItselfCanStillBeSet) {
  const SmallSeason season = with_eggs();
  EXPECT_EQ(plan_on(season, 20, 8)->plan.asked.question.days.front().day, day_number(20));
  EXPECT_EQ(plan_on(season, 20, 15)->plan.asked.question.days.front().day, day_number(21));
}

TEST(TemperaturePlan, BeginsWithTheEggsAndChillsTheTankForThem) {
  SmallSeason season;
  setup_of(season).egg_day = day_number(60);
  setup_of(season).warm = Temperature::from_c(22);
  season.temperature(10, 22);
  const auto view = plan_on(season, 10);
  ASSERT_TRUE(view.has_value());
  EXPECT_EQ(view->plan.asked.question.days.front().day, day_number(60));
  ASSERT_TRUE(view->plan.chill);
  EXPECT_LE(view->plan.chill->settled, day_number(57));
  EXPECT_GT(view->plan.chill->start, day_number(30));  // warm as long as it may be
  EXPECT_EQ(view->plan.chill->set_points.back(), Temperature::from_c(8));
}

TEST(TemperaturePlan, ClosuresMoveTheHatch) {
  SmallSeason season = with_eggs();
  const auto free = plan_on(season, 20);
  ASSERT_TRUE(free.has_value() && free->plan.alternatives.keep.plan);
  const Date expected = biology::day_of(free->plan.alternatives.keep.plan->milestones.front().lot.median);
  season.add(15, records::Closure{"Invented break", expected - std::chrono::days(5), expected + std::chrono::days(5), {}});
  const auto moved = plan_on(season, 20);
  ASSERT_TRUE(moved.has_value() && moved->plan.alternatives.best.plan && moved->plan.alternatives.keep.plan);
  const auto chance = [](const PlanAnswer& answer) { return answer.plan->score.wishes.front().probability; };
  EXPECT_LT(chance(moved->plan.alternatives.keep), chance(free->plan.alternatives.keep));
  EXPECT_GT(chance(moved->plan.alternatives.best), chance(moved->plan.alternatives.keep));
  EXPECT_GE(moved->plan.alternatives.best.plan->score.score, moved->plan.alternatives.keep.plan->score.score);
}

TEST(TemperaturePlan, AWeekendIsNoBreakAndSomebodyOnDutyFeeds) {
  SmallSeason season = with_eggs();
  const auto fed_on = [](const season::PlanView& view, Date day) {
    const auto& question = view.plan.asked.question;
    const auto wish = std::ranges::find(question.wishes, "feeding_outside_breaks", &Wish::key);
    return static_cast<bool>(wish->good[static_cast<std::size_t>((day - question.days.front().day).count())]);
  };
  season.add(15, records::Closure{"Invented break", day_number(60), day_number(70), {}});
  EXPECT_TRUE(fed_on(*plan_on(season, 20), day_number(40)));   // a Saturday
  EXPECT_FALSE(fed_on(*plan_on(season, 20), day_number(63)));
  season.add(16, records::Duty{"Team Heron", day_number(60), day_number(72)});
  EXPECT_TRUE(fed_on(*plan_on(season, 20), day_number(63)));
}

TEST(TemperaturePlan, ThePermitsWindowIsAWish) {
  SmallSeason season = with_eggs();
  EXPECT_EQ(plan_on(season, 20)->plan.asked.question.wishes.size(), 2u);
  setup_of(season).release_from = day_number(100);
  setup_of(season).release_until = day_number(130);
  const auto view = plan_on(season, 20);
  ASSERT_EQ(view->plan.asked.question.wishes.size(), 3u);
  const auto& good = view->plan.asked.question.wishes.back().good;
  EXPECT_FALSE(good[0]);   // long before the window
  EXPECT_TRUE(good[100]);
}

TEST(TemperaturePlan, ComparesWithLastWeek) {
  const SmallSeason season = with_eggs();
  EXPECT_TRUE(plan_on(season, 20)->plan.since_last_week.has_value());
  EXPECT_FALSE(plan_on(season, 12)->plan.since_last_week.has_value());  // a week ago there were no eggs and no day for them
}

/// Everything that is said to stand in the way, in one text.
std::string in_the_way(const season::PlanView& view) {
  std::string out;
  const auto plan = report::plan_json(view);
  for (const auto& sentence : plan["conflicts"]) out += sentence.get<std::string>() + "\n";
  return out;
}

TEST(BadWishes, AHolidayOverTheWholeSeasonIsNamed) {
  SmallSeason season = with_eggs();
  season.add(15, records::Closure{"Invented long break", day_number(12), day_number(200), {}});
  season.add(15, records::Closure{"Invented summer", day_number(201), day_number(390), {}});
  const auto view = plan_on(season, 20);
  ASSERT_TRUE(view.has_value() && view->plan.alternatives.best.plan) << "temperatures are planned all the same";
  const std::string said = in_the_way(*view);
  EXPECT_NE(said.find("The school is closed on every day from Monday 27 January 2031"), std::string::npos) << said;
  EXPECT_NE(said.find("Invented long break"), std::string::npos) << said;
  EXPECT_NE(said.find("log who is on duty"), std::string::npos) << said;
  season.add(16, records::Duty{"Team Heron", day_number(12), day_number(390)});
  EXPECT_EQ(in_the_way(*plan_on(season, 20)).find("log who is on duty"), std::string::npos) << "somebody feeds";
}

TEST(BadWishes, APermitThatEndsBeforeSwimUpSaysUntilWhenItWouldHaveToLast) {
  SmallSeason season = with_eggs();
  const auto free = plan_on(season, 20);
  ASSERT_TRUE(free.has_value() && free->plan.alternatives.best.plan);
  const Date swim_up = biology::day_of(free->plan.alternatives.best.plan->milestones[1].lot.median);
  setup_of(season).release_until = swim_up - days(45);
  const std::string said = in_the_way(*plan_on(season, 20));
  EXPECT_NE(said.find("before the fry swim up"), std::string::npos) << said;
  EXPECT_NE(said.find("Ask for a"), std::string::npos) << said;
  setup_of(season).release_until = swim_up + days(30);
  EXPECT_EQ(in_the_way(*plan_on(season, 20)).find("before the fry swim up"), std::string::npos);
}

TEST(BadWishes, APermitLongAfterSwimUpIsExplained) {
  SmallSeason season = with_eggs();
  const auto free = plan_on(season, 20);
  const Date swim_up = biology::day_of(free->plan.alternatives.best.plan->milestones[1].lot.median);
  setup_of(season).release_from = swim_up + days(80);
  setup_of(season).release_until = swim_up + days(90);
  const std::string said = in_the_way(*plan_on(season, 20));
  EXPECT_NE(said.find("too long after the fry swim up"), std::string::npos) << said;
}

TEST(BadWishes, APermitThatIsOverSaysSo) {
  SmallSeason season = with_eggs();
  setup_of(season).release_until = day_number(15);
  const std::string said = in_the_way(*plan_on(season, 20));
  EXPECT_NE(said.find("ended on Tuesday 21 January 2031"), std::string::npos) << said;
  EXPECT_NE(said.find("correct the set-up"), std::string::npos) << said;
}

TEST(BadWishes, AnEggDayInThePastSaysWhatToDo) {
  SmallSeason season;
  setup_of(season).egg_day = day_number(3);
  const auto view = plan_on(season, 5);
  ASSERT_FALSE(view);
  EXPECT_NE(view.problems().front().sentence.find("log their arrival, or correct the egg day"), std::string::npos);
}

TEST(PlanJson, HoldsThreePlansDayByDay) {
  const auto view = plan_on(with_eggs(), 20);
  ASSERT_TRUE(view.has_value());
  const wire::Json plan = report::plan_json(*view);
  ASSERT_EQ(plan["plans"].size(), 3u);
  for (const auto& row : plan["plans"]) {
    EXPECT_TRUE(row["possible"].get<bool>());
    EXPECT_EQ(row["days"].size(), row["c"].size());
    EXPECT_EQ(row["milestones"][0]["key"], "hatch");
    for (const auto& wish : row["wishes"]) EXPECT_FALSE(wish["name"].get<std::string>().empty());
  }
  EXPECT_TRUE(plan["plans"][2]["changes"].empty());  // as it is now
  EXPECT_FALSE(plan["sentence"].get<std::string>().empty());
  const std::string text = report::plan_text(*view);
  for (const char* part : {"Best plan", "Fewest changes", "As it is now", "Half hatched", "chances in", "Permit and supplier"})
    EXPECT_NE(text.find(part), std::string::npos) << part;
}

}  // namespace
}  // namespace redd::planning
