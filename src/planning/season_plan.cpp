#include "planning/season_plan.h"

#include <algorithm>
#include <cmath>

#include "planning/detail/season_plan_search.h"

namespace redd::planning {
namespace {

using detail::PlanModel;

// A second search, with limits switching exactly, is tried where the plan falls short of the first one's value by this part of a wish.
constexpr double worth_a_second_look = 0.01;
// Assumed: the calmest plan may ask for a change only where it earns a tenth of all wishes.
constexpr double calm_change_share = 0.1;

PlanObstacle limits_cannot_be_kept(const SeasonQuestion& q, const PlanModel& model) {
  const PlanModel::Living first = model.living({});
  for (const PlanDay& day : q.days)
    if (day.coldest.c() > first.red_above_c)
      return {"limits_cannot_be_kept", "days",
              {"The chiller is too small for this room: on {0} it holds the water no colder than {1}, and what is in the tank bears {2} at most. Insulate the tank, cool the room or get "
               "a stronger chiller.",
               {day.day, day.coldest, Temperature::from_c(first.red_above_c)}}};
  if (q.water_now && !first.bear(q.water_now->c()))
    return {"limits_cannot_be_kept", "water_now",
            {"The water stands at {0}, outside what the animals bear ({1} to {2}), and cannot be led back within the limits of change and equipment. Look after that first.",
             {*q.water_now, Temperature::from_c(first.red_below_c), Temperature::from_c(first.red_above_c)}}};
  return {"limits_cannot_be_kept", "days",
          {"No set-points keep within what the animals bear, the largest change a day and what the equipment can hold on all days from {0} to {1}: check the room's summer, the "
           "chiller and the largest change.",
           {q.days.front().day, q.days.back().day}}};
}

bool clearly_better(const PlanModel& model, const std::vector<double>& a, const std::vector<double>& b, double cost_a_change) {
  if (a.empty()) return false;
  const auto worth = [&](const std::vector<double>& plan) {
    const PlanScore score = model.verdict(plan).score;
    return score.score - (cost_a_change - model.question().costs.change) * score.changes;
  };
  return b.empty() || worth(a) > worth(b) + 1e-9;
}

/// Today's temperature held on all days.
std::vector<double> kept_water(const SeasonQuestion& q) {
  return std::vector<double>(q.days.size(), q.water_now ? q.water_now->c() : 0.0);
}

PlanAnswer searched(const SeasonQuestion& question, std::optional<double> cost_a_change) {
  PlanAnswer answer;
  answer.obstacles = obstacles_of(question);
  if (!answer.obstacles.empty()) return answer;
  const PlanModel model(question);
  const std::vector<double> grid = detail::grid_of(model);
  if (grid.empty()) {
    answer.obstacles.push_back(limits_cannot_be_kept(question, model));
    return answer;
  }
  const detail::ProgressNodes nodes = detail::usual_nodes(model, grid);
  const double cost = cost_a_change.value_or(question.costs.change);
  detail::SearchOutcome found = detail::search(model, grid, nodes, cost, false);
  const double bound = found.upper_bound;
  if (found.water_c.empty() || (!cost_a_change && found.value - model.verdict(found.water_c).score.score > worth_a_second_look)) {
    detail::SearchOutcome again = detail::search(model, grid, nodes, cost, true);
    if (clearly_better(model, again.water_c, found.water_c, cost)) found.water_c = std::move(again.water_c);
  }
  if (question.water_now && model.recovery_c().empty())
    if (const auto kept = kept_water(question); !model.verdict(kept).broken_day && clearly_better(model, kept, found.water_c, cost)) found.water_c = kept;
  if (found.water_c.empty() || model.verdict(found.water_c).broken_day) {
    answer.obstacles.push_back(limits_cannot_be_kept(question, model));
    return answer;
  }
  answer.plan = model.plan_of(found.water_c);
  if (!cost_a_change) answer.plan->gap_bound = std::max(0.0, bound - answer.plan->score.score);
  return answer;
}

Sentence broken_sentence(const SeasonQuestion& question, PlanModel::Limit limit, Temperature water, std::size_t day) {
  using Limit = PlanModel::Limit;
  const Date date = question.days[day].day;
  switch (limit) {
    case Limit::animals: return {"The animals do not bear {0} on {1}.", {water, date}};
    case Limit::too_cold_for_equipment: return {"The equipment cannot hold {0} on {1}: it comes down to {2} at best.", {water, date, question.days[day].coldest}};
    case Limit::too_warm_for_equipment: return {"The equipment cannot hold {0} on {1}: it goes up to {2} at most.", {water, date, question.days[day].warmest}};
    case Limit::warming: return {"{0} on {1} is too large a step: water may warm by {2} a day at most.", {water, date, question.limits.warming.per_day}};
    case Limit::cooling: return {"{0} on {1} is too large a step: water may cool by {2} a day at most.", {water, date, question.limits.cooling.per_day}};
  }
  broken_promise("broken_sentence", "unknown limit");
}

}  // namespace

PlanAnswer plan_season(const SeasonQuestion& question) {
  return searched(question, std::nullopt);
}

PlanAnswer score_plan(const SeasonQuestion& question, std::span<const Temperature> set_points) {
  PlanAnswer answer;
  answer.obstacles = obstacles_of(question);
  if (!answer.obstacles.empty()) return answer;
  if (set_points.size() != question.days.size()) {
    answer.obstacles.push_back({"set_points_days", "set_points",
                                {"There are {0} set-points for {1} days: give one a day.",
                                 {Number{static_cast<long long>(set_points.size())}, Number{static_cast<long long>(question.days.size())}}}});
    return answer;
  }
  const PlanModel model(question);
  std::vector<double> water_c;
  for (const Temperature t : set_points) water_c.push_back(t.c());
  if (const auto verdict = model.verdict(water_c); verdict.broken_day) {
    const std::size_t day = *verdict.broken_day;
    answer.obstacles.push_back({"limits_broken", "set_points", broken_sentence(question, verdict.broken, set_points[day], day)});
    return answer;
  }
  answer.plan = model.plan_of(water_c);
  return answer;
}

PlanAlternatives alternatives(const SeasonQuestion& question) {
  PlanAlternatives all;
  all.best = searched(question, std::nullopt);
  double worth = 0.0;
  for (const Wish& wish : question.wishes) worth += wish.weight;
  all.calmest = searched(question, std::max(question.costs.change, calm_change_share * worth));
  if (question.water_now) {
    const std::vector<Temperature> kept(question.days.size(), *question.water_now);
    all.keep = score_plan(question, kept);
  } else {
    all.keep.obstacles.push_back({"no_set_point", "water_now", "There is no temperature of today to hold: the eggs are yet to come."});
  }
  return all;
}

}  // namespace redd::planning
