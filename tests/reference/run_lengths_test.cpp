// Run lengths of control charts: EWMA [crowder1987], [lucas1990], [crowder1989]; CUSUM [lucas1982], [vance1986], [brook1972];
// Shewhart with runs rules [champ1987]. Read in the manual of a statistics package that quotes the papers' tables.
#include "numerics/control_charts.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace numerics;

std::optional<double> computed(const Row& row) {
  const Sides sides = row.text("sided") == "one" ? Sides::one : Sides::two;
  const double weight = row.number("lambda_or_k"), limit = row.number("limit"), shift = row.number("shift");
  const std::string& chart = row.text("chart");
  if (chart == "cusum") return cusum_run_length(weight, limit, shift, sides);
  if (chart == "ewma" || chart == "misprint") return ewma_run_length(weight, limit, shift, sides);
  const std::string& rule = row.text("rule");
  if (rule.empty()) return shewhart_run_length(limit, shift, sides);
  return shewhart_rules_run_length({rule == "two_of_three", rule == "four_of_five", rule == "eight_same_side"}, shift);
}

TEST(RunLengths, EveryTabulatedValueIsReproduced) {
  for (const Row& row : table("run_lengths")) {
    if (row.text("chart") == "misprint") continue;
    const auto length = computed(row);
    ASSERT_TRUE(length) << row.line();
    EXPECT_NEAR(*length, row.number("expected"), row.number("tolerance")) << row.line();
  }
}

TEST(RunLengths, AMisprintIsNotReproduced) {
  for (const Row& row : table("run_lengths"))
    if (row.text("chart") == "misprint") {
      EXPECT_GT(std::abs(*computed(row) - row.number("expected")), 0.3) << row.line();
      EXPECT_NEAR(*computed(row), 3.59, 0.005);
    }
}

TEST(RunLengths, LimitsForTwoHundredAndFiftyReadings) {  // [crowder1989], to the printed digit
  EXPECT_NEAR(*ewma_limit_for(0.05, 250, Sides::two), 2.32, 0.01);
  EXPECT_NEAR(*ewma_limit_for(0.15, 250, Sides::two), 2.65, 0.01);
  EXPECT_NEAR(*ewma_limit_for(0.25, 250, Sides::two), 2.76, 0.01);
}

TEST(RunLengths, AHeadStartShortensTheWait) {  // [lucas1982] table 1, h = 4, k = 0.5, head start 2: 149 in control, 20.1 at 0.5; from memory
  EXPECT_NEAR(*cusum_run_length(0.5, 4, 0.0, Sides::two, 2.0), 149.0, 0.5);
  EXPECT_NEAR(*cusum_run_length(0.5, 4, 0.5, Sides::two, 2.0), 20.1, 0.05);
}

TEST(RunLengths, AllRulesTogether) {  // [champ1987]: 91.75, from memory
  EXPECT_NEAR(*shewhart_rules_run_length({true, true, true}, 0.0), 91.75, 0.01);
}

}  // namespace
}  // namespace redd::reference
