#include "numerics/linear.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

namespace redd::numerics {
namespace {

TEST(Solved, SolvesASystemThatNeedsPivoting) {
  SquareMatrix matrix(3);
  const double rows[3][3] = {{0, 2, 1}, {1, -2, -3}, {-1, 1, 2}};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) matrix(i, j) = rows[i][j];
  const auto x = solved(matrix, {-8, 0, 3});
  ASSERT_TRUE(x);
  EXPECT_NEAR((*x)[0], -4.0, 1e-12);
  EXPECT_NEAR((*x)[1], -5.0, 1e-12);
  EXPECT_NEAR((*x)[2], 2.0, 1e-12);
}

TEST(Solved, RefusesASingularMatrix) { EXPECT_FALSE(solved(SquareMatrix(2), {1, 1})); }

TEST(GaussLegendre, IsExactForPolynomialsOfItsDegree) {
  const Quadrature rule = gauss_legendre(5, -1.0, 3.0);
  for (int degree = 0; degree <= 9; ++degree) {
    double sum = 0.0;
    for (std::size_t i = 0; i < 5; ++i) sum += rule.weights[i] * std::pow(rule.nodes[i], degree);
    EXPECT_NEAR(sum, (std::pow(3.0, degree + 1) - std::pow(-1.0, degree + 1)) / (degree + 1), 1e-9) << degree;
  }
}

TEST(GaussLegendre, WeightsSumToTheLengthForManyNodes) {
  for (const std::size_t count : {1u, 2u, 41u, 160u, 700u}) {
    const Quadrature rule = gauss_legendre(count, 0.0, 2.0);
    EXPECT_NEAR(std::accumulate(rule.weights.begin(), rule.weights.end(), 0.0), 2.0, 1e-11) << count;
    EXPECT_TRUE(std::is_sorted(rule.nodes.begin(), rule.nodes.end()));
  }
}

}  // namespace
}  // namespace redd::numerics
