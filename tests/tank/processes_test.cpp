#include "tank/processes.h"

#include <gtest/gtest.h>

#include "support/plain_tank.h"

namespace redd::tank {
namespace {

TEST(ProcessTable, ConservesNitrogenChargeOxygenDemandAndCarbonForAnyYield) {
  using enum Process;
  for (double ya = 0.02; ya < 0.5; ya += 0.03)
    for (double yn = 0.01; yn < 0.4; yn += 0.03) {
      const ProcessTable table = process_table(ya, yn);
      EXPECT_TRUE(conserves(table, content::nitrogen, {excretion}));
      EXPECT_TRUE(conserves(table, content::charge, {}));
      EXPECT_TRUE(conserves(table, content::oxygen_demand, {breathing, oxygen_exchange}));
      EXPECT_TRUE(conserves(table, content::carbon, {breathing, carbon_dioxide_exchange}));
    }
}

TEST(ProcessTable, ProofWouldNoticeAWrongEntry) {
  ProcessTable table = process_table(0.17, 0.06);
  table[0][2] *= 1.001;  // a little too much nitrite
  EXPECT_FALSE(conserves(table, content::nitrogen, {Process::excretion}));
  EXPECT_FALSE(conserves(table, content::charge, {}));
}

// The fast path writes the table out as sums; here every process alone is held against its row.
TEST(WaterAfter, MovesEachProcessAsTheTableSays) {
  const double ya = 0.17, yn = 0.06;
  const ProcessTable table = process_table(ya, yn);
  Day<double> day{};
  day.inverse_yield_a = 1.0 / ya;
  day.inverse_yield_n = 1.0 / yn;
  const Water<double> none{};
  const auto expect_row = [&](Process process, const Extents<double>& one) {
    const Water<double> w = water_after(none, one, Passed{0.0, 0.0}, day);
    const double got[] = {w.organic, w.ammonia, w.nitrite, w.nitrate, w.a, w.n, w.debris, w.oxygen, w.alkalinity, w.carbon, w.shock};
    for (std::size_t i = 0; i < integrated_count; ++i)
      EXPECT_NEAR(got[i], table[static_cast<std::size_t>(process)][i], 1e-13) << "process " << static_cast<int>(process) << ", quantity " << i;
  };
  using enum Process;
  expect_row(ammonia_oxidation, {1.0, 0, 0, 0, 0, 0, 0, 0, 0, 0});
  expect_row(nitrite_oxidation, {0, 1.0, 0, 0, 0, 0, 0, 0, 0, 0});
  expect_row(ammonia_oxidiser_decay, {0, 0, 1.0, 0, 0, 0, 0, 0, 0, 0});
  expect_row(nitrite_oxidiser_decay, {0, 0, 0, 1.0, 0, 0, 0, 0, 0, 0});
  expect_row(ammonification, {0, 0, 0, 0, 1.0, 0, 0, 0, 0, 0});
  expect_row(nitrite_assimilation, {0, 0, 0, 0, 0, 1.0, 0, 0, 0, 0});
  expect_row(breathing, {0, 0, 0, 0, 0, 0, 1.0, 0, 0, 0});
  expect_row(oxygen_exchange, {0, 0, 0, 0, 0, 0, 0, 1.0, 0, 0});
  expect_row(carbon_dioxide_exchange, {0, 0, 0, 0, 0, 0, 0, 0, 1.0, 0});
  expect_row(recovery, {0, 0, 0, 0, 0, 0, 0, 0, 0, 1.0});
}

}  // namespace
}  // namespace redd::tank
