#include "numerics/roots.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace redd::numerics {
namespace {

TEST(RootBetween, FindsRootsOfSmoothAndSteepFunctions) {
  EXPECT_NEAR(*root_between([](double x) { return std::cos(x); }, 0.0, 3.0, 1e-12), std::numbers::pi / 2, 1e-12);
  EXPECT_NEAR(*root_between([](double x) { return std::expm1(40.0 * (x - 0.3)); }, 0.0, 1.0, 1e-12), 0.3, 1e-11);
  EXPECT_NEAR(*root_between([](double x) { return x * x * x; }, -1.0, 2.0, 1e-9), 0.0, 1e-9);
  EXPECT_NEAR(*root_between([](double x) { return x < 0.7 ? -1.0 : 1.0; }, 0.0, 1.0, 1e-9), 0.7, 1e-9);
}

TEST(RootBetween, NeedsFewCalls) {
  int calls = 0;
  const auto root = root_between([&](double x) { ++calls; return std::exp(x) - 2.0; }, -10.0, 10.0, 1e-10);
  EXPECT_NEAR(*root, std::log(2.0), 1e-10);
  EXPECT_LT(calls, 25);
}

TEST(RootBetween, AcceptsARootAtAnEnd) {
  EXPECT_DOUBLE_EQ(*root_between([](double x) { return x - 1.0; }, 1.0, 2.0, 1e-9), 1.0);
  EXPECT_DOUBLE_EQ(*root_between([](double x) { return x - 2.0; }, 1.0, 2.0, 1e-9), 2.0);
}

TEST(RootBetween, FindsNothingWithoutASignChange) {
  EXPECT_FALSE(root_between([](double x) { return x * x + 1.0; }, -1.0, 1.0, 1e-9));
  EXPECT_FALSE(root_between([](double) { return std::nan(""); }, -1.0, 1.0, 1e-9));
}

}  // namespace
}  // namespace redd::numerics
