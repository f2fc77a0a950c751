#include "numerics/linear.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
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

// Eigenvalues of the second-difference matrix are 2 - 2 cos(k pi / (n + 1)) (textbook; from memory).
TEST(SymmetricEigen, FindsTheValuesOfTheSecondDifferenceAndTheirDirections) {
  constexpr std::size_t n = 9;
  SquareMatrix matrix(n);
  for (std::size_t i = 0; i < n; ++i) {
    matrix(i, i) = 2.0;
    if (i + 1 < n) matrix(i, i + 1) = matrix(i + 1, i) = -1.0;
  }
  const Eigen eigen = symmetric_eigen(matrix);
  for (std::size_t k = 0; k < n; ++k) {
    EXPECT_NEAR(eigen.values[k], 2.0 - 2.0 * std::cos(static_cast<double>(n - k) * std::numbers::pi / (n + 1.0)), 1e-12);
    for (std::size_t i = 0; i < n; ++i) {
      double product = 0.0, along = 0.0;
      for (std::size_t j = 0; j < n; ++j) {
        product += matrix(i, j) * eigen.vectors(j, k);
        along += eigen.vectors(j, i) * eigen.vectors(j, k);
      }
      EXPECT_NEAR(product, eigen.values[k] * eigen.vectors(i, k), 1e-12);
      EXPECT_NEAR(along, i == k ? 1.0 : 0.0, 1e-12);
    }
  }
}

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
