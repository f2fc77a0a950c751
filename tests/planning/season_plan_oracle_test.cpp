// The search against GLPK's branch and cut, on the same set-points and nodes. tests/reference/data/season_plan_optima.csv holds what GLPK found
// (tests/oracles/glpk_season_plan.cpp writes it), so this needs no solver.
#include <gtest/gtest.h>

#include <cmath>

#include "planning/whole_node_question.h"
#include "reference/table.h"

namespace redd::planning {
namespace {

TEST(SeasonPlanOracle, FindsTheOptimumOfAGeneralSolverInEverySeason) {
  int one_clock = 0, two_clocks = 0;
  for (const auto& row : reference::table("season_plan_optima")) {
    const auto w = testing::whole_node_question(static_cast<std::uint64_t>(row.number("seed")));
    const detail::PlanModel model(w.question);
    const auto found = detail::search(model, detail::grid_of(model), w.nodes, w.question.costs.change, true);
    if (row.text("optimum").empty()) {
      EXPECT_TRUE(found.water_c.empty()) << row.line();
      continue;
    }
    ASSERT_FALSE(found.water_c.empty()) << row.line();
    const auto verdict = model.verdict(found.water_c);
    EXPECT_FALSE(verdict.broken_day) << row.line();
    EXPECT_NEAR(verdict.score.score, row.number("optimum"), 1e-6) << row.line();
    // The search's own value and bound, in single precision.
    EXPECT_NEAR(found.value, row.number("optimum"), 1e-4) << row.line();
    EXPECT_LE(found.upper_bound - row.number("optimum"), 2e-3) << row.line();
    (w.two_clocks ? two_clocks : one_clock) += 1;
  }
  EXPECT_GE(one_clock, 25);
  EXPECT_GE(two_clocks, 25);
}

// Usual nodes, on which progress falls between: the bound must hold the same optimum, whatever the nodes.
TEST(SeasonPlanOracle, BoundHoldsTheOptimumWhereProgressFallsBetweenNodes) {
  for (const auto& row : reference::table("season_plan_optima")) {
    if (row.text("optimum").empty()) continue;
    auto w = testing::whole_node_question(static_cast<std::uint64_t>(row.number("seed")));
    const detail::PlanModel model(w.question);
    for (const double step : {1.0 / 50.0, 1.0 / 91.0}) {
      detail::ProgressNodes nodes = w.nodes;
      nodes.hatch_step = nodes.swim_up_step = step;
      if (w.two_clocks) nodes.deviation_step *= 1.3, nodes.deviation_low = -nodes.deviation_step;
      const auto found = detail::search(model, detail::grid_of(model), nodes, w.question.costs.change, false);
      EXPECT_GE(found.upper_bound, row.number("optimum") - 1e-4) << row.line() << " step " << step;
      if (!found.water_c.empty()) EXPECT_LE(model.verdict(found.water_c).score.score, row.number("optimum") + 1e-9) << row.line();
    }
  }
}

}  // namespace
}  // namespace redd::planning
