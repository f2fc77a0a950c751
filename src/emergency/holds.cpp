#include "emergency/holds.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "chemistry/oxygen.h"

namespace redd::emergency {
namespace {

using inference::Animals;

Animals stage_of(const Case& now) {
  const auto& brood = now.belief.brood;
  return inference::has_animals(brood.animals) ? brood.animals : Animals::eyed_egg;
}

/// Hours until so much water is down from saturation to the limit.
planning::HoldSpan oxygen_span(const Case& now, double litres, double limit_mg_per_l) {
  const double saturated = chemistry::oxygen_saturation(now.heat.water).mg_o2_per_l();
  const double used_mg_per_h = tank::oxygen_use_mg_o2_per_day(brood_of(now), now.heat.water.c()) / 24.0;
  const double hours = std::max(0.0, saturated - limit_mg_per_l) * litres / std::max(used_mg_per_h, 1e-9);
  return {Hours(hours / 2.5), Hours(hours / (litres > basket_l ? 2.0 : 1.0)), Hours(hours * (litres > basket_l ? 1.0 : 2.0))};
}

Sentence oxygen_basis(const Case& now) {
  return {"Worked out for {0} {1} at {2} from saturated water; without a reading nobody knows how full it was.",
          {Number{animals_count(now)}, Word{animals_word(now)}, now.heat.water}};
}

}  // namespace

bool has_animals(const Case& now) { return inference::has_animals(now.belief.brood.animals); }
bool are_eggs(const Case& now) { return inference::are_eggs(stage_of(now)); }

std::string animals_word(const Case& now) {
  const Animals stage = stage_of(now);
  return inference::are_eggs(stage) ? "eggs" : stage == Animals::alevin ? "alevins" : "fry";
}

int animals_count(const Case& now) {
  const auto& brood = now.belief.brood;
  if (inference::has_animals(brood.animals) && brood.received_count > 0) return std::max(1, brood.received_count - brood.dead_count);
  return now.season.egg_count.value_or(200);
}

tank::Brood brood_of(const Case& now) {
  const auto& brood = now.belief.brood;
  Animals stage = stage_of(now);
  // Around hatch the hungrier of both stages is in the basket.
  if (brood.forecast && inference::are_eggs(stage) && brood.most_sensitive == Animals::alevin) stage = Animals::alevin;
  tank::Brood batch;
  batch.stage = inference::are_eggs(stage) ? tank::Stage::egg : stage == Animals::alevin ? tank::Stage::alevin : tank::Stage::fry;
  batch.count = animals_count(now);
  batch.stage_share_fraction = 1.0;  // the end of a stage asks most
  batch.fry_mass_g = 0.3;            // Assumed: fry of the first weeks; heavier fry have less time
  return batch;
}

HoldTime still_basket(const Case& now) {
  return {{"a still basket of {0} runs short of oxygen", {Word{animals_word(now)}}}, oxygen_span(now, basket_l, basket_limit_mg_per_l),
          {"A basket of a litre is taken. Worked out for {0} {1} at {2} from saturated water.", {Number{animals_count(now)}, Word{animals_word(now)}, now.heat.water}}};
}

HoldTime still_tank(const Case& now) {
  HoldTime time{"the whole tank runs short of oxygen", oxygen_span(now, now.season.volume.l(), tank_limit_mg_per_l), oxygen_basis(now)};
  // Beyond some days scum, rot and bacteria decide and not the animals: a number would promise too much.
  if (*time.span->soonest > Hours(72.0)) time = {time.what, std::nullopt, "Not before the temperature or the basket matter, unless something rots: look and smell."};
  return time;
}

HoldTime out_of_water(const Case& now) {
  if (are_eggs(now))
    return {"eggs kept damp, dark and cold, out of water", planning::HoldSpan{Hours(24.0), Hours(72.0), Hours(12.0 * 24.0)},
            "Chinook eggs lived through 12 days damp at 10 °C in a trial (Becker and others 1982); near hatch, count on hours only. A day is a cautious end."};
  return {{"{0} out of water", {Word{animals_word(now)}}}, planning::HoldSpan{Hours(0.0), Hours(0.0), Hours(1.0)},
          "After hatching there is no grace: an hour a day out of water killed nearly all alevins near emergence (Becker and others 1982)."};
}

std::vector<HoldTime> temperature_times(const std::vector<planning::LimitTime>& times, const Case& now, const Sentence& unknown) {
  if (times.empty()) return {{"the water leaves what the animals bear", std::nullopt, unknown}};
  std::vector<HoldTime> out;
  for (const auto& time : times) {
    Sentence what{"the water stands at {0}: ", {time.limit}};
    std::string name = time.name.pattern;
    if (const auto at = name.find("{0}"); at != std::string::npos) name[at + 1] = '1';
    what.pattern += name;
    what.values.insert(what.values.end(), time.name.values.begin(), time.name.values.end());
    out.push_back({std::move(what), time.span, now.heat.model.rests_on});
  }
  return out;
}

bool in_basket(const Case& now) { return stage_of(now) != Animals::fry; }

Sentence flow_first(const Case& now) {
  if (!in_basket(now)) return "Air first: a battery air stone. Without one, lift water out and pour it back from a hand's height, five minutes in every half hour.";
  return {"Flow first: pour tank water gently through the basket every {0} minutes, day and night, or hang a battery air stone under it.", {Number{pour_every_minutes(now)}}};
}

std::vector<HoldTime> without_flow(const Case& now) {
  std::vector<HoldTime> times;
  if (in_basket(now)) times.push_back(still_basket(now));
  times.push_back(still_tank(now));
  for (HoldTime& time : temperature_times(now.heat.power_cut, now, "The tank is not described.")) times.push_back(std::move(time));
  return times;
}

int pour_every_minutes(const Case& now) {
  const double half_minutes = 30.0 * still_basket(now).span->soonest->count();
  for (const int round : {120, 90, 60, 45, 30, 20, 15})
    if (half_minutes >= round) return round;
  return 10;
}

Sentence pull_the_plug() {
  return "People first: dry hands, and pull the plug before touching wet equipment. A protected socket that trips has a reason: do not bridge or bypass it; call a licensed electrician if it trips "
         "again.";
}

Sentence supplier_by_temperature(const Case& now) {
  return {"Ring the egg supplier when the water stands above {0} or below {1}, or will before somebody is back.", {now.heat.limits.red_above, now.heat.limits.red_below}};
}

Sentence test_of(const Case& now, records::Quantity quantity) {
  for (const records::Record& record : now.records)
    if (const auto* kit = std::get_if<records::Kit>(&record.entry.body))
      for (const records::KitTest& test : kit->tests)
        if (test.quantity == quantity) return {"Test {0} (kit \"{1}\").", {Word{records::quantity_text(quantity)}, Word{kit->name}}};
  return {"Find a test of {0}: none of your kits has one.", {Word{records::quantity_text(quantity)}}};
}

}  // namespace redd::emergency
