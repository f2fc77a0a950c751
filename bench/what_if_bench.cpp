// One place of the sliders, and in the same run one forward run of as many tanks over as many days, so that the ratio holds on any machine.
// Wanted: an answer within a frame (16 ms) in the browser, so under 5 ms here; less than four forward runs.

#include <benchmark/benchmark.h>

#include "support/what_if_season.h"

namespace {

using namespace redd;
using namespace redd::testing;

void forward_run(benchmark::State& state) {
  const auto asked = asked_water(ripe_season(), 56);
  const planning::TankDraws draws{planning::what_if_tanks, 1};
  auto made = planning::water_case(asked->asked(), &draws);
  made.until_day = asked->now.now_day + planning::what_if_days;
  for (auto _ : state) benchmark::DoNotOptimize(planning::forecast_water(made.tanks, made.course(), {}));
}

void one_place_of_the_sliders(benchmark::State& state) {
  const auto base = chilled_base();
  planning::WhatIfSliders sliders;
  for (auto _ : state) {
    sliders.room_warmer_c = sliders.room_warmer_c > 10.0 ? 0.0 : sliders.room_warmer_c + 0.5;
    benchmark::DoNotOptimize(planning::what_if(base, sliders));
  }
}

BENCHMARK(forward_run)->Unit(benchmark::kMillisecond);
BENCHMARK(one_place_of_the_sliders)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
