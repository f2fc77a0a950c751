#include "workers/pool.h"

#include <gtest/gtest.h>

#include <atomic>
#include <thread>
#include <vector>

#include "tank/prior.h"

namespace redd::workers {
namespace {

TEST(Pool, DoesEachItemOnce) {
  for (const std::size_t threads : {1, 2, 5}) {
    Pool pool(threads);
    EXPECT_EQ(pool.thread_count(), threads);
    for (const std::size_t count : {0, 1, 3, 1000}) {
      std::vector<std::atomic<int>> done(count);
      pool.for_each(count, [&](std::size_t i) { ++done[i]; });
      for (const auto& times : done) EXPECT_EQ(times, 1);
    }
  }
}

TEST(Pool, ServesManyCallersInTurn) {
  Pool pool(3);
  std::atomic<int> sum = 0;
  {
    std::vector<std::jthread> callers;
    for (int c = 0; c < 4; ++c)
      callers.emplace_back([&] {
        for (int round = 0; round < 50; ++round) pool.for_each(20, [&](std::size_t) { ++sum; });
      });
  }
  EXPECT_EQ(sum, 4 * 50 * 20);
}

TEST(Pool, GivesTheSameTankToTheLastBitForAnyNumberOfThreads) {
  tank::TankState water;
  water.total_ammonia_mg_n_per_l = 3.0;
  water.oxygen_mg_o2_per_l = 8.0;
  water.alkalinity_meq_per_l = 2.0;
  water.inorganic_carbon_mmol_per_l = 2.05;
  tank::Forcing forcing;
  forcing.days.assign(30, {.temperature_c = 23.0, .excretion_mg_n_per_day = 40.0});
  const auto run_with = [&](std::size_t threads) {
    tank::Ensemble particles(150, 200.0);
    tank::sample_prior(particles, {}, water, 7);
    Pool pool(threads);
    tank::advance(particles, forcing, 0.0, 30.0, pool, tank::Tolerance::for_inference());
    const auto nitrite = particles.column(tank::Quantity::nitrite);
    return std::vector<double>(nitrite.begin(), nitrite.end());
  };
  const auto alone = run_with(1);
  EXPECT_EQ(alone, run_with(2));
  EXPECT_EQ(alone, run_with(4));
}

}  // namespace
}  // namespace redd::workers
