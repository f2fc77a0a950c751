#include "numerics/lanes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace redd::numerics {
namespace {

TEST(Lanes, ExponentialAgreesWithTheLibrary) {
  for (double x = -40.0; x < 40.0; x += 0.37) {
    const Lanes e = exponential(Lanes{x, x + 0.1, 0.0, 1e-9});
    EXPECT_NEAR(e[0] / std::exp(x), 1.0, 2e-15) << x;
    EXPECT_NEAR(e[1] / std::exp(x + 0.1), 1.0, 2e-15) << x;
    EXPECT_EQ(e[2], 1.0);
  }
}

TEST(Lanes, LogarithmOfAFactorADegree) {
  for (double x = 0.8; x <= 1.25; x += 0.01) {
    const Lanes l = logarithm_near_one(Lanes{x, 1.0, 1.08, 1.1});
    EXPECT_NEAR(l[0], std::log(x), 1e-14) << x;
    EXPECT_EQ(l[1], 0.0);
  }
}

TEST(Lanes, LargestLaneDoesNotHideWhatIsNotANumber) {
  EXPECT_EQ(largest_lane(Lanes{1.0, 4.0, 2.0, 3.0}), 4.0);
  EXPECT_EQ(smallest_lane(Lanes{1.0, 4.0, -2.0, 3.0}), -2.0);
  for (int i = 0; i < 4; ++i) {
    Lanes x{1.0, 2.0, 3.0, 4.0};
    x[i] = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(std::isnan(largest_lane(x))) << i;
  }
}

TEST(Lanes, LoadAndStoreKeepTheirPlaces) {
  const double from[] = {1.0, 2.0, 3.0, 4.0};
  double to[4];
  store(square_root(load(from)), to);
  for (int i = 0; i < 4; ++i) EXPECT_EQ(to[i], std::sqrt(from[i]));
}

}  // namespace
}  // namespace redd::numerics
