// Mean and standard deviation against certified values of the Statistical Reference Datasets, univariate [nist_strd]: Mavro, NumAcc1 and
// NumAcc4, read as repeated in public test files of statistics libraries.
#include "numerics/spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace redd::reference {
namespace {

TEST(NistStrd, MavroFilterTransmittance) {
  const std::vector<double> transmittance{
      2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150, 2.00150, 2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200,
      2.00160, 2.00140, 2.00130, 2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130, 2.00140, 2.00150, 2.00140, 2.00150, 2.00160, 2.00150, 2.00160,
      2.00190, 2.00200, 2.00200, 2.00210, 2.00220, 2.00230, 2.00240, 2.00250, 2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240};
  const auto s = numerics::spread_of(transmittance);
  EXPECT_EQ(s.count, 50);
  EXPECT_NEAR(s.mean, 2.00185600000000, 1e-14);
  EXPECT_NEAR(s.standard_deviation, 0.000429123454003053, 1e-15);
  EXPECT_NEAR(s.standard_error, 0.000429123454003053 / std::sqrt(50.0), 1e-15);
}

TEST(NistStrd, NumAcc1And4KeepTheirDigits) {
  const auto first = numerics::spread_of(std::vector<double>{10000001, 10000003, 10000002});
  EXPECT_EQ(first.mean, 10000002.0);
  EXPECT_EQ(first.standard_deviation, 1.0);
  std::vector<double> values{10000000.2};
  for (int i = 0; i < 500; ++i) values.insert(values.end(), {10000000.1, 10000000.3});
  const auto fourth = numerics::spread_of(values);
  EXPECT_NEAR(fourth.mean, 10000000.2, 1e-8);
  EXPECT_NEAR(fourth.standard_deviation, 0.1, 1e-9);
}

}  // namespace
}  // namespace redd::reference
