#pragma once
// Whether the quick look at first feeding and the season's plan speak of the same set-points.

#include <gtest/gtest.h>

#include <algorithm>

#include "planning/feed_plan.h"
#include "season/season.h"

namespace redd::testing {

enum class BreakFound { no_risk, liked, edge, none };

inline double outside_breaks(const planning::PlanAnswer& answer) {
  const auto& wishes = answer.plan->score.wishes;
  return std::ranges::find(wishes, "feeding_outside_breaks", &planning::WishOutcome::key)->probability;
}

/// The plan that holds the named set-point from its first day on, a degree a day.
inline planning::PlanAnswer held_from_now(const planning::SeasonQuestion& question, Temperature to) {
  std::vector<Temperature> water;
  double c = question.water_now.value_or(to).c();
  for (std::size_t d = 0; d < question.days.size(); ++d) {
    c += std::clamp(to.c() - c, -1.0, 1.0);
    water.push_back(Temperature::from_c(c));
  }
  return planning::score_plan(question, water);
}

inline BreakFound same_set_points(const season::Setup& setup, const std::vector<records::Record>& log, Instant now) {
  const auto day = season::look_at_day(setup, log, now);
  const auto plan = season::look_at_plan(setup, log, now);
  if (!day || !plan || !plan->plan.alternatives.best.plan) return BreakFound::no_risk;
  const auto feed = planning::feed_plan(day->season, day->records, day->belief, records::SchoolCalendar(day->records), nullptr, day->zone, now);
  if (!feed || !feed->break_risk) return BreakFound::no_risk;
  const planning::BreakRisk& risk = *feed->break_risk;
  const auto& question = plan->plan.asked.question;
  const double best = outside_breaks(plan->plan.alternatives.best), kept = 1.0 - risk.probability;
  // The two reckon the dates apart (quantiles of the forecast, lots of the plan): a tenth is how well they agree.
  constexpr double agree = 0.1, third = 0.35;
  const auto named = risk.shift ? risk.shift : risk.edge_shift;
  if (!named) {
    EXPECT_LE(best, kept + third * risk.probability + agree) << "the plan helps where the quick look says nothing does";
    return BreakFound::none;
  }
  EXPECT_TRUE(risk.borne.holds(named->to)) << named->to.c();
  const auto scored = held_from_now(question, named->to);
  if (!scored.plan) {
    // Fry bear other water than what is asked for until they swim up; the plan may only refuse it from then on.
    EXPECT_EQ(scored.obstacles.front().code, "limits_broken");
  } else {
    EXPECT_NEAR(outside_breaks(scored), 1.0 - named->probability, 2 * agree) << named->to.c();
    EXPECT_GT(best, kept + agree) << "the plan does not see what the quick look names";
  }
  return risk.shift ? BreakFound::liked : BreakFound::edge;
}

}  // namespace redd::testing
