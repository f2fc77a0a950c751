#include "numerics/rosenbrock.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/stiff_problems.h"

namespace redd::numerics {
namespace {

struct Named {
  const char* name;
  const RosenbrockMethod* method;
};
const Named methods[] = {{"ros4", &ros4}, {"rodas3", &rodas3}, {"rodas4", &rodas4}};

double brusselator_error(const RosenbrockMethod& method, std::int64_t steps) {
  const auto problem = tests::brusselator();
  auto exact = problem.start;
  solve_stiff(rodas4, problem.system, exact, 0.0, 1.0, {1e-13, 1e-15});
  auto y = problem.start;
  solve_stiff_in_equal_steps(method, problem.system, y, 0.0, 1.0, steps);
  return std::hypot(y[0] - exact[0], y[1] - exact[1]);
}

TEST(Rosenbrock, HalvingTheStepShrinksTheErrorByItsOrder) {
  for (const Named& m : methods) {
    const double order = std::log2(brusselator_error(*m.method, 80) / brusselator_error(*m.method, 160));
    EXPECT_NEAR(order, m.method->order, 0.25) << m.name;
  }
}

TEST(Rosenbrock, KeepsLinearSumsToRounding) {
  for (const Named& m : methods) {
    const auto problem = tests::robertson();
    auto y = problem.start;
    ASSERT_TRUE(solve_stiff(*m.method, problem.system, y, 0.0, 1e4).reached) << m.name;
    EXPECT_NEAR(y[0] + y[1] + y[2], 1.0, 1e-12) << m.name;
  }
}

TEST(Rosenbrock, ForgetsAFastTransientAtOnce) {
  // y' = -1e8 (y - 1): an L-stable step lands on 1 whatever its length.
  const StiffSystem system{1, [](auto y, auto dy) { dy[0] = -1e8 * (y[0] - 1.0); }, [](auto, auto j) { j[0] = -1e8; }};
  for (const Named& m : methods) {
    std::vector<double> y{5.0};
    solve_stiff_in_equal_steps(*m.method, system, y, 0.0, 1.0, 2);
    EXPECT_NEAR(y[0], 1.0, 1e-6) << m.name;
  }
}

TEST(Rosenbrock, TighterToleranceGivesSmallerError) {
  const auto problem = tests::nitrogen();
  auto exact = problem.start;
  solve_stiff(rodas4, problem.system, exact, 0.0, 20.0, {1e-12, 1e-15});
  double before = 1.0;
  for (const double tolerance : {1e-3, 1e-5, 1e-7}) {
    auto y = problem.start;
    solve_stiff(ros4, problem.system, y, 0.0, 20.0, {tolerance, 1e-3 * tolerance});
    const double error = std::fabs(y[1] - exact[1]);
    EXPECT_LT(error, 0.2 * before);
    before = error;
  }
}

TEST(Rosenbrock, SaysWhenItCannotReachTheEnd) {
  const StiffSystem blows_up{1, [](auto y, auto dy) { dy[0] = y[0] * y[0]; }, {}};
  std::vector<double> y{1.0};  // the solution 1/(1 - t) has no value at 1
  EXPECT_FALSE(solve_stiff(ros4, blows_up, y, 0.0, 2.0).reached);
  const StiffSystem not_a_number{1, [](auto, auto dy) { dy[0] = std::nan(""); }, {}};
  std::vector<double> z{1.0};
  EXPECT_FALSE(solve_stiff(ros4, not_a_number, z, 0.0, 1.0).reached);
}

}  // namespace
}  // namespace redd::numerics
