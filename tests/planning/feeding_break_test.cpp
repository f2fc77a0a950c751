#include "planning/feeding_break.h"

#include <gtest/gtest.h>

#include "planning/fed_days.h"
#include "support/same_set_points.h"
#include "support/small_season.h"

namespace redd::planning {
namespace {

using redd::testing::SmallSeason;

Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }

SmallSeason eggs_at_8c() {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 250);
  return season;
}

std::optional<BreakRisk> risk_of(const SmallSeason& season, int day) {
  const auto view = season.look(day);
  return break_risk(view.season, view.belief, records::SchoolCalendar(view.records), date_of(day));
}

int swim_up_day(const SmallSeason& season, int day) {
  const auto view = season.look(day);
  return static_cast<int>((biology::day_of(view.belief.brood.forecast->stage(biology::Stage::swim_up).lot.median) - date_of(0)).count());
}

SmallSeason with_break(int from, int to) {
  auto season = eggs_at_8c();
  season.add(9, records::Closure{"Spring break", date_of(from), date_of(to), {}});
  return season;
}

TEST(BreakRisk, IsNothingWithoutABreak) { EXPECT_FALSE(risk_of(eggs_at_8c(), 20).has_value()); }

TEST(BreakRisk, FindsTheBreakAndASetPointThatMissesIt) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  const auto risk = risk_of(with_break(middle - 3, middle + 3), 20);
  ASSERT_TRUE(risk.has_value()) << middle;
  EXPECT_GT(risk->probability, 0.2);
  EXPECT_EQ(risk->name, "Spring break");
  EXPECT_LE(risk->from, date_of(middle - 3));
  EXPECT_GE(risk->to, date_of(middle + 3));
  ASSERT_TRUE(risk->shift.has_value());
  EXPECT_LT(risk->shift->probability, 0.65 * risk->probability);
  EXPECT_NE(risk->shift->to, risk->shift->from);
  EXPECT_NE(risk->shift->median, risk->median);
  EXPECT_EQ(risk->shift->median < risk->median, risk->shift->to > risk->shift->from) << "warmer is sooner";
}

TEST(BreakRisk, TheShiftIsTrueByTheForecastItself) {
  // Set as advised, the development forecast itself must come to about that day.
  const int middle = swim_up_day(eggs_at_8c(), 20);
  auto season = with_break(middle - 3, middle + 3);
  const auto risk = risk_of(season, 20);
  ASSERT_TRUE(risk && risk->shift);
  season.add(20, records::SetPoint{risk->shift->to}, 11);
  EXPECT_NEAR(swim_up_day(season, 20), (risk->shift->median - date_of(0)).count(), 2);
}

TEST(BreakRisk, SetPointsStayWithinWhatTheyLike) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  const auto species = *biology::find_species("brook_trout");
  for (int from = middle - 12; from <= middle; from += 3)
    if (const auto risk = risk_of(with_break(from, from + 14), 20); risk && risk->shift) {
      EXPECT_GE(risk->shift->to, std::max(species.eyed_egg.green_low, species.alevin.green_low));
      EXPECT_LE(risk->shift->to, std::min(species.eyed_egg.green_high, species.alevin.green_high));
    }
}

TEST(BreakRisk, NamesTheSetPointsThatTheSeasonsPlanMayTake) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  std::array<int, 4> found{};
  for (const int length : {6, 18, 100})
    for (int from = middle - length; from <= middle; from += std::max(3, length / 4)) {
      SCOPED_TRACE(::testing::Message() << length << " days from " << from - middle);
      const auto season = with_break(from, from + length);
      ++found[static_cast<std::size_t>(redd::testing::same_set_points({}, season.log(), redd::testing::on_day(20)))];
    }
  for (const auto each : {redd::testing::BreakFound::liked, redd::testing::BreakFound::edge, redd::testing::BreakFound::none})
    EXPECT_GT(found[static_cast<std::size_t>(each)], 0) << static_cast<int>(each) << " never came up";
}

TEST(BreakRisk, NamesNothingTheEquipmentDoesNotHold) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  const auto view = with_break(middle - 3, middle + 3).look(20);
  std::vector<PlanDay> weak;
  for (int d = 21; d < 150; ++d) weak.push_back({date_of(d), Temperature::from_c(7.8), Temperature::from_c(8.2), Temperature::from_c(20), 0.0});
  const records::SchoolCalendar calendar(view.records);
  ASSERT_TRUE(break_risk(view.season, view.belief, calendar, date_of(20))->shift);
  const auto risk = break_risk(view.season, view.belief, calendar, date_of(20), weak);
  ASSERT_TRUE(risk);
  EXPECT_FALSE(risk->shift || risk->edge_shift);
}

TEST(BreakRisk, SomebodyOnDutyMendsIt) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  auto season = with_break(middle - 3, middle + 3);
  season.add(9, records::Duty{"Team Heron", date_of(middle - 10), date_of(middle + 10)});
  EXPECT_FALSE(risk_of(season, 20).has_value());
}

TEST(BreakRisk, IsNotSaidWhenTooNearToMove) {
  const int middle = swim_up_day(eggs_at_8c(), 20);
  EXPECT_FALSE(risk_of(with_break(middle - 3, middle + 3), middle - 4).has_value());
}

TEST(FedDays, WeekendsAreFedBreaksOnlyWithDuty) {
  auto season = eggs_at_8c();
  season.add(9, records::Closure{"Spring break", date_of(14), date_of(18), {}});
  season.add(9, records::Duty{"Team Heron", date_of(16), {}});
  const records::SchoolCalendar calendar(season.look(10).records);
  EXPECT_EQ(closed_run(calendar, date_of(5)), 2);
  EXPECT_TRUE(somebody_feeds(calendar, date_of(5)));
  EXPECT_EQ(closed_run(calendar, date_of(15)), 9);
  EXPECT_FALSE(somebody_feeds(calendar, date_of(15)));
  EXPECT_TRUE(somebody_feeds(calendar, date_of(16)));
  EXPECT_EQ(closed_run(calendar, date_of(9)), 0);
}

}  // namespace
}  // namespace redd::planning
