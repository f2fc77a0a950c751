#include "planning/temperature_plan.h"

#include <algorithm>

#include "planning/fed_days.h"
#include "planning/season_plan_lots.h"
#include "planning/set_point_range.h"
#include "planning/wish_obstacles.h"
#include "quantities/verbatim.h"

namespace redd::planning {
namespace {

using std::chrono::days;

constexpr std::size_t lots_wanted = 512;
constexpr int most_days = 240;

/// What is taken while nobody has described the room. Assumed: an ordinary classroom.
constexpr double usual_room_c = 21.0;

/// Fry are kept at most so long after swim-up before they are released, where a permit says from when. Assumed: a month of first feeding.
constexpr days kept_after_swim_up{30};

std::vector<PlanDay> plan_days(std::span<const PlanDay> abilities, Date first, Date last) {
  std::vector<PlanDay> result;
  for (Date day = first; day <= last && result.size() < most_days; day += days(1)) {
    const auto known = std::ranges::find(abilities, day, &PlanDay::day);
    if (known != abilities.end()) result.push_back(*known);
    else if (!abilities.empty()) break;
    else result.push_back({day, usual_equipment.low, usual_equipment.high, Temperature::from_c(usual_room_c), 0.0});
  }
  return result;
}

std::vector<Wish> usual_wishes(const records::SeasonSetup& season, const records::SchoolCalendar& calendar, const std::vector<PlanDay>& ahead) {
  std::vector<bool> open, fed;
  for (const PlanDay& d : ahead) {
    open.push_back(calendar.is_open(d.day));
    fed.push_back(somebody_feeds(calendar, d.day));
  }
  std::vector<Wish> wishes{hatch_on_school_days(open), feeding_outside_breaks(fed, 2)};
  if (season.release_until && !ahead.empty()) {
    const Date from = season.release_from ? std::max(ahead.front().day, *season.release_from - kept_after_swim_up) : ahead.front().day;
    wishes.push_back(swim_up_between(ahead, from, *season.release_until));
  }
  return wishes;
}

}  // namespace

Result<SeasonAsked> season_asked(const records::SeasonSetup& season, const inference::Belief& belief,
                                 const records::SchoolCalendar& calendar, std::span<const PlanDay> abilities, Date first) {
  const inference::BroodBelief& brood = belief.brood;
  if (!brood.species) return Problem{"unknown_species", "species", said("The species \"{0}\" is not known, so nothing can be planned: correct the season's set-up.", verbatim(season.species))};
  if (brood.animals == inference::Animals::released) return Problem{"released", "", "The brood has been released: there is nothing left to plan."};
  SeasonAsked asked{{{}, {}, *brood.species, {}, 0.05, {}, {}, {}, {}, {}}, {}};
  SeasonQuestion& question = asked.question;
  if (season.development_model) question.choice.hatch = *season.development_model;

  Date begin = first;
  biology::BatchStart start = brood.start.value_or(biology::BatchStart{biology::ReceivedEyed{first}});
  std::vector<biology::DailyTemperature> past;
  if (brood.start) {
    for (const auto& day : belief.temperature.days)
      if (day.day >= brood.received && day.day < first) past.push_back(day);
    if (!past.empty()) question.water_now = past.back().mean;
  } else {
    if (!season.egg_day) return Problem{"egg_day_missing", "egg_day", "There are no eggs yet and no day for them: correct the season's set-up with the day they come."};
    if (*season.egg_day < first)
      return Problem{"egg_day_past", "egg_day", said(season.egg_day_assumed ? "The day assumed for the eggs, {0}, is past: ask when they come and correct the set-up, or log their arrival."
                                                                               : "The eggs were to come on {0} and none are logged: log their arrival, or correct the egg day in the set-up to one that is still to come.",
                                                         iso_from_date(*season.egg_day))};
    begin = *season.egg_day;
    if (auto assumed = inference::egg_day_assumed(season, brood)) asked.assumed.push_back(std::move(*assumed));
    start = {biology::ReceivedEyed{begin}};
    start.egg_count = season.egg_count;
    asked.assumed.push_back({"The eggs are taken to come eyed on {0}; what the hatchery says of their age will narrow the dates.", {begin}});
  }
  if (past.empty()) past.push_back({begin - days(1), season.target, TemperatureChange::from_c(1.0), false});
  if (brood.start && past.front().day > brood.received) past.front().day = brood.received;
  const Date eve = past.back().day;
  if (!brood.start) start.known = biology::ReceivedEyed{eve};
  const auto lots = biology::lots_to_go(*brood.species, question.choice, start, past, brood.seen, eve, lots_wanted);
  if (!lots) return lots.problems();
  auto planned = planning_lots(*brood.species, question.choice, *lots, season.target);
  if (!planned) return planned.problems();
  question.lots = std::move(planned).value();
  question.animal_log_sd = biology::batch_log_sd(start.origin);

  // As far as a batch kept at the target may need, and two months more.
  Date last = begin + days(most_days - 1);
  if (brood.forecast) last = std::min(last, biology::day_of(brood.forecast->stage(biology::Stage::swim_up).lot.high_90) + planned_after_swim_up);
  if (season.release_until && *season.release_until > begin + days(14)) last = std::min(std::max(last, *season.release_until), begin + days(most_days - 1));
  question.days = plan_days(abilities, begin, last);
  if (abilities.empty())
    asked.assumed.push_back({"What the chiller can hold in its room is not described: {0} to {1} is taken. Describe the tank to plan within what it can do.",
                             {usual_equipment.low, usual_equipment.high}});
  question.wishes = usual_wishes(season, calendar, question.days);
  asked.without_days = wishes_without_days(question, calendar, season);
  if (calendar.closures().empty()) asked.assumed.push_back("No school closures are logged: every weekday counts as open. Import the school's calendar.");
  if (!season.release_until) asked.assumed.push_back("The permit's window for release is not in the set-up, so it is not part of the plan.");
  return asked;
}

TemperaturePlan temperature_plan(SeasonAsked asked, const inference::Belief& belief, const records::SeasonSetup& season,
                                 std::span<const PlanDay> abilities, Date first, const std::optional<SeasonAsked>& last_week) {
  TemperaturePlan plan{.asked = std::move(asked)};
  const SeasonQuestion& question = plan.asked.question;
  plan.alternatives = alternatives(question);
  const auto& best = plan.alternatives.best.plan;
  // Assumed: a wish with less than three chances in four is worth the search for what stands in its way.
  constexpr double likely = 0.75;
  if (best && std::ranges::any_of(best->score.wishes, [](const WishOutcome& w) { return !w.over && w.probability < likely; })) {
    plan.conflicts = conflicts(question);
    const auto swim_up = std::ranges::find(best->milestones, PlanStage::swim_up, &MilestoneWindow::stage);
    explain(plan.conflicts, plan.asked.without_days, season, swim_up == best->milestones.end() ? std::nullopt : std::optional(*swim_up));
  }
  if (best && last_week) {
    const PlanAnswer before = plan_season(last_week->question);
    if (before.plan) plan.since_last_week = what_changed(*before.plan, *best, question, belief.temperature.days);
  }
  const auto& water = belief.temperature.latest;
  if (!belief.brood.start && season.egg_day && *season.egg_day > first && water && (*water - season.target).c() > 0.5) {
    ChillQuestion chill{.days = plan_days(abilities, first, *season.egg_day - days(1)), .water_now = *water, .warm = season.warm.value_or(*water),
                        .target = season.target, .egg_day = *season.egg_day, .most_cooling_a_day = TemperatureChange::from_c(1.5)};
    ChillAnswer answer = plan_chill_down(chill);
    plan.chill = std::move(answer.plan);
    plan.chill_obstacles = std::move(answer.obstacles);
  }
  return plan;
}

}  // namespace redd::planning
