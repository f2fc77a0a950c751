// Cost of the temperature planner against days, step of the set-points, number of lots and nodes, for species with one clock and with two.
// Prints the table of docs/science/planning.md: processor time, the median of a few runs.

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "../tests/planning/invented_question.h"
#include "planning/season_plan_collisions.h"

namespace {

using namespace redd;
using namespace redd::planning;

template <class Work>
double median_ms(int runs, Work work) {
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) {
    const std::clock_t start = std::clock();
    work();
    times.push_back(1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

void row(const char* species, const char* what, const SeasonQuestion& q) {
  double gap = 0.0;
  const double ms = median_ms(5, [&] {
    const PlanAnswer answer = plan_season(q);
    gap = answer.plan ? *answer.plan->gap_bound : -1.0;
  });
  std::printf("%-14s %-34s %8.1f ms   gap at most %.4f\n", species, what, ms, gap);
}

}  // namespace

int main() {
  for (const char* species : {"rainbow_trout", "coho"}) {
    for (const int days : {60, 120, 240, 365}) row(species, (std::to_string(days) + " days").c_str(), testing::season(species, days, 1));
    for (const double step_c : {1.0, 0.25}) {
      SeasonQuestion q = testing::season(species, 240, 1);
      q.precision.step_c = step_c;
      row(species, step_c == 1.0 ? "240 days, set-points by 1 C" : "240 days, set-points by 0.25 C", q);
    }
    for (const std::size_t lots : {64u, 4096u}) row(species, ("240 days, " + std::to_string(lots) + " lots").c_str(), testing::season(species, 240, 1, lots));
    for (const int nodes : {512, 8192}) {
      SeasonQuestion q = testing::season(species, 240, 1);
      q.precision.nodes = nodes;
      row(species, ("240 days, " + std::to_string(nodes) + " nodes").c_str(), q);
    }
    if (std::string(species) == "coho") {
      for (const int deviations : {6, 24}) {
        SeasonQuestion q = testing::season(species, 240, 1);
        q.precision.deviation_nodes = deviations;
        row(species, ("240 days, " + std::to_string(deviations) + " deviations").c_str(), q);
      }
    }
    const SeasonQuestion q = testing::season(species, 240, 1);
    std::printf("%-14s %-34s %8.1f ms\n", species, "alternatives", median_ms(3, [&] { alternatives(q); }));
    std::printf("%-14s %-34s %8.1f ms\n", species, "conflicts", median_ms(1, [&] { conflicts(q); }));
  }
  double most = 0.0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed)
    for (const char* species : {"rainbow_trout", "coho", "chinook", "atlantic_salmon"}) {
      const SeasonQuestion q = testing::season(species, 240, seed);
      most = std::max(most, median_ms(1, [&] { plan_season(q); }));
    }
  std::printf("the slowest of 48 seasons of 240 days: %.1f ms\n", most);
  return 0;
}
