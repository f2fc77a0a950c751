// What it costs to carry particles of the tank forward: by number of particles, by tolerance, with one and with two threads. A season is 40 weeks: warm
// ripening, a chill over ten days, cold keeping, a growing load. Counters: microseconds a particle and day, and for the general stepper the
// ratio to it. CVODE's figures come from tests/oracles (SUNDIALS is not needed here) and stand in docs/decisions, integrator.

#include <benchmark/benchmark.h>

#include "numerics/rosenbrock.h"
#include "tank/ensemble.h"
#include "tank/prior.h"
#include "workers/pool.h"

namespace {

using namespace redd;

constexpr int season_days = 280;

tank::Forcing season() {
  tank::Forcing forcing;
  for (int d = 0; d < season_days; ++d) {
    tank::DayForcing day;
    day.temperature_c = d < 70 ? 24.0 : d < 80 ? 24.0 - 1.4 * (d - 70) : 10.0;
    (d < 90 ? day.ammonium_salt_mg_n_per_day : day.excretion_mg_n_per_day) = d < 90 ? 60.0 : 0.3 * (d - 90);
    day.evaporation_l_per_day = 0.5;
    forcing.days.push_back(day);
  }
  return forcing;
}

tank::Ensemble prior_particles(std::size_t count) {
  tank::TankState water;
  water.total_ammonia_mg_n_per_l = 3.0;
  water.oxygen_mg_o2_per_l = 8.5;
  water.alkalinity_meq_per_l = 4.0;
  water.inorganic_carbon_mmol_per_l = 4.05;
  water.nitrate_mg_n_per_l = 2.0;
  tank::Ensemble particles(count, 200.0);
  tank::sample_prior(particles, {}, water, 42);
  return particles;
}

void carry(benchmark::State& state, std::size_t count, double tolerance, std::size_t threads) {
  const auto forcing = season();
  const auto start = prior_particles(count);
  workers::Pool pool(threads);
  std::int64_t steps = 0;
  for (auto _ : state) {
    auto particles = start;
    for (int week = 0; week < season_days / 7; ++week)
      steps += tank::advance(particles, forcing, 7.0 * week, 7.0 * week + 7.0, pool, {tolerance}).steps;
    benchmark::DoNotOptimize(particles.column(tank::Quantity::nitrite).data());
  }
  const double particle_days = static_cast<double>(count) * season_days;
  state.counters["particle_days"] = benchmark::Counter(particle_days, benchmark::Counter::kIsIterationInvariantRate);
  state.counters["us_a_particle_day"] =
      benchmark::Counter(1e-6 * particle_days, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
  state.counters["steps_a_day"] = static_cast<double>(steps) * 4.0 / (particle_days * static_cast<double>(state.iterations()));
}

void season_by_particles(benchmark::State& state) {
  carry(state, static_cast<std::size_t>(state.range(0)), tank::Tolerance::for_inference().relative, 1);
}
BENCHMARK(season_by_particles)->Arg(4)->Arg(64)->Arg(512)->Arg(2048)->Unit(benchmark::kMillisecond);

void season_of_2048_on_two_threads(benchmark::State& state) { carry(state, 2048, tank::Tolerance::for_inference().relative, 2); }
BENCHMARK(season_of_2048_on_two_threads)->Unit(benchmark::kMillisecond)->UseRealTime();

void season_by_tolerance(benchmark::State& state) {
  double tolerance = 1.0;
  for (int i = 0; i < state.range(0); ++i) tolerance *= 0.1;
  carry(state, 256, tolerance, 1);
}
BENCHMARK(season_by_tolerance)->Arg(3)->Arg(4)->Arg(5)->Arg(6)->Arg(7)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
