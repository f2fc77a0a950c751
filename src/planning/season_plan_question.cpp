#include "planning/season_plan_question.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

using biology::LifeStage;
using Obstacles = std::vector<PlanObstacle>;

Word words_for(LifeStage stage) {
  switch (stage) {
    case LifeStage::green_egg: return {"green eggs"};
    case LifeStage::eyed_egg: return {"eyed eggs"};
    case LifeStage::alevin: return {"alevins"};
    case LifeStage::fry: break;
  }
  return {"fry"};
}

bool possible(Temperature t) {
  return t.c() > -50.0 && t.c() < 60.0;  // also false for what is not a number
}

void check_days(const SeasonQuestion& q, Obstacles& found) {
  if (q.days.empty()) {
    found.push_back({"missing_days", "days", "A plan needs days: give the last day the animals stay, after today."});
    return;
  }
  for (std::size_t i = 0; i < q.days.size(); ++i) {
    const PlanDay& d = q.days[i];
    if (i > 0 && d.day != q.days[i - 1].day + std::chrono::days(1)) {
      found.push_back({"days_out_of_order", "days", {"The days to plan must follow one another without gaps; {0} does not follow {1}.", {d.day, q.days[i - 1].day}}});
      return;
    }
    if (!possible(d.coldest) || !possible(d.warmest) || !possible(d.room) || !(d.kwh_each_c_below_room >= 0.0 && d.kwh_each_c_below_room < 1e3)) {
      found.push_back({"out_of_range", "days", {"The room, what the equipment can hold and its energy on {0} are no possible numbers: correct them.", {d.day}}});
      return;
    }
    if (d.coldest > d.warmest) {
      found.push_back({"equipment_contradicts", "days",
                       {"On {0} the coldest water the equipment can hold ({1}) is warmer than the warmest ({2}): correct the room or the equipment.", {d.day, d.coldest, d.warmest}}});
      return;
    }
  }
  if (q.days.size() > 1000) found.push_back({"out_of_range", "days", "A plan covers at most 1000 days: choose an earlier last day."});
}

void check_bands(const SeasonQuestion& q, Obstacles& found) {
  for (const LifeStage stage : biology::all_life_stages) {
    const biology::ThermalBand& b = q.species.band(stage);
    if (!(b.red_below <= b.green_low && b.green_low <= b.green_high && b.green_high <= b.red_above) || !possible(b.red_below) || !possible(b.red_above))
      found.push_back({"bands_contradict", "species",
                       {"The temperature limits of {0} contradict one another (red below {1}, good from {2} to {3}, red above {4}): put them in rising order.",
                        {words_for(stage), b.red_below, b.green_low, b.green_high, b.red_above}}});
  }
  if (!found.empty()) return;
  for (std::size_t s = 1; s < biology::all_life_stages.size(); ++s) {
    const LifeStage a = biology::all_life_stages[s - 1], b = biology::all_life_stages[s];
    if (q.species.band(a).red_below > q.species.band(b).red_above || q.species.band(b).red_below > q.species.band(a).red_above)
      found.push_back({"bands_contradict", "species",
                       {"No water suits {0} and {1} together, and there are days with both in the tank: widen the limits of one.", {words_for(a), words_for(b)}}});
  }
}

/// The first day on which the equipment can hold nothing that some stage bears.
void check_equipment(const SeasonQuestion& q, Obstacles& found) {
  double low_c = 1e9, high_c = -1e9;
  for (const LifeStage stage : biology::all_life_stages) {
    low_c = std::min(low_c, q.species.band(stage).red_below.c());
    high_c = std::max(high_c, q.species.band(stage).red_above.c());
  }
  int too_warm = 0, too_cold = 0;
  const PlanDay *first_warm = nullptr, *first_cold = nullptr;
  for (const PlanDay& d : q.days) {
    if (d.coldest.c() > high_c && too_warm++ == 0) first_warm = &d;
    if (d.warmest.c() < low_c && too_cold++ == 0) first_cold = &d;
  }
  if (first_warm)
    found.push_back({"chiller_too_small", "days",
                     {"The chiller is too small for this room: on {0} it holds the water no colder than {1}, and {2} is the most the animals bear (days like it: {3}). "
                      "Insulate the tank, cool the room or get a stronger chiller.",
                      {first_warm->day, first_warm->coldest, Temperature::from_c(high_c), Number{too_warm}}}});
  if (first_cold)
    found.push_back({"heater_too_small", "days",
                     {"On {0} the water can be held no warmer than {1}, and the animals need at least {2} (days like it: {3}): warm the room or add a heater.",
                      {first_cold->day, first_cold->warmest, Temperature::from_c(low_c), Number{too_cold}}}});
}

bool sound(const StageNeed& n) {
  return n.need > 0.0 && n.need < 100.0 && n.done >= -10.0 && n.done < 100.0;
}

