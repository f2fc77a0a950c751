#include "quantities/heat.h"

#include <gtest/gtest.h>

#include "quantities/time.h"

namespace redd {
namespace {

TEST(Heat, UnitsConvertByDefinition) {
  EXPECT_DOUBLE_EQ(Energy::from_kwh(1).j(), 3.6e6);
  EXPECT_NEAR(Power::from_w(1).btu_per_h(), 3.41214, 0.00001);  // definition of the International Table BTU
  EXPECT_NEAR(Power::from_btu_per_h(12000).w(), 3516.85, 0.01);
  EXPECT_DOUBLE_EQ(Days(Hours(12)).count(), 0.5);
}

TEST(Heat, QuantitiesMultiplyToTheRightKind) {
  EXPECT_DOUBLE_EQ((Power::from_w(100) * Hours(10)).kwh(), 1.0);
  EXPECT_DOUBLE_EQ((Conductance::from_w_per_k(10) * TemperatureChange::from_c(13)).w(), 130.0);
  EXPECT_DOUBLE_EQ((HeatCapacity::from_j_per_k(4190) * TemperatureChange::from_c(-2)).j(), -8380.0);
  EXPECT_DOUBLE_EQ((Power::from_w(5) - Power::from_w(7)).w(), -2.0);
  EXPECT_DOUBLE_EQ((Energy::from_j(5) - Energy::from_j(7)).j(), -2.0);
}

}  // namespace
}  // namespace redd
