// The chance a programme promises, held against tanks that had no part in finding it: drawn with other seeds, from the same prior told by the same
// sittings or from the filter's posterior, and carried by the model at its full accuracy. At most one in twenty may break a limit, and what chance allows.

#include <gtest/gtest.h>

#include <cmath>

#include "planning/water_programme.h"
#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

SmallSeason creeping_nitrate() {
  auto season = ripe_season();
  season.between(56, "nitrate", 10, 20);
  season.step(56, "ammonia", 0);
  season.step(56, "nitrite", 0.05);
  season.step(56, "ph", 7.2);
  season.drops(56, "kh", 6);
  return season;
}

WaterForecast judged(const WaterAsked& asked, const WaterProgramme& plan, std::uint64_t seed, std::size_t count) {
  const TankDraws others{count, seed};
  const auto made = water_case(asked, &others);
  std::vector<WaterDeed> deeds;
  for (const auto& change : plan.programme.changes) deeds.push_back(deed_of(change));
  return forecast_water(made.tanks, made.course(), deeds, {.tolerance = {}});
}

TEST(WaterProgrammeCalibration, NoMoreThanOneInTwentyOfOtherTanksBreaksALimitUnderThePlan) {
  const auto made = asked_water(creeping_nitrate(), 56);
  const auto plan = water_programme(made->asked());
  ASSERT_TRUE(plan && plan->reached);
  ASSERT_FALSE(plan->programme.changes.empty());  // else nothing was promised
  constexpr std::size_t count = 192;
  constexpr int batches = 4;
  double broken = 0.0;
  for (int batch = 0; batch < batches; ++batch) {
    const auto found = judged(made->asked(), *plan, 1000 + static_cast<std::uint64_t>(batch), count);
    ASSERT_TRUE(found.sound);
    broken += found.broken_probability / batches;
  }
  // A batch holds at least half as many different tanks as draws, so the error is that of half of them.
  const double independent = 0.5 * static_cast<double>(batches * count);
  EXPECT_LE(broken, 0.05 + 3.0 * std::sqrt(0.05 * 0.95 / independent));
  EXPECT_GT(plan->none.forecast.broken_probability, broken);
}

TEST(WaterProgrammeCalibration, HoldsForTanksOfTheFiltersPosteriorToo) {
  const auto made = asked_water(creeping_nitrate(), 56);
  const auto posterior = inference::FilterPosterior::of(made->now.season, {.chains = 64, .chain_length = 4, .block = 32, .full_cost_data = 2, .seed = 5});
  const inference::SeasonModel model(made->now.season);
  const auto tanks_of = [&](std::size_t count) {
    auto drawn = posterior.draws(count);
    model.go_to(drawn.path, drawn.unknowns, made->now.now_day, true);
    return std::make_shared<const tank::Ensemble>(std::move(drawn.path.ensemble));
  };
  FilterOutlook outlook;
  outlook.tanks = tanks_of(200);
  auto asked = made->asked();
  asked.filter = &outlook;
  const auto plan = water_programme(asked);
  ASSERT_TRUE(plan);
  EXPECT_TRUE(plan->from_posterior);
  if (!plan->reached) GTEST_SKIP() << "nothing is promised";
  FilterOutlook others;
  others.tanks = tanks_of(256);
  asked.filter = &others;
  const auto found = judged(asked, *plan, 77, 256);
  EXPECT_LE(found.broken_probability, 0.05 + 3.0 * std::sqrt(0.05 * 0.95 / 128.0));
}

}  // namespace
}  // namespace redd::planning