void check_numbers(const SeasonQuestion& q, Obstacles& found) {
  if (q.lots.empty()) found.push_back({"missing_lots", "lots", "A plan needs to know where the eggs stand: log the egg receipt, or say what the hatchery will send."});
  for (const Lot& lot : q.lots)
    if (!(lot.weight > 0.0 && lot.weight < 1e12) || !sound(lot.hatch) || !sound(lot.swim_up) || !(lot.release_c_days >= 0.0 && lot.release_c_days < 1e5)) {
      found.push_back({"out_of_range", "lots", "Where the eggs may stand is told by impossible numbers: correct the egg receipt."});
      break;
    }
  for (const Wish& wish : q.wishes) {
    if (wish.good.size() != q.days.size())
      found.push_back({"wish_days", wish.key, {"A wish ({0}) tells its good days for {1} days, but {2} are planned.",
                                               {Word{wish.key}, Number{static_cast<long long>(wish.good.size())}, Number{static_cast<long long>(q.days.size())}}}});
    if (!(wish.weight >= 0.0 && wish.weight <= 100.0)) found.push_back({"out_of_range", wish.key, {"The weight of a wish ({0}) must lie between 0 and 100.", {Word{wish.key}}}});
  }
  const auto sound_cost = [](double c) { return c >= 0.0 && c <= 100.0; };
  if (!sound_cost(q.costs.change) || !sound_cost(q.costs.amber_c_day) || !sound_cost(q.costs.kwh))
    found.push_back({"bad_costs", "costs", "What changes, energy and warmth outside the good band cost must lie between 0 and 100."});
  const auto sound_limit = [](const biology::TemperatureRateLimits& l) { return l.per_hour.c() > 0.0 && l.per_day.c() >= 0.0 && l.per_day.c() < 100.0; };
  if (!sound_limit(q.limits.warming) || !sound_limit(q.limits.cooling) || !(q.limits.least_share > 0.0 && q.limits.least_share <= 0.5))
    found.push_back({"bad_limits", "limits", "The greatest change an hour must be above 0 C, that of a day at least 0 C, and the smallest share of a stage that counts between 0 and one half."});
  const PlanPrecision& p = q.precision;
  if (!(p.step_c >= 0.1 && p.step_c <= 5.0) || p.nodes < 32 || p.nodes > 16384 || p.deviation_nodes < 3 || p.deviation_nodes > 200 || !(p.blur >= 0.001 && p.blur <= 0.2) ||
      !(q.animal_log_sd >= 0.0 && q.animal_log_sd <= 0.5))
    found.push_back({"out_of_range", "precision", "The step of the set-points must lie between 0.1 and 5 C, and the other settings of the search within their ranges."});
  if (q.water_now && !(q.water_now->c() >= -5.0 && q.water_now->c() <= 40.0))
    found.push_back({"out_of_range", "water_now", {"The water cannot stand at {0}: correct the last reading.", {*q.water_now}}});
  for (const auto& [stage, key] : {std::pair{biology::Stage::hatch, q.choice.hatch}, std::pair{biology::Stage::swim_up, q.choice.swim_up}})
    if (const auto model = biology::model_for(q.species, stage, key); !model)
      found.push_back({"unknown_model", "choice", {"{0}", {Word{model.problems().front().sentence}}}});
}

}  // namespace

std::vector<PlanObstacle> obstacles_of(const SeasonQuestion& question) {
  Obstacles found;
  check_days(question, found);
  check_numbers(question, found);
  if (found.empty()) check_bands(question, found);
  if (found.empty()) check_equipment(question, found);
  return found;
}

Wish hatch_on_school_days(const std::vector<bool>& school_open, double weight) {
  return {"hatch_on_school_days", "hatch on a school day", PlanStage::hatch, school_open, weight};
}

Wish feeding_outside_breaks(const std::vector<bool>& somebody_feeds, int then_days, double weight) {
  Wish wish{"feeding_outside_breaks", "first feeding outside breaks", PlanStage::swim_up, somebody_feeds, weight};
  for (std::size_t d = 0; d < somebody_feeds.size(); ++d)
    for (std::size_t later = d + 1; later <= d + static_cast<std::size_t>(std::max(0, then_days)) && later < somebody_feeds.size(); ++later)
      if (!somebody_feeds[later]) wish.good[d] = false;
  return wish;
}

Wish swim_up_between(const std::vector<PlanDay>& days, Date first, Date last, double weight) {
  Wish wish{"swim_up_in_window", {"swim-up from {0} to {1}", {first, last}}, PlanStage::swim_up, {}, weight};
  for (const PlanDay& d : days) wish.good.push_back(d.day >= first && d.day <= last);
  return wish;
}

Wish release_size_by(const std::vector<PlanDay>& days, Date last, double weight) {
  Wish wish{"release_size_in_window", {"size of release by {0}", {last}}, PlanStage::release_size, {}, weight};
  for (const PlanDay& d : days) wish.good.push_back(d.day <= last);
  return wish;
}

}  // namespace redd::planning
