#include "numerics/poisson_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "numerics/random.h"

namespace redd::numerics {
namespace {

constexpr double once_in = 300.0;

TEST(PoissonRunLength, OfTwoStepsIsThatOfTheChainByHand) {
  // Limit 1, allowance 3: the sum is 0 or 1 until it signals. From 0: a count of 4 leads to 1, 5 or more signals; from 1: 3 stays, 4 signals.
  const double mean = 1.3;
  const auto chance = [&](int n) { return std::exp(n * std::log(mean) - mean - std::lgamma(n + 1.0)); };
  const double below_three = chance(0) + chance(1) + chance(2);
  // from_one = 1 + below_three from_zero + chance(3) from_one;  from_zero = 1 + (below_three + chance(3)) from_zero + chance(4) from_one
  const double stay = 1.0 - chance(3), zero = 1.0 - below_three - chance(3);
  const double from_zero = (1.0 + chance(4) / stay) / (zero - chance(4) * below_three / stay);
  EXPECT_NEAR(*poisson_cusum_run_length(mean, 3, 1), from_zero, 1e-9 * from_zero);
}

TEST(PoissonRunLength, IsThatOfSimulatedCharts) {
  RandomStream random(7, 1);
  const double mean = 0.8, allowance = 1.5, limit = 3.0;
  double sum_of_lengths = 0.0;
  constexpr int charts = 4000;
  for (int i = 0; i < charts; ++i) {
    double sum = 0.0;
    do {
      sum = std::max(0.0, sum + static_cast<double>(random.poisson(mean)) - allowance);
      sum_of_lengths += 1.0;
    } while (sum <= limit);
  }
  const auto length = poisson_cusum_run_length(mean, allowance, limit, 2);
  ASSERT_TRUE(length);
  EXPECT_NEAR(sum_of_lengths / charts / *length, 1.0, 4.0 / std::sqrt(charts));
}

TEST(PoissonRunLength, RefusesWhatItCannotSay) {
  EXPECT_FALSE(poisson_cusum_run_length(0.0, 1, 3));
  EXPECT_FALSE(poisson_cusum_run_length(1.0, 1, 0));
  EXPECT_FALSE(poisson_cusum_run_length(1.0, 1, 4000));
  EXPECT_FALSE(poisson_cusum_run_length(0.01, 2, 30)) << "beyond what the equations can hold";
}

/// Share of the days in control on which the chart signals, over many seasons whose expected number changes from day to day.
double false_alarms_per_day(double lowest, double highest, int seasons) {
  RandomStream random(11, 3);
  double days = 0.0, alarms = 0.0;
  for (int season = 0; season < seasons; ++season) {
    CountWatch watch(1.0 / once_in, 3.0, highest);
    for (int i = 0; i < 200; ++i) {
      const double gap = i % 5 == 4 ? 3.0 : 1.0;  // a weekend
      const double expected = gap * (lowest + (highest - lowest) * std::pow(std::sin(0.03 * i), 2));
      days += gap;
      alarms += watch.next(static_cast<double>(random.poisson(expected)), expected, gap).signals ? 1.0 : 0.0;
    }
  }
  return alarms / days;
}

TEST(CountWatch, RaisesNoMoreFalseAlarmsThanItSays) {
  for (const auto& [lowest, highest] : std::vector<std::pair<double, double>>{{0.05, 0.3}, {0.2, 1.0}, {1.0, 6.0}}) {
    const double rate = false_alarms_per_day(lowest, highest, 200);
    const double noise = std::sqrt(1.0 / once_in / (200 * 280.0));
    EXPECT_LT(rate, 1.0 / once_in + 3.0 * noise) << lowest << " to " << highest;
    EXPECT_GT(rate, 0.2 / once_in) << "so few that real outbreaks would be missed";
  }
}

TEST(CountWatch, FindsATriplingWithinAboutAWeek) {
  RandomStream random(13, 5);
  double waited = 0.0;
  constexpr int seasons = 400;
  for (int season = 0; season < seasons; ++season) {
    CountWatch watch(1.0 / once_in, 3.0, 3.0);
    for (int i = 0; i < 40; ++i) watch.next(static_cast<double>(random.poisson(0.6)), 0.6, 1.0);
    int day = 1;
    while (day < 60 && !watch.next(static_cast<double>(random.poisson(1.8)), 0.6, 1.0).signals) ++day;
    waited += day;
  }
  EXPECT_LT(waited / seasons, 7.0);
}

TEST(CountWatch, AddsUpWhatNoSingleDayShows) {
  CountWatch watch(1.0 / once_in, 3.0, 1.0);
  int day = 1;
  while (day < 30 && !watch.next(1.0, 0.1, 1.0).signals) ++day;
  EXPECT_GT(day, 1) << "one death is not an outbreak";
  EXPECT_LT(day, 8);
}

TEST(CountWatch, AllowsMoreWhereMoreIsExpected) {
  CountWatch egg(1.0 / once_in, 3.0, 6.0), hatch(1.0 / once_in, 3.0, 6.0);
  EXPECT_TRUE(egg.next(6.0, 0.2, 1.0).signals);
  EXPECT_FALSE(hatch.next(6.0, 3.0, 1.0).signals);
}

TEST(CountWatch, TakesMondayForThreeDays) {
  CountWatch monday(1.0 / once_in, 3.0, 6.0), tuesday(1.0 / once_in, 3.0, 6.0);
  EXPECT_FALSE(monday.next(4.0, 3.0 * 0.3, 3.0).signals);
  EXPECT_TRUE(tuesday.next(4.0, 0.3, 1.0).signals);
}

TEST(CountWatch, SignalsAgainWhileItGoesOnAndCalmsWhenItIsOver) {
  CountWatch watch(1.0 / once_in, 3.0, 3.0);
  EXPECT_TRUE(watch.next(9.0, 0.5, 1.0).signals);
  EXPECT_TRUE(watch.next(5.0, 0.5, 1.0).signals);
  bool again = false;
  for (int i = 0; i < 20; ++i) again = watch.next(0.0, 0.5, 1.0).signals || again;
  EXPECT_FALSE(again);
  EXPECT_TRUE(watch.next(0.0, 0.5, 1.0).began);
}

}  // namespace
}  // namespace redd::numerics
