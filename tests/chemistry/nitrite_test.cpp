#include "chemistry/nitrite.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

double mean(std::optional<double> chloride) { return nitrite_limit(chloride).mean.mg_n_per_l(); }

TEST(NitriteLimit, UnknownChlorideMeansTheStrictestClass) {
  EXPECT_DOUBLE_EQ(mean({}), 0.02);
  EXPECT_DOUBLE_EQ(nitrite_limit({}).maximum.mg_n_per_l(), 0.06);
  EXPECT_DOUBLE_EQ(mean(0.0), 0.02);
}

TEST(NitriteLimit, StepsUpWithChlorideAndNeverDown) {
  double last = 0.0;
  for (double chloride = 0.0; chloride < 15.0; chloride += 0.1) {
    EXPECT_GE(mean(chloride), last);
    last = mean(chloride);
  }
}

TEST(NitriteLimit, ClassBorders) {
  EXPECT_DOUBLE_EQ(mean(1.999), 0.02);
  EXPECT_DOUBLE_EQ(mean(2.0), 0.04);
  EXPECT_DOUBLE_EQ(mean(10.0), 0.10);
  EXPECT_DOUBLE_EQ(mean(10.001), 0.20);
}

}  // namespace
}  // namespace redd::chemistry
