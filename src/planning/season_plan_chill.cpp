#include "planning/season_plan_chill.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

constexpr double hair_c = 1e-9;

std::vector<PlanObstacle> obstacles_of(const ChillQuestion& q, std::size_t before_eggs) {
  std::vector<PlanObstacle> found;
  if (q.days.empty() || q.egg_day <= q.days.front().day) {
    const Date first = q.days.empty() ? q.egg_day : q.days.front().day;
    found.push_back({"egg_day_past", "egg_day", {"The egg day {0} is not after {1}, the first day that can still be planned: correct the egg day, or log the eggs as received.", {q.egg_day, first}}});
    return found;
  }
  for (std::size_t d = 0; d < q.days.size(); ++d)
    if (d > 0 && q.days[d].day != q.days[d - 1].day + std::chrono::days(1)) {
      found.push_back({"days_out_of_order", "days", {"The days to plan must follow one another without gaps; {0} does not follow {1}.", {q.days[d].day, q.days[d - 1].day}}});
      return found;
    }
  if (before_eggs > q.days.size()) {
    found.push_back({"missing_days", "days", {"The days to plan end on {0}, before the eggs come on {1}: give them up to the egg day.", {q.days.back().day, q.egg_day}}});
    return found;
  }
  if (!(q.most_cooling_a_day.c() > 0.0) || !(q.most_warming_a_day.c() >= 0.0) || q.settle_days < 0 || !(q.target.c() > -5.0 && q.warm.c() < 40.0 && q.target <= q.warm))
    found.push_back({"out_of_range", "target", "The target must lie at or below the warm temperature, the largest cooling a day above 0 C, and the days to settle at 0 or more."});
  if (!q.ready_by_start.empty() && q.ready_by_start.size() != q.days.size())
    found.push_back({"ready_days", "ready_by_start", {"How ready the filter will be is told for {0} days, but {1} are planned.",
                                                      {Number{static_cast<long long>(q.ready_by_start.size())}, Number{static_cast<long long>(q.days.size())}}}});
  for (std::size_t d = before_eggs - std::min(before_eggs, static_cast<std::size_t>(std::max(0, q.settle_days))); d < before_eggs && found.empty(); ++d)
    if (q.days[d].coldest > q.target + TemperatureChange::from_c(hair_c))
      found.push_back({"chiller_too_small", "days",
                       {"The chiller is too small for this room: on {0} it holds the water no colder than {1}, and the eggs are to meet {2}. Insulate the tank, cool the room, get a stronger "
                        "chiller or ask for a warmer target.",
                        {q.days[d].day, q.days[d].coldest, q.target}}});
  return found;
}

/// Warmest daily means from the end backward: at the target while settling, and before it at most one day's cooling above the next.
std::vector<double> ceiling(const ChillQuestion& q, std::size_t before_eggs, std::size_t settled) {
  std::vector<double> most(before_eggs, q.target.c());
  for (std::size_t d = settled; d-- > 0;) {
    const double next = d + 1 < before_eggs ? most[d + 1] : q.target.c();
    most[d] = std::min({q.warm.c(), q.days[d].warmest.c(), next + q.most_cooling_a_day.c()});
  }
  return most;
}

/// The warmest path under the ceiling that cools from `start` on; nothing when a limit stands in its way.
std::optional<std::vector<double>> path_from(const ChillQuestion& q, const std::vector<double>& most, std::size_t start) {
  std::vector<double> path(most.size());
  double before = q.water_now.c();
  for (std::size_t d = 0; d < most.size(); ++d) {
    // After an early start the water goes down as fast as it may and waits at the target.
    const double wanted = d < start ? most[d] : std::min(most[d], std::max(q.target.c(), before - q.most_cooling_a_day.c()));
    path[d] = std::min(wanted, before + q.most_warming_a_day.c());
    if (path[d] < before - q.most_cooling_a_day.c() - hair_c || path[d] < q.days[d].coldest.c() - hair_c) return std::nullopt;
    before = path[d];
  }
  return path;
}

}  // namespace

ChillAnswer plan_chill_down(const ChillQuestion& q) {
  ChillAnswer answer;
  const std::size_t before_eggs = q.days.empty() || q.egg_day <= q.days.front().day ? 0 : static_cast<std::size_t>((q.egg_day - q.days.front().day).count());
  answer.obstacles = obstacles_of(q, before_eggs);
  if (!answer.obstacles.empty()) return answer;
  const std::size_t settled = before_eggs - std::min(before_eggs, static_cast<std::size_t>(q.settle_days));
  const std::vector<double> most = ceiling(q, before_eggs, settled);
  const auto latest_path = path_from(q, most, before_eggs);
  if (!latest_path || static_cast<std::size_t>(q.settle_days) > before_eggs) {
    const double cooling_days = std::ceil(std::max(0.0, (q.water_now - q.target).c()) / q.most_cooling_a_day.c() - hair_c);
    const Date earliest = q.days.front().day + std::chrono::days(std::max(0, static_cast<int>(cooling_days) - 1) + q.settle_days);
    answer.obstacles.push_back({"chill_too_late", "egg_day",
                                {"From {0} the water cannot reach {1} and settle for {2} days by {3} within {4} a day: ask for the eggs on {5} or later, or shorten the days to settle.",
                                 {q.water_now, q.target, Number{q.settle_days}, q.egg_day, q.most_cooling_a_day, std::max(earliest, q.egg_day + std::chrono::days(1))}}});
    return answer;
  }
  // The day from which the water falls every day until it stands at the target. A room, or a set-point a little below today's water, that
  // cools it earlier is no start.
  const auto start_of = [&](const std::vector<double>& path) {
    const auto falls = [&](std::size_t d) { return path[d] < (d == 0 ? q.water_now.c() : path[d - 1]) - hair_c; };
    std::size_t settled_from = path.size();
    while (settled_from > 0 && std::abs(path[settled_from - 1] - q.target.c()) <= hair_c) --settled_from;
    std::size_t start = settled_from;
    while (start > 0 && falls(start - 1)) --start;
    return start < path.size() && falls(start) ? start : path.size();
  };
  std::vector<double> path = *latest_path;
  const std::size_t latest = start_of(path);
  if (!q.ready_by_start.empty()) {
    std::size_t best = std::min(latest, q.days.size() - 1);
    for (std::size_t d = 0; d < std::min(latest, q.days.size()); ++d)
      if (q.ready_by_start[d] > q.ready_by_start[best] + 1e-9)
        if (const auto earlier = path_from(q, most, d)) {
          best = d;
          path = *earlier;
        }
    answer.plan.emplace();
    answer.plan->ready_probability = q.ready_by_start[best];
  } else {
    answer.plan.emplace();
  }
  ChillPlan& plan = *answer.plan;
  const Date first = q.days.front().day;
  for (std::size_t d = 0; d < path.size(); ++d) {
    plan.days.push_back(q.days[d].day);
    plan.set_points.push_back(Temperature::from_c(path[d]));
  }
  plan.start = first + std::chrono::days(static_cast<int>(start_of(path)));
  plan.latest_start = first + std::chrono::days(static_cast<int>(latest));
  std::size_t at_target = path.size();
  while (at_target > 0 && std::abs(path[at_target - 1] - q.target.c()) <= hair_c) --at_target;
  plan.settled = first + std::chrono::days(static_cast<int>(at_target));
  return answer;
}

}  // namespace redd::planning
