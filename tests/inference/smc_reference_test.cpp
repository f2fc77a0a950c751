#include "inference/smc_reference.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numerics/random.h"

namespace redd::inference {
namespace {

using numerics::ParticleTable;
using numerics::SquareMatrix;

constexpr std::size_t rows = 6, count = 2001;

/// Standard normal numbers, of which the sum of the first two has been told: it lies at 1.5 with a fifth of the spread it had.
ParticleTable told_sample() {
  ParticleTable sample(rows, count);
  for (std::size_t i = 0; i < count; ++i) {
    numerics::RandomStream stream(11, 2, static_cast<std::uint32_t>(i), 0);
    for (std::size_t row = 0; row < rows; ++row) sample(row, i) = stream.normal();
    const double across = (sample(0, i) - sample(1, i)) / std::sqrt(2.0), along = 1.5 + 0.2 * stream.normal();
    sample(0, i) = (along + across) / std::sqrt(2.0);
    sample(1, i) = (along - across) / std::sqrt(2.0);
  }
  return sample;
}
SquareMatrix told_information() {
  SquareMatrix information(rows);  // 1 / 0.2^2 - 1 = 24 along the sum
  for (const std::size_t i : {0u, 1u})
    for (const std::size_t j : {0u, 1u}) information(i, j) = 12.0;
  return information;
}
double spread_along(const Reference& reference, const std::vector<double>& direction) {
  double variance = 0.0;
  for (std::size_t k = 0; k < rows; ++k) {
    double sum = 0.0;
    for (std::size_t row = 0; row < rows; ++row) sum += direction[row] * reference.out(row, k);
    variance += sum * sum;
  }
  return std::sqrt(variance);
}
void expect_inverse(const Reference& reference) {
  for (std::size_t i = 0; i < rows; ++i)
    for (std::size_t j = 0; j < rows; ++j) {
      double sum = 0.0;
      for (std::size_t k = 0; k < rows; ++k) sum += reference.out(i, k) * reference.in(k, j);
      EXPECT_NEAR(sum, i == j ? 1.0 : 0.0, 1e-9);
    }
}
const double half = std::sqrt(0.5);

TEST(InformedReference, FollowsTheSampleOnlyWhereTheDataTellSomething) {
  const std::vector<double> even(count, 1.0 / count);
  const Reference reference = informed_reference(told_sample(), even, told_information());
  EXPECT_EQ(reference.informed, 1u);
  expect_inverse(reference);
  EXPECT_NEAR(reference.mean[0], 1.5 * half, 0.02);
  EXPECT_NEAR(reference.mean[1], 1.5 * half, 0.02);
  for (std::size_t row = 2; row < rows; ++row) EXPECT_NEAR(reference.mean[row], 0.0, 1e-12);
  EXPECT_NEAR(spread_along(reference, {half, half, 0, 0, 0, 0}), 0.22, 0.02);  // a tenth wider than the sample
  EXPECT_NEAR(spread_along(reference, {half, -half, 0, 0, 0, 0}), 1.0, 1e-9);
  EXPECT_NEAR(spread_along(reference, {0, 0, 0, 0, 1, 0}), 1.0, 1e-9);
}

TEST(InformedReference, IsThePriorWhereNothingIsTold) {
  const std::vector<double> even(count, 1.0 / count);
  const Reference reference = informed_reference(told_sample(), even, SquareMatrix(rows));
  EXPECT_EQ(reference.informed, 0u);
  EXPECT_EQ(reference.mean, std::vector<double>(rows, 0.0));
  for (std::size_t i = 0; i < rows; ++i)
    for (std::size_t j = 0; j < rows; ++j) EXPECT_EQ(reference.out(i, j), i == j ? 1.0 : 0.0);
}

TEST(FittedReference, FollowsTheSampleInAllDirections) {
  const std::vector<double> even(count, 1.0 / count);
  const Reference reference = fitted_reference(told_sample(), even);
  EXPECT_EQ(reference.informed, rows);
  expect_inverse(reference);
  EXPECT_NEAR(reference.mean[0], 1.5 * half, 0.05);
  EXPECT_NEAR(spread_along(reference, {0, 0, 1, 0, 0, 0}), 1.15, 0.06);
}

TEST(FittedReference, OfASampleWithoutSpreadStillMoves) {
  ParticleTable one(rows, 5);
  const Reference reference = fitted_reference(one, std::vector<double>(5, 0.2));
  expect_inverse(reference);
  EXPECT_GT(reference.out(3, 3), 0.5);
}

TEST(Multiply, IsThePlainSumAlsoForPartOfALane) {
  SquareMatrix matrix(rows);
  ParticleTable from(rows, 7), to(rows, 7);
  for (std::size_t i = 0; i < rows; ++i) {
    for (std::size_t k = 0; k < rows; ++k) matrix(i, k) = std::sin(static_cast<double>(7 * i + k));
    for (std::size_t c = 0; c < 7; ++c) from(i, c) = std::cos(static_cast<double>(3 * i + c));
  }
  multiply(matrix, from, to);
  for (std::size_t i = 0; i < rows; ++i)
    for (std::size_t c = 0; c < 7; ++c) {
      double sum = 0.0;
      for (std::size_t k = 0; k < rows; ++k) sum += matrix(i, k) * from(k, c);
      EXPECT_NEAR(to(i, c), sum, 1e-14);
    }
}

}  // namespace
}  // namespace redd::inference
