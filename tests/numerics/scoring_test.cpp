#include "numerics/scoring.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "numerics/normal.h"
#include "numerics/random.h"

namespace redd::numerics {
namespace {

using std::vector;

// Worked by hand from the formulae.
TEST(IntervalScore, IsTheWidthInsideAndTenTimesTheGapMoreOutside) {
  EXPECT_DOUBLE_EQ(interval_score(3, 7, 0.2, 5), 4.0);
  EXPECT_DOUBLE_EQ(interval_score(3, 7, 0.2, 3), 4.0);
  EXPECT_DOUBLE_EQ(interval_score(3, 7, 0.2, 2.5), 4.0 + 10.0 * 0.5);
  EXPECT_DOUBLE_EQ(interval_score(3, 7, 0.2, 9), 4.0 + 10.0 * 2.0);
  EXPECT_DOUBLE_EQ(interval_score(3, 7, 0.1, 9), 4.0 + 20.0 * 2.0);
}

TEST(IntervalScore, RisesWithTheDistanceMissedAndWithTheWidth) {
  for (double miss = 0.0; miss < 3.0; miss += 0.25) EXPECT_LT(interval_score(0, 1, 0.2, 1 + miss), interval_score(0, 1, 0.2, 1.2 + miss));
  for (double width = 1.0; width < 3.0; width += 0.25) EXPECT_LT(interval_score(0, width, 0.2, 0.5), interval_score(0, width + 0.1, 0.2, 0.5));
}

/// Mean score of a range against a normal truth, on a fine grid of equally likely values.
double expected_score(double low, double high, double mean, double sd) {
  constexpr int count = 4000;
  double sum = 0.0;
  for (int i = 0; i < count; ++i) sum += interval_score(low, high, 0.2, mean + sd * normal_quantile((i + 0.5) / count));
  return sum / count;
}

TEST(IntervalScore, IsBestForTheTrueQuantiles) {
  const double z = normal_quantile(0.9);
  const double best = expected_score(10 - 2 * z, 10 + 2 * z, 10, 2);
  RandomStream chance(11);
  for (int i = 0; i < 200; ++i) {
    const double low = 10 - 2 * z + chance.uniform_between(-2.5, 2.4), high = std::max(low, 10 + 2 * z + chance.uniform_between(-2.4, 2.5));
    EXPECT_GE(expected_score(low, high, 10, 2), best - 1e-4) << low << " to " << high;
  }
  EXPECT_GT(expected_score(10 - z, 10 + z, 10, 2), best * 1.05);  // half as wide: bluffing costs
  EXPECT_GT(expected_score(10 - 4 * z, 10 + 4 * z, 10, 2), best * 1.2);  // twice as wide: so does playing safe
}

TEST(MeanIntervalScore, IsTheMeanOverTheReadingsRange) {
  const vector<std::array<double, 4>> cases{{3, 7, 1, 2}, {3, 7, 2, 4}, {3, 7, 4, 5}, {3, 7, 6, 9}, {3, 7, 1, 9}, {5, 5, 4, 6}, {3, 7, 8, 9}};
  for (const auto& [low, high, from, to] : cases) {
    constexpr int count = 100000;
    double sum = 0.0;
    for (int i = 0; i < count; ++i) sum += interval_score(low, high, 0.2, from + (to - from) * (i + 0.5) / count);
    EXPECT_NEAR(mean_interval_score(low, high, 0.2, from, to), sum / count, 1e-6) << low << " " << high << " " << from << " " << to;
  }
  EXPECT_DOUBLE_EQ(mean_interval_score(3, 7, 0.2, 9, 9), interval_score(3, 7, 0.2, 9));
}

TEST(MeanIntervalScore, IsBestForTheQuantilesOfReadingsSpreadEvenlyOverTheirClasses) {
  // Classes 0-1, 1-2, 2-3, 3-4 with these chances; the tenth and nine tenths of the spread distribution are at 0.5 and 3.5.
  const std::array chances{0.2, 0.3, 0.3, 0.2};
  const auto expected = [&](double low, double high) {
    double sum = 0.0;
    for (int c = 0; c < 4; ++c) sum += chances[static_cast<std::size_t>(c)] * mean_interval_score(low, high, 0.2, c, c + 1);
    return sum;
  };
  const double best = expected(0.5, 3.5);
  for (double low = -0.5; low <= 2.0; low += 0.1)
    for (double high = 2.0; high <= 4.5; high += 0.1) EXPECT_GE(expected(low, high), best - 1e-12) << low << " to " << high;
}

// Worked by hand: cumulative 0.2, 0.7, 1 against 0, 1, 1.
TEST(RankedProbabilityScore, AddsSquaredGapsOfTheCumulativeSums) {
  const vector<double> p{0.2, 0.5, 0.3};
  EXPECT_NEAR(ranked_probability_score(p, vector<double>{0, 1, 0}), 0.04 + 0.09, 1e-12);
  EXPECT_NEAR(ranked_probability_score(p, vector<double>{1, 0, 0}), 0.64 + 0.09, 1e-12);
  EXPECT_NEAR(ranked_probability_score(p, vector<double>{0, 0, 1}), 0.04 + 0.49, 1e-12);
  EXPECT_NEAR(ranked_probability_score(p, vector<double>{0, 0.5, 0.5}), 0.5 * (0.13 + 0.53), 1e-12);
  EXPECT_EQ(ranked_probability_score(vector<double>{0, 0, 1}, vector<double>{0, 0, 1}), 0.0);
  EXPECT_NEAR(ranked_probability_score(vector<double>{1, 0, 0, 0}, vector<double>{0, 0, 0, 1}), 3.0, 1e-12);
}

TEST(RankedProbabilityScore, OfTwoClassesIsTheBrierScore) {
  for (double p = 0.0; p <= 1.0; p += 0.125) EXPECT_NEAR(ranked_probability_score(vector<double>{p, 1 - p}, vector<double>{1, 0}), (p - 1) * (p - 1), 1e-12);
}

TEST(RankedProbabilityScore, CostsMoreTheFartherTheChipsLie) {
  double before = -1.0;
  for (std::size_t at = 0; at < 6; ++at) {
    vector<double> p(6, 0.0);
    p[at] = 1.0;
    const double loss = ranked_probability_score(p, vector<double>{1, 0, 0, 0, 0, 0});
    EXPECT_GT(loss, before);
    before = loss;
  }
}

TEST(RankedProbabilityScore, IsBestForTheTrueChancesAndOnlyForThem) {
  RandomStream chance(12);
  const auto some = [&] {
    vector<double> p(5);
    double sum = 0.0;
    for (double& each : p) sum += each = chance.exponential();
    for (double& each : p) each /= sum;
    return p;
  };
  for (int i = 0; i < 300; ++i) {
    const auto truth = some(), told = some();
    EXPECT_LT(ranked_probability_score(truth, truth), ranked_probability_score(told, truth));  // the outcome's weights are the true chances: the mean loss
  }
}

TEST(EvenChips, LoseWhatTheClosedFormSays) {
  for (const int classes : {2, 5, 6, 8}) {
    const vector<double> even(static_cast<std::size_t>(classes), 1.0 / classes);
    EXPECT_NEAR(ranked_probability_score(even, even), (classes * classes - 1.0) / (6.0 * classes), 1e-12);
  }
}

TEST(Crps, OfANormalAtItsMiddleIsTheKnownConstant) {
  EXPECT_NEAR(crps_of_normal(0, 1, 0), (std::sqrt(2.0) - 1.0) / std::sqrt(std::acos(-1.0)), 1e-12);
  EXPECT_NEAR(crps_of_normal(8, 0.5, 8), 0.5 * crps_of_normal(0, 1, 0), 1e-12);
}

TEST(Crps, OfOneValueIsTheDistance) { EXPECT_DOUBLE_EQ(crps_of_sample(vector<double>{3.0}, 5.5), 2.5); }

TEST(Crps, OfManyNormalValuesIsThatOfTheNormal) {
  vector<double> values;
  for (int i = 0; i < 4000; ++i) values.push_back(8.0 + 0.7 * normal_quantile((i + 0.5) / 4000));
  for (const double seen : {5.0, 7.6, 8.0, 9.3}) EXPECT_NEAR(crps_of_sample(values, seen), crps_of_normal(8.0, 0.7, seen), 2e-4) << seen;
}

TEST(Crps, IsBestForTheTrueDistribution) {
  const auto expected = [](double mean, double sd) {
    double sum = 0.0;
    for (int i = 0; i < 2000; ++i) sum += crps_of_normal(mean, sd, normal_quantile((i + 0.5) / 2000));
    return sum / 2000;
  };
  const double best = expected(0, 1);
  for (const double mean : {-1.0, -0.2, 0.2, 1.0}) EXPECT_GT(expected(mean, 1), best);
  for (const double sd : {0.4, 0.8, 1.25, 2.5}) EXPECT_GT(expected(0, sd), best);
}

}  // namespace
}  // namespace redd::numerics
