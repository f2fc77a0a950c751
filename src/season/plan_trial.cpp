#include "season/plan_trial.h"

#include <algorithm>

namespace redd::season {
namespace {

using std::chrono::days;
using planning::PlanDay;
using planning::PlanStage;
using planning::SeasonQuestion;

/// Assumed: who points at a day means its neighbours too, and wants it more than what is wished by habit.
constexpr days meant{2};
constexpr double weight_of_a_pointer = 3.0;

/// What the equipment holds on the planned days, carried on unchanged to both sides for days a moved date brings in.
std::vector<PlanDay> abilities_around(const std::vector<PlanDay>& planned, Date first) {
  constexpr days most{500};
  std::vector<PlanDay> all;
  if (planned.empty()) return all;
  for (PlanDay day = planned.front(); day.day > first && planned.front().day - day.day < most;) {
    day.day -= days(1);
    all.push_back(day);
  }
  std::ranges::reverse(all);
  all.insert(all.end(), planned.begin(), planned.end());
  for (PlanDay day = planned.back(); day.day - planned.back().day < most;) {
    day.day += days(1);
    all.push_back(day);
  }
  return all;
}

Result<SeasonQuestion> question_with(const PlanView& view, const PlanTrial& trial) {
  const SeasonQuestion& asked = view.plan.asked.question;
  if (!trial.egg_day && !trial.release_from && !trial.release_until) return asked;
  if (trial.egg_day && view.belief.brood.start) return Problem{"eggs_have_come", "/egg_day", "The eggs are in the tank: their day can't be moved any more."};
  records::SeasonSetup season = view.season;
  if (trial.egg_day) season.egg_day = trial.egg_day;
  if (trial.release_from) season.release_from = trial.release_from;
  if (trial.release_until) season.release_until = trial.release_until;
  if (season.release_from && season.release_until && *season.release_until < *season.release_from)
    return Problem{"days_crossed", "/release_until", said("The last day for a release ({0}) is before the first ({1}): move one of them.", iso_from_date(*season.release_until), iso_from_date(*season.release_from))};
  auto anew = planning::season_asked(season, view.belief, view.calendar, abilities_around(asked.days, view.first_planned), view.first_planned);
  if (!anew) return anew.problems();
  return std::move(anew.value().question);
}

Problems wish_a_day(SeasonQuestion& question, std::optional<Date> day, PlanStage stage, const char* key, const char* name) {
  if (!day) return {};
  if (question.days.empty() || *day < question.days.front().day || *day > question.days.back().day)
    return {{"out_of_range", std::string("/") + key, "That day is not among the days planned."}};
  planning::Wish wish{std::string(key) + "_wished", Sentence{name, {*day}}, stage, {}, weight_of_a_pointer};
  for (const PlanDay& each : question.days) wish.good.push_back(each.day >= *day - meant && each.day <= *day + meant);
  question.wishes.push_back(std::move(wish));
  return {};
}

}  // namespace

Result<planning::PlanAnswer> try_plan(const PlanView& view, const PlanTrial& trial) {
  auto made = question_with(view, trial);
  if (!made) return made.problems();
  SeasonQuestion& question = made.value();
  Problems problems = wish_a_day(question, trial.hatch, PlanStage::hatch, "hatch", "half hatched within two days of {0}");
  for (Problem& each : wish_a_day(question, trial.swim_up, PlanStage::swim_up, "swim_up", "half swum up within two days of {0}")) problems.push_back(std::move(each));
  if (!problems.empty()) return problems;
  if (!trial.steps) return planning::plan_season(question);
  std::vector<Temperature> set_points(question.days.size(), question.water_now.value_or(view.season.target));
  for (std::size_t d = 0; d < set_points.size(); ++d)
    for (const PlanTrial::Step& step : *trial.steps)
      if (step.day <= question.days[d].day) set_points[d] = step.temperature;
  return planning::score_plan(question, set_points);
}

}  // namespace redd::season
