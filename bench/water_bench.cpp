// The water programme: its whole search, and in the same run one forward run of the same tanks over the same weeks, so that the ratio holds on any machine.
// Wanted: a programme in under 100 ms, less than a hundred forward runs; what a page asks when a change is tried in under 20 ms.

#include <benchmark/benchmark.h>

#include "planning/water_programme.h"
#include "planning/water_trial.h"
#include "support/water_season.h"

namespace {

using namespace redd;
using namespace redd::testing;

/// Nitrate near its mark: the search tries most of its rhythms.
std::unique_ptr<AskedWater> nitrate_near_its_mark() {
  auto season = ripe_season();
  season.step(56, "nitrate", 20);
  season.step(56, "nitrite", 0.1);
  season.step(56, "ph", 7.6);
  return asked_water(season, 56);
}

void forward_run(benchmark::State& state) {
  const auto asked = nitrate_near_its_mark();
  const auto made = planning::water_case(asked->asked());
  for (auto _ : state) benchmark::DoNotOptimize(planning::forecast_water(made.tanks, made.course(), {}));
}

void programme(benchmark::State& state) {
  const auto asked = nitrate_near_its_mark();
  const auto made = planning::water_case(asked->asked());
  for (auto _ : state) benchmark::DoNotOptimize(planning::water_programme(made));
}

void tanks_without_posterior(benchmark::State& state) {
  const auto asked = nitrate_near_its_mark();
  for (auto _ : state) benchmark::DoNotOptimize(planning::water_case(asked->asked()));
}

void tried_change(benchmark::State& state) {
  const auto asked = nitrate_near_its_mark();
  const auto made = planning::water_case(asked->asked());
  for (auto _ : state) benchmark::DoNotOptimize(planning::try_change(made, {.fraction = 0.3}));
}

BENCHMARK(forward_run)->Unit(benchmark::kMillisecond);
BENCHMARK(programme)->Unit(benchmark::kMillisecond);
BENCHMARK(tanks_without_posterior)->Unit(benchmark::kMillisecond);
BENCHMARK(tried_change)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
