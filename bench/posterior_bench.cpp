// What the posterior of a ripening filter costs: a season of forty weeks with six weekly tests from nothing, one reading more, the
// outlook, and how the cost grows with particles and weeks. Wanted on two cores: the whole season under 1.5 s with 2,000 particles and
// more, one reading more under 150 ms. With --benchmark_min_time=0.001 (how it is run as a test) everything is an eighth as large.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <atomic>
#include <string_view>
#include <thread>
#include <vector>

#include "../tests/inference/ripening_season.h"
#include "inference/outlook_measures.h"

namespace {

using namespace redd;
using namespace redd::inference;
namespace invented = redd::inference::testing;

class Threads final : public numerics::Workers {
 public:
  void run(std::size_t count, Item item, void* data) override {
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
      for (std::size_t i = next++; i < count; i = next++) item(data, i);
    };
    std::vector<std::jthread> others;
    for (unsigned t = 1; t < std::max(1u, std::thread::hardware_concurrency()); ++t) others.emplace_back(work);
    work();
  }
};
Threads threads;
/// 1, or 8 when only to show that it runs.
int smaller = 1;

FilterSeason season_of(int weeks, std::size_t tests = 6, std::uint64_t seed = 1) {
  invented::SeasonShape shape;
  shape.weeks = weeks;
  shape.kit.push_back(invented::colours("oxygen", records::Quantity::oxygen, records::TestUnit::mg_per_l, {0, 2, 4, 6, 8, 10, 12}));
  shape.kit.resize(std::min(tests, shape.kit.size()));
  const FilterSeason bare = invented::bare_season(shape);
  return invented::with_readings(bare, invented::true_unknowns(SeasonModel(bare), seed), seed);
}

void WholeSeason(benchmark::State& state) {
  const FilterSeason season = season_of(static_cast<int>(state.range(0)) / smaller, static_cast<std::size_t>(state.range(2)));
  const auto chains = std::max<std::size_t>(64, static_cast<std::size_t>(state.range(1) / smaller) / 8);
  const SmcSettings settings{.chains = chains, .chain_length = 8, .seed = 3, .workers = &threads};
  double moves = 0, share = 0;
  for (auto _ : state) {
    const auto posterior = FilterPosterior::of(season, settings);
    moves = static_cast<double>(posterior.sampler().moves().size());
    share = posterior.sampler().effective_share();
  }
  state.counters["moves"] = moves;
  state.counters["effective_share"] = share;
}
BENCHMARK(WholeSeason)->ArgNames({"weeks", "particles", "tests"})->Args({40, 2048, 6})
    ->Args({5, 2048, 6})->Args({10, 2048, 6})->Args({20, 2048, 6})->Args({30, 2048, 6})
    ->Args({40, 1024, 6})->Args({40, 4096, 6})->Args({40, 8192, 6})
    ->Args({40, 2048, 1})->Args({40, 2048, 2})->Args({40, 2048, 4})
    ->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(1);

/// Mean over the last ten readings of a season of forty weeks: most need no move of the particles, some need one or two.
void OneSittingMore(benchmark::State& state) {
  const FilterSeason season = season_of(smaller > 1 ? 12 : 40);
  const SmcSettings settings{.chains = smaller > 1 ? 64u : 256u, .seed = 3, .workers = &threads};
  FilterSeason so_far = season;
  std::size_t next = season.sittings.size() - 10;
  so_far.sittings.resize(next);
  auto posterior = FilterPosterior::of(so_far, settings);
  for (auto _ : state) {
    so_far.sittings.push_back(season.sittings[next++]);
    posterior = posterior.updated(so_far);
  }
}
BENCHMARK(OneSittingMore)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(10);

void OutlookOfEightWeeks(benchmark::State& state) {
  const FilterSeason season = season_of(10);
  const auto posterior = FilterPosterior::of(season, {.chains = 64, .seed = 3, .workers = &threads});
  OutlookQuestion question;
  question.now_day = 70;
  question.until_day = 126;
  question.workers = &threads;
  for (auto _ : state) benchmark::DoNotOptimize(outlook(posterior, season, question));
}
BENCHMARK(OutlookOfEightWeeks)->Unit(benchmark::kMillisecond)->UseRealTime();

void EffectsOfMeasures(benchmark::State& state) {
  const FilterSeason season = season_of(6);
  const auto posterior = FilterPosterior::of(season, {.chains = 64, .seed = 3, .workers = &threads});
  OutlookQuestion question;
  question.now_day = 42;
  question.workers = &threads;
  for (auto _ : state) benchmark::DoNotOptimize(measure_effects(posterior, season, question, 84));
}
BENCHMARK(EffectsOfMeasures)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

int main(int argc, char** argv) {
  for (int i = 1; i < argc; ++i)
    if (std::string_view(argv[i]) == "--benchmark_min_time=0.001") smaller = 8;
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
