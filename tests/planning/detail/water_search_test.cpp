#include "planning/detail/water_search.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace redd::planning {
namespace {

using std::chrono::days;

/// Monday to Friday from Monday 3 February 2031, without the days given.
std::vector<Date> open_days(int weeks, const std::vector<int>& closed = {}) {
  const Date monday{std::chrono::sys_days{std::chrono::year{2031} / 2 / 3}.time_since_epoch()};
  std::vector<Date> open;
  for (int d = 0; d < 7 * weeks; ++d)
    if (d % 7 < 5 && std::ranges::find(closed, d) == closed.end()) open.push_back(monday + days(d));
  return open;
}

TEST(ChangeRhythms, UseOpenDaysOnlyWithADayBetween) {
  for (const auto& open : {open_days(3), open_days(3, {4, 7, 8, 9, 10, 11}), open_days(1), std::vector<Date>{open_days(1).front()}})
    for (const auto& on : change_rhythms(open)) {
      ASSERT_FALSE(on.empty());
      for (std::size_t i = 0; i < on.size(); ++i) {
        EXPECT_TRUE(std::ranges::binary_search(open, on[i]));
        if (i > 0) {
          EXPECT_GE(on[i] - on[i - 1], days(fewest_days_between));
        }
      }
    }
}

TEST(ChangeRhythms, HoldOnceAWeekAndThriceAWeek) {
  const auto open = open_days(3);
  const auto all = change_rhythms(open);
  EXPECT_NE(std::ranges::find(all, std::vector<Date>{open[1], open[6], open[11]}), all.end());  // three Tuesdays
  EXPECT_GE(std::ranges::max(all, {}, [](const auto& on) { return on.size(); }).size(), 8u);
  EXPECT_TRUE(std::ranges::is_sorted(all, {}, [](const auto& on) { return on.size(); }));
}

TEST(ChangeRhythms, ADayBeforeABreakIsACandidate) {
  const auto open = open_days(3, {7, 8, 9, 10, 11});  // the second week closed
  const auto all = change_rhythms(open);
  EXPECT_NE(std::ranges::find(all, std::vector<Date>{open[4]}), all.end());  // Friday before it
}

TEST(ChangeRhythms, NoOpenDayNoRhythm) { EXPECT_TRUE(change_rhythms({}).empty()); }

}  // namespace
}  // namespace redd::planning
