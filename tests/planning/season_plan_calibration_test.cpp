// Do plans keep what they promise? Seasons are simulated apart from the planner: a lot's own thresholds, a lasting departure of the water in C (the planner takes
// it as a factor) and daily noise, the published curve day by day.
#include <gtest/gtest.h>

#include <cmath>

#include "planning/invented_question.h"

namespace redd::planning {
namespace {

using testing::first_day;

struct Truth {
  int hatch_day = -1, swim_up_day = -1;  ///< of the plan; -1: not within it
};

Truth simulated(const SeasonQuestion& q, const SeasonPlan& plan, int days_so_far, numerics::RandomStream& stream) {
  const auto hatch = *biology::model_for(q.species, biology::Stage::hatch), up = *biology::model_for(q.species, biology::Stage::swim_up);
  // docs/science/development.md: hatch N(0, 0.08), swim-up 0.7 of it and N(0, 0.06), on the logarithm.
  const double scale = q.species.lot_log_sd / 0.08;
  const double of_hatch = stream.normal(0.0, 0.08 * scale), of_swim_up = 0.7 * of_hatch + stream.normal(0.0, 0.06 * scale);
  const double past_off = stream.normal(0.0, 0.3), off = stream.normal(0.0, usual_doubt_to_come.c());
  const double start = 0.5 + stream.normal(0.0, 1.0 / 1.645);  // noon of the day of fertilisation, give or take
  const double past_days = days_so_far - start;
  double hatch_clock = past_days * biology::progress_per_day(hatch, Temperature::from_c(8.0 + past_off));
  double up_clock = past_days * biology::progress_per_day(up, Temperature::from_c(8.0 + past_off));
  Truth truth;
  for (std::size_t d = 0; d < plan.set_points.size(); ++d) {
    const auto water = Temperature::from_c(plan.set_points[d].c() + off + stream.normal(0.0, 0.3));
    hatch_clock += biology::progress_per_day(hatch, water);
    up_clock += biology::progress_per_day(up, water);
    if (truth.hatch_day < 0 && hatch_clock >= std::exp(of_hatch)) truth.hatch_day = static_cast<int>(d);
    if (truth.swim_up_day < 0 && up_clock >= std::exp(of_swim_up)) truth.swim_up_day = static_cast<int>(d);
  }
  return truth;
}

TEST(SeasonPlanCalibration, PlansMeetTheirWishesAsOftenAsTheySay) {
  struct Bin {
    double promised = 0.0;
    int count = 0, met = 0;
  };
  std::array<Bin, 10> bins{};
  Bin eighty;
  const std::array species{"rainbow_trout", "coho", "brown_trout", "chum"};
  for (std::uint64_t seed = 0; seed < 160; ++seed) {
    int days_so_far = 0;
    SeasonQuestion q = testing::season(species[seed % species.size()], 170, seed, 256, &days_so_far);
    q.precision.nodes = 512;
    q.precision.deviation_nodes = 7;
    const PlanAnswer answer = plan_season(q);
    if (!answer.plan) continue;
    numerics::RandomStream stream(seed, 11);
    for (int i = 0; i < 60; ++i) {
      const Truth truth = simulated(q, *answer.plan, days_so_far, stream);
      for (std::size_t w = 0; w < q.wishes.size(); ++w) {
        const double promised = answer.plan->score.wishes[w].probability;
        const int day = q.wishes[w].stage == PlanStage::hatch ? truth.hatch_day : truth.swim_up_day;
        const bool met = day >= 0 && q.wishes[w].good[static_cast<std::size_t>(day)];
        for (Bin* bin : {&bins[std::min<std::size_t>(9, static_cast<std::size_t>(promised * 10.0))], promised >= 0.75 && promised <= 0.85 ? &eighty : nullptr}) {
          if (!bin) continue;
          bin->promised += promised;
          ++bin->count;
          bin->met += met ? 1 : 0;
        }
      }
    }
  }
  for (std::size_t b = 0; b < bins.size(); ++b) {
    if (bins[b].count == 0) continue;
    const double promised = bins[b].promised / bins[b].count, met = static_cast<double>(bins[b].met) / bins[b].count;
    std::printf("promised %.3f, met %.3f of %d\n", promised, met, bins[b].count);
    if (bins[b].count >= 600) EXPECT_NEAR(met, promised, 0.06) << b;
  }
  const double met = static_cast<double>(eighty.met) / eighty.count;
  std::printf("promised 75-85 %%: met %.3f of %d (mean promise %.3f)\n", met, eighty.count, eighty.promised / eighty.count);
  EXPECT_GE(eighty.count, 1500);
  EXPECT_GE(met, 0.75);
  EXPECT_LE(met, 0.85);
}

}  // namespace
}  // namespace redd::planning
