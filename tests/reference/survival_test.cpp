// Shares with their exact intervals [newcombe1998] and a worked survival curve [freireich1963], both from memory; and the Poisson
// CUSUM against the normal one's published run length [brook1972], which it must reach where counts are many.
#include "numerics/survival.h"

#include "numerics/poisson_chart.h"
#include "numerics/proportions.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace numerics;

TEST(Newcombe1998, ExactIntervalsAreReproduced) {
  for (const Row& row : table("counted_shares")) {
    const auto share = exact_share(row.number("hits"), row.number("trials"), 0.95);
    EXPECT_NEAR(share.low, row.number("low"), row.number("tolerance")) << row.line();
    EXPECT_NEAR(share.high, row.number("high"), row.number("tolerance")) << row.line();
  }
}

TEST(Freireich1963, TheRemissionCurveIsReproduced) {
  const std::vector<LotChange> weeks{{0, 21, 0, 0},  {6, 0, 3, 1},  {7, 0, 1, 0},  {9, 0, 0, 1},  {10, 0, 1, 1}, {11, 0, 0, 1}, {13, 0, 1, 0}, {16, 0, 1, 0}, {17, 0, 0, 1},
                                     {19, 0, 0, 1}, {20, 0, 0, 1}, {22, 0, 1, 0}, {23, 0, 1, 0}, {25, 0, 0, 1}, {32, 0, 0, 2}, {34, 0, 0, 1}, {35, 0, 0, 1}};
  const auto points = kaplan_meier(weeks, 0.95);
  const auto rows = table("remission_times");
  ASSERT_EQ(points.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    EXPECT_EQ(points[i].at, rows[i].number("week"));
    EXPECT_EQ(points[i].at_risk, rows[i].number("at_risk")) << rows[i].line();
    EXPECT_EQ(points[i].died, rows[i].number("events")) << rows[i].line();
    EXPECT_NEAR(points[i].survival.mid, rows[i].number("survival"), 0.0006) << rows[i].line();  // one printed digit is cut, not rounded
    EXPECT_NEAR(points[i].standard_error, rows[i].number("standard_error"), 0.00006) << rows[i].line();
    EXPECT_NEAR(points[i].survival.low, rows[i].number("low"), 0.0006) << rows[i].line();
    EXPECT_NEAR(points[i].survival.high, rows[i].number("high"), 0.0006) << rows[i].line();
  }
}

TEST(Brook1972, ManyCountsReachTheRunLengthOfTheNormalChart) {
  // k = 0.5, h = 3, in control: 117.59, read in a statistics package's manual. At a mean of 90 000 the sd is 300; a lattice and a
  // skewness of 1/300 leave a fifth of a percent.
  const auto length = poisson_cusum_run_length(90000, 90150, 900);
  ASSERT_TRUE(length);
  EXPECT_NEAR(*length, 117.59, 0.35);
}

}  // namespace
}  // namespace redd::reference
