// Worked charts: the handbook's EWMA (6.3.2.4) and CUSUM (6.3.2.3) series [nist2012], from memory, and a textbook series read in a
// numerical library's manual (readings of mean 10, sd 1; statistics worked out elsewhere).
#include <vector>

#include "numerics/control_charts.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace numerics;

const std::vector<double> handbook_ewma{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
                                        49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
const std::vector<double> handbook_cusum{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
                                         324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350};
const std::vector<double> textbook{9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.2, 10.34, 9.03, 11.47, 10.51, 9.4, 10.08,
                                   9.37, 10.62, 10.31, 8.52, 10.84, 10.9, 9.33, 12.29, 11.5, 10.6, 11.08, 10.38, 11.62, 11.31, 10.52};

TEST(Nist2012, EwmaSeriesAndLimits) {
  const auto points = ewma_of(handbook_ewma, 50.0, 2.0539, 0.3, 3.0, true);
  EXPECT_NEAR(points[0].upper_limit, 52.5884, 0.0005);
  EXPECT_NEAR(points[0].lower_limit, 47.4115, 0.0005);
  const std::vector<std::pair<std::size_t, double>> printed{{1, 50.6}, {3, 50.56}, {5, 50.16}, {6, 49.21}, {8, 49.85}, {9, 50.26}, {10, 50.33},
                                                            {12, 49.36}, {13, 49.52}, {15, 49.38}, {16, 49.92}, {19, 51.94}};
  for (const auto& [i, z] : printed) EXPECT_NEAR(points[i - 1].statistic, z, 0.006) << "reading " << i;
  for (const auto& point : points) EXPECT_FALSE(point.signals);
}

TEST(Nist2012, CusumSeriesSignalsAtTheFourteenthReading) {
  const auto points = cusum_of(handbook_cusum, 325.0, 1.0, 0.3175, 4.1959);
  struct Printed { std::size_t i; double high, low; };
  for (const Printed& row : {Printed{5, 0.03, 0}, {7, 0, 0.56}, {10, 0, 0.25}, {14, 4.94, 0}, {16, 10.63, 0}, {18, 14.44, 0}, {19, 16.0, 0}}) {
    EXPECT_NEAR(points[row.i - 1].high, row.high, 0.006) << "reading " << row.i;
    EXPECT_NEAR(points[row.i - 1].low, row.low, 0.006) << "reading " << row.i;
  }
  EXPECT_FALSE(points[12].signals);
  EXPECT_TRUE(points[13].signals);
}

TEST(Textbook, EwmaAndCusumBothSignalAtReadingTwentyNine) {
  const auto ewma = ewma_of(textbook, 10.0, 1.0, 0.1, 2.7);
  const auto cusum = cusum_of(textbook, 10.0, 1.0, 0.5, 5.0);
  struct Printed { std::size_t i; double z, high, low; };
  for (const Printed& row : {Printed{1, 9.945, 0, 0.05}, {2, 9.7495, 0, 1.56}, {5, 10.1253, 2.82, 0}, {20, 10.0108, 0.34, 0},
                             {28, 10.5731, 4.47, 0}, {29, 10.6468, 5.28, 0}}) {
    EXPECT_NEAR(ewma[row.i - 1].statistic, row.z, 0.0006) << row.i;
    EXPECT_NEAR(cusum[row.i - 1].high, row.high, 0.006) << row.i;
    EXPECT_NEAR(cusum[row.i - 1].low, row.low, 0.006) << row.i;
  }
  for (std::size_t i = 0; i < 28; ++i) EXPECT_FALSE(ewma[i].signals || cusum[i].signals) << i + 1;
  EXPECT_TRUE(ewma[28].signals && cusum[28].signals);
  EXPECT_NEAR(ewma[28].upper_limit, 10.6187, 0.0006);
}

}  // namespace
}  // namespace redd::reference
