#include "planning/season_plan_compare.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

constexpr double hair_c = 1e-9;
constexpr double telling_c = 0.3;     // Assumed: a smaller mean departure is the thermometer's
constexpr double telling_days = 1.0;  // Assumed: a milestone moved by less is no reason

Word words_for(PlanStage stage) {
  switch (stage) {
    case PlanStage::hatch: return {"hatch"};
    case PlanStage::swim_up: return {"swim-up"};
    case PlanStage::release_size: break;
  }
  return {"the size of release"};
}

const Temperature* set_point_on(const SeasonPlan& plan, Date day) {
  if (plan.days.empty() || day < plan.days.front() || day > plan.days.back()) return nullptr;
  return &plan.set_points[static_cast<std::size_t>((day - plan.days.front()).count())];
}

/// Runs of days on which both set-points stay what they are.
void say_what(const SeasonPlan& before, const SeasonPlan& now, PlanDifference& difference) {
  for (std::size_t d = 0; d < now.days.size();) {
    const Temperature* old = set_point_on(before, now.days[d]);
    if (!old || std::abs(old->c() - now.set_points[d].c()) <= hair_c) {
      ++d;
      continue;
    }
    std::size_t end = d;
    for (; end < now.days.size(); ++end) {
      const Temperature* then = set_point_on(before, now.days[end]);
      if (!then || then->c() != old->c() || now.set_points[end].c() != now.set_points[d].c()) break;
    }
    if (!difference.first_day) difference.first_day = now.days[d];
    difference.same = false;
    difference.days_that_differ += static_cast<int>(end - d);
    if (end == d + 1)
      difference.what.push_back({"On {0} the set-point is {1} instead of {2}.", {now.days[d], now.set_points[d], *old}});
    else
      difference.what.push_back({"From {0} to {1} the set-point is {2} instead of {3}.", {now.days[d], now.days[end - 1], now.set_points[d], *old}});
    d = end;
  }
}

void say_temperatures(const SeasonPlan& before, const SeasonPlan& now, std::span<const biology::DailyTemperature> logged, PlanDifference& difference) {
  double sum_c = 0.0;
  int days = 0;
  for (const biology::DailyTemperature& each : logged) {
    const Temperature* planned = set_point_on(before, each.day);
    if (!planned || !each.measured || (!now.days.empty() && each.day >= now.days.front())) continue;
    sum_c += (each.mean - *planned).c();
    ++days;
  }
  if (days == 0 || std::abs(sum_c / days) < telling_c) return;
  const std::string_view english = sum_c > 0 ? "The water was on average {0} warmer than planned over {1} measured days." : "The water was on average {0} colder than planned over {1} measured days.";
  difference.why.push_back({english, {TemperatureChange::from_c(std::abs(sum_c) / days), Number{days}}});
}

const MilestoneWindow* window_of(const SeasonPlan& plan, PlanStage stage) {
  for (const MilestoneWindow& each : plan.milestones)
    if (each.stage == stage) return &each;
  return nullptr;
}

/// With the old set-points and what is known now, when would the milestones come?
void say_batch(const SeasonPlan& before, const SeasonPlan& old_now, PlanDifference& difference) {
  for (const PlanStage stage : plan_stages) {
    const MilestoneWindow *then = window_of(before, stage), *today = window_of(old_now, stage);
    if (!then || !today || then->lot.open_ended || today->lot.open_ended || today->already_probability > 0.5) continue;
    const Days moved = today->lot.median - then->lot.median;
    if (std::abs(moved.count()) < telling_days) continue;
    const std::string_view english = moved.count() > 0 ? "With the old set-points {0} would now come about {1} later than was expected: from what was seen and logged since."
                                                       : "With the old set-points {0} would now come about {1} earlier than was expected: from what was seen and logged since.";
    difference.why.push_back({english, {words_for(stage), Days(std::abs(moved.count()))}});
  }
}

void say_wishes(const SeasonPlan& before, const SeasonPlan& now, PlanDifference& difference) {
  const auto find = [](const SeasonPlan& plan, const std::string& key) -> const WishOutcome* {
    const auto found = std::ranges::find(plan.score.wishes, key, &WishOutcome::key);
    return found == plan.score.wishes.end() ? nullptr : &*found;
  };
  for (const WishOutcome& wish : now.score.wishes) {
    const WishOutcome* old = find(before, wish.key);
    if (!old)
      difference.why.push_back({"A wish is new: {0}.", {Word{wish.key}}});
    else if (old->weight != wish.weight)
      difference.why.push_back({"The weight of a wish changed: {0}.", {Word{wish.key}}});
    else if (wish.over && !old->over)
      difference.why.push_back({"A wish is over, since its stage has passed: {0}.", {Word{wish.key}}});
  }
  for (const WishOutcome& wish : before.score.wishes)
    if (!find(now, wish.key)) difference.why.push_back({"A wish was given up: {0}.", {Word{wish.key}}});
}

}  // namespace

PlanDifference what_changed(const SeasonPlan& before, const SeasonPlan& now, const SeasonQuestion& question,
                            std::span<const biology::DailyTemperature> logged) {
  PlanDifference difference;
  say_what(before, now, difference);
  say_temperatures(before, now, logged, difference);
  // The old set-points over the new days; beyond their end the last one is held.
  std::vector<Temperature> old;
  for (const PlanDay& day : question.days) {
    const Temperature* then = set_point_on(before, day.day);
    if (!then && (before.days.empty() || day.day < before.days.front())) break;
    old.push_back(then ? *then : before.set_points.back());
  }
  if (!old.empty() && old.size() == question.days.size()) {
    const PlanAnswer old_now = score_plan(question, old);
    if (old_now.plan) {
      difference.old_plan_now = old_now.plan->score.score;
      say_batch(before, *old_now.plan, difference);
    } else if (!difference.same) {
      difference.why.push_back("The old set-points no longer keep within what the animals bear, the largest change a day and what the equipment can hold.");
    }
  }
  say_wishes(before, now, difference);
  return difference;
}

}  // namespace redd::planning
