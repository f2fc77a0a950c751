#include "planning/season_plan_chill.h"

#include <gtest/gtest.h>

#include "numerics/random.h"

namespace redd::planning {
namespace {

const Date first = *date_from_iso("2031-11-03");
Date day(int d) {
  return first + std::chrono::days(d);
}

ChillQuestion usual(int egg_day = 30) {
  ChillQuestion q{{}, Temperature::from_c(22.0), Temperature::from_c(22.0), Temperature::from_c(8.0), day(egg_day)};
  for (int d = 0; d < 60; ++d) q.days.push_back({day(d), Temperature::from_c(5.0), Temperature::from_c(24.0), Temperature::from_c(21.0), 0.0});
  return q;
}

TEST(ChillDown, StartsAsLateAsItMayAndSettles) {
  const auto plan = plan_chill_down(usual()).plan;
  ASSERT_TRUE(plan);
  // 14 C in steps of 3 are five days; the last of them is the first settled one: days 23 to 26 cool, 27 to 29 settle.
  EXPECT_EQ(plan->settled, day(27));
  EXPECT_EQ(plan->start, day(23));
  EXPECT_EQ(plan->latest_start, plan->start);
  EXPECT_EQ(plan->set_points.size(), 30u);
  for (int d = 0; d < 23; ++d) EXPECT_EQ(plan->set_points[static_cast<std::size_t>(d)].c(), 22.0);
  EXPECT_NEAR(plan->set_points[23].c(), 20.0, 1e-9);
  EXPECT_NEAR(plan->set_points[26].c(), 11.0, 1e-9);
  EXPECT_NEAR(plan->set_points[27].c(), 8.0, 1e-9);
}

// No plan that keeps the limits is warmer on any day: random rivals.
TEST(ChillDown, IsWarmestOnEveryDay) {
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    numerics::RandomStream stream(seed, 9);
    ChillQuestion q = usual(10 + static_cast<int>(stream.index_below(20)));
    q.most_cooling_a_day = TemperatureChange::from_c(stream.uniform_between(1.0, 4.0));
    q.settle_days = static_cast<int>(stream.index_below(4));
    for (PlanDay& each : q.days) each.warmest = Temperature::from_c(stream.uniform_between(20.0, 26.0)), each.coldest = Temperature::from_c(stream.uniform_between(2.0, 8.0));
    const auto plan = plan_chill_down(q).plan;
    if (!plan) continue;
    double before = q.water_now.c();
    std::vector<double> rival;
    bool keeps = true;
    for (std::size_t d = 0; d < plan->set_points.size(); ++d) {
      const double t = plan->set_points[d].c();
      EXPECT_LE(before - t, q.most_cooling_a_day.c() + 1e-9);
      EXPECT_LE(t - before, q.most_warming_a_day.c() + 1e-9);
      EXPECT_GE(t, q.days[d].coldest.c() - 1e-9);
      EXPECT_LE(t, q.days[d].warmest.c() + 1e-9);
      if (d + static_cast<std::size_t>(q.settle_days) >= plan->set_points.size()) EXPECT_NEAR(t, q.target.c(), 1e-9);
      before = t;
      rival.push_back(t);
    }
    // One day warmer by a tenth breaks a limit somewhere, or the ceiling.
    const std::size_t warmer = stream.index_below(static_cast<std::uint32_t>(rival.size()));
    rival[warmer] += 0.1;
    before = q.water_now.c();
    for (std::size_t d = 0; d < rival.size(); ++d) {
      keeps = keeps && rival[d] <= std::min(q.warm.c(), q.days[d].warmest.c()) + 1e-9 && before - rival[d] <= q.most_cooling_a_day.c() + 1e-9 && rival[d] - before <= q.most_warming_a_day.c() + 1e-9;
      if (d + static_cast<std::size_t>(q.settle_days) >= rival.size()) keeps = keeps && std::abs(rival[d] - q.target.c()) < 1e-9;
      before = rival[d];
    }
    keeps = keeps && before - q.target.c() <= q.most_cooling_a_day.c() + 1e-9;
    EXPECT_FALSE(keeps) << seed << " day " << warmer;
  }
}

TEST(ChillDown, StartsEarlierWhereTheFilterIsReadierThen) {
  ChillQuestion q = usual();
  q.ready_by_start.assign(q.days.size(), 0.5);
  q.ready_by_start[15] = 0.8;
  q.ready_by_start[28] = 0.99;  // too late to be had
  const auto plan = plan_chill_down(q).plan;
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->start, day(15));
  EXPECT_EQ(plan->latest_start, day(23));
  EXPECT_EQ(plan->ready_probability, 0.8);
}

TEST(ChillDown, SaysWhatStandsInItsWay) {
  const auto code = [](const ChillQuestion& q) {
    const auto answer = plan_chill_down(q);
    EXPECT_FALSE(answer.plan);
    return answer.obstacles.empty() ? std::string() : answer.obstacles.front().code;
  };
  EXPECT_EQ(code(usual(0)), "egg_day_past");
  EXPECT_EQ(code(usual(-4)), "egg_day_past");
  EXPECT_EQ(code(usual(61)), "missing_days");
  EXPECT_EQ(code(usual(5)), "chill_too_late");
  const auto late = plan_chill_down(usual(5)).obstacles.front();
  const auto earliest = std::get<Date>(late.sentence.values.back());
  EXPECT_EQ(earliest, day(7));  // five days of cooling, the last of them already settled
  EXPECT_TRUE(plan_chill_down(usual(7)).plan);
  EXPECT_FALSE(plan_chill_down(usual(6)).plan);
  ChillQuestion q = usual();
  for (PlanDay& each : q.days) each.coldest = Temperature::from_c(9.0);
  EXPECT_EQ(code(q), "chiller_too_small");
}

}  // namespace
}  // namespace redd::planning
