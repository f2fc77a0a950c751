#include "planning/season_plan_compare.h"

#include <gtest/gtest.h>

#include "planning/invented_question.h"

namespace redd::planning {
namespace {

using testing::first_day;

/// The same season a week later: the lots have moved on by so many days' progress at 8 C.
SeasonQuestion week_later(const SeasonQuestion& q, double days_of_progress) {
  SeasonQuestion later = q;
  later.days.erase(later.days.begin(), later.days.begin() + 7);
  for (Wish& wish : later.wishes) wish.good.erase(wish.good.begin(), wish.good.begin() + 7);
  const auto hatch = *biology::model_for(q.species, biology::Stage::hatch), up = *biology::model_for(q.species, biology::Stage::swim_up);
  for (Lot& lot : later.lots) {
    lot.hatch.done += days_of_progress * biology::progress_per_day(hatch, Temperature::from_c(8.0));
    lot.swim_up.done += days_of_progress * biology::progress_per_day(up, Temperature::from_c(8.0));
  }
  return later;
}

bool says(const std::vector<Sentence>& sentences, std::string_view part) {
  return std::ranges::any_of(sentences, [&](const Sentence& s) { return s.pattern.find(part) != std::string::npos; });
}

TEST(WhatChanged, SaysNothingOfTheSamePlan) {
  const SeasonQuestion q = testing::season("rainbow_trout", 100, 1, 64);
  const auto plan = *plan_season(q).plan;
  const auto difference = what_changed(plan, plan, q, {});
  EXPECT_TRUE(difference.same);
  EXPECT_TRUE(difference.what.empty());
  EXPECT_TRUE(difference.why.empty());
  EXPECT_NEAR(*difference.old_plan_now, plan.score.score, 1e-9);
}

TEST(WhatChanged, NamesTheDaysAndThatTheWaterWasWarmer) {
  const SeasonQuestion q = testing::season("rainbow_trout", 100, 1, 64);
  const auto before = *plan_season(q).plan;
  SeasonQuestion later = week_later(q, 14.0);  // as if it had been far warmer
  later.water_now = before.set_points[6];
  const auto now = *plan_season(later).plan;
  std::vector<biology::DailyTemperature> logged;
  for (int d = 0; d < 7; ++d) logged.push_back({first_day + std::chrono::days(d), before.set_points[static_cast<std::size_t>(d)] + TemperatureChange::from_c(2.0), TemperatureChange::from_c(0.4), true});
  const auto difference = what_changed(before, now, later, logged);
  EXPECT_FALSE(difference.same);
  ASSERT_TRUE(difference.first_day);
  int differing = 0;
  for (std::size_t d = 0; d < now.days.size(); ++d) differing += now.set_points[d] != before.set_points[d + 7] ? 1 : 0;
  EXPECT_EQ(difference.days_that_differ, differing);
  EXPECT_TRUE(says(difference.why, "warmer than planned"));
  EXPECT_TRUE(says(difference.why, "earlier than was expected"));
  if (difference.old_plan_now) EXPECT_GE(now.score.score, *difference.old_plan_now - *now.gap_bound - 1e-9);
}

TEST(WhatChanged, NamesWishesThatCameAndWent) {
  const SeasonQuestion q = testing::season("rainbow_trout", 100, 2, 64);
  const auto before = *plan_season(q).plan;
  SeasonQuestion other = q;
  other.wishes[0].key = "another";
  other.wishes[1].weight = 3.0;
  const auto difference = what_changed(before, *plan_season(other).plan, other, {});
  EXPECT_TRUE(says(difference.why, "A wish is new"));
  EXPECT_TRUE(says(difference.why, "given up"));
  EXPECT_TRUE(says(difference.why, "weight of a wish"));
}

}  // namespace
}  // namespace redd::planning
