#include "numerics/patankar.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/stiff_problems.h"

namespace redd::numerics {
namespace {

TEST(Patankar, HalvingTheStepShrinksTheErrorByFour) {
  const auto problem = tests::nitrogen();
  auto exact = problem.start;
  solve_stiff(rodas4, problem.system, exact, 0.0, 8.0, {1e-12, 1e-15});
  const auto error = [&](std::int64_t steps) {
    std::vector<double> y{3.0, 1e-300, 5.0, 2e-4 * 0.086, 5e-5 * 0.086};
    solve_positive_in_equal_steps(tests::nitrogen_flows(), y, 0.0, 8.0, steps);
    return std::fabs(y[1] - exact[1]);
  };
  EXPECT_NEAR(std::log2(error(400) / error(800)), 2.0, 0.2);
}

TEST(Patankar, StaysPositiveAndKeepsTheSumAtAnyStep) {
  for (const std::int64_t steps : {1, 3, 10, 100}) {
    std::vector<double> y{1.0, 1e-300, 1e-300};
    ASSERT_TRUE(solve_positive_in_equal_steps(tests::robertson_flows(), y, 0.0, 1e6, steps).reached);
    for (const double value : y) EXPECT_GE(value, 0.0);
    EXPECT_NEAR(y[0] + y[1] + y[2], 1.0, 1e-12);
  }
}

TEST(Patankar, AgreesWithTheImplicitStepper) {
  const auto problem = tests::nitrogen();
  auto exact = problem.start;
  solve_stiff(rodas4, problem.system, exact, 0.0, 20.0, {1e-11, 1e-15});
  std::vector<double> y{3.0, 1e-300, 5.0, 2e-4 * 0.086, 5e-5 * 0.086};
  ASSERT_TRUE(solve_positive(tests::nitrogen_flows(), y, 0.0, 20.0, {1e-4, 1e-9}).reached);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(y[i], exact[i], 2e-3 * std::fabs(exact[i])) << i;
}

}  // namespace
}  // namespace redd::numerics
