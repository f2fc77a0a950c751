#include "numerics/resampling.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace redd::numerics {
namespace {

TEST(SystematicResample, KeepsEachWithinOneOfItsShare) {
  const std::vector<double> weights{0.5, 0.0, 0.13, 0.07, 0.3};
  for (double uniform = 0.005; uniform < 1.0; uniform += 0.01) {
    const auto kept = systematic_resample(weights, uniform, 100);
    ASSERT_EQ(kept.size(), 100u);
    EXPECT_TRUE(std::ranges::is_sorted(kept));
    for (std::size_t i = 0; i < weights.size(); ++i)
      EXPECT_LE(std::abs(static_cast<double>(std::ranges::count(kept, i)) - 100.0 * weights[i]), 1.0) << i;
    EXPECT_EQ(std::ranges::count(kept, std::size_t{1}), 0);
  }
}

TEST(SystematicResample, DoesNotAskForWeightsThatSumToOne) {
  EXPECT_EQ(systematic_resample(std::vector{2.0, 2.0}, 0.5, 4), (std::vector<std::size_t>{0, 0, 1, 1}));
  EXPECT_EQ(systematic_resample(std::vector{0.0, 1e-300}, 0.5, 2), (std::vector<std::size_t>{1, 1}));
}

}  // namespace
}  // namespace redd::numerics
