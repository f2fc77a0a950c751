#include "quantities/result.h"

#include <gtest/gtest.h>

namespace redd {
namespace {

TEST(Result, HoldsAValueOrProblemsNeverBoth) {
  const Result<int> good = 7;
  EXPECT_TRUE(good);
  EXPECT_EQ(*good, 7);
  const Result<int> bad = Problem{"code", "field", "sentence"};
  EXPECT_FALSE(bad);
  EXPECT_EQ(bad.problems().front().field, "field");
}

TEST(ResultDeathTest, WrongUseStopsTheProgram) {
  const Result<int> bad = Problem{"code", "field", "sentence"};
  EXPECT_DEATH((void)bad.value(), "there is no value");
  EXPECT_DEATH(Result<int>(Problems{}), "empty list");
}

}  // namespace
}  // namespace redd
