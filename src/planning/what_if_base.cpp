// The base of what-ifs: all of the season that six weeks ahead depend on, as numbers.
#include <algorithm>
#include <cmath>

#include "planning/what_if.h"

namespace redd::planning {
namespace {

using std::chrono::days;

/// Mean of the lamp over a day, added to each world's own heat.
Power mean_light(const heat::TankHeat& tank) {
  heat::TankHeat lamp = tank;
  lamp.pump = lamp.damp = Power::from_w(0.0);
  return heat::mean_own_heat(lamp);
}

/// `what_if_worlds` of the worlds, evenly by how cold they hold the tank in the warmest of these rooms.
std::vector<heat::HeatWorld> picked_worlds(const TankHeatModel& model, Temperature room) {
  struct Ranked {
    double settles_c;
    heat::HeatWorld world;
  };
  const Power light = mean_light(model.tank);
  std::vector<Ranked> all;
  for (heat::HeatWorld world : model.worlds) {
    const double settles_c = heat::settles_at(model.tank_of(world), model.chiller_of(world), room).c();
    world.own_heat = world.own_heat + light;
    all.push_back({settles_c, world});
  }
  std::ranges::stable_sort(all, {}, &Ranked::settles_c);
  std::vector<heat::HeatWorld> picked;
  for (std::size_t i = 0; i < what_if_worlds; ++i) picked.push_back(all[(2 * i + 1) * all.size() / (2 * what_if_worlds)].world);
  return picked;
}

std::vector<double> damp_table(const TankHeatModel& model) {
  std::vector<double> table;
  if (model.basis == HeatBasis::log) return table;
  for (const double room_c : WhatIfHeat::damp_room_c)
    for (const double water_c : WhatIfHeat::damp_water_c)
      table.push_back(damp_heat(model, Temperature::from_c(water_c), {Temperature::from_c(room_c), usual_humidity_fraction}).w());
  return table;
}

WhatIfHeat heat_base(const WaterCase& water, const TankHeatModel& model, int count) {
  WhatIfHeat heat;
  heat.capacity_j_per_k = model.tank.capacity.j_per_k();
  heat.heater_w = model.equipment.heater.w();
  heat.band_c = model.band.c();
  heat.plate = model.plate;
  heat.chiller_down = model.chiller_down;
  heat.heater_known = model.heater_known;
  heat.held = model.held;
  heat.damp_w = damp_table(model);
  double warmest_c = -273.0;
  for (const auto& room : planned_rooms(model, water.today(), count)) {
    heat.room_c.push_back(heat::mean_of(room).c());
    heat.room_warmest_c.push_back(heat::warmest_of(room).c());
    warmest_c = std::max(warmest_c, heat.room_c.back());
  }
  heat.worlds = picked_worlds(model, Temperature::from_c(warmest_c));
  const auto& forcing = water.asked.now.season.forcing;
  const auto first = static_cast<std::size_t>(std::max(0L, static_cast<long>((water.today() - water.asked.season.first_day).count())));
  for (std::size_t i = 0; i < static_cast<std::size_t>(count); ++i)
    heat.plan_c.push_back(forcing.days.empty() ? model.set_point.c() : forcing.days[std::min(first + i, forcing.days.size() - 1)].temperature_c);
  return heat;
}

/// Lots from the receipt, or from the planned arrival; nothing when nobody can tell dates.
std::optional<WhatIfDates> dates_base(const WaterCase& water) {
  const auto& brood = water.asked.belief.brood;
  const auto& season = water.asked.season;
  const Date today = water.today();
  if (!brood.species || brood.animals == inference::Animals::released) return std::nullopt;
  biology::ModelChoice choice;
  if (season.development_model) choice.hatch = *season.development_model;
  biology::BatchStart start;
  std::vector<biology::DailyTemperature> past;
  Date eve = today;
  if (brood.start && brood.forecast) {
    start = *brood.start;
    for (const auto& day : water.asked.belief.temperature.days)
      if (day.day >= brood.received && day.day <= today) past.push_back(day);
  } else if (!brood.start && season.egg_day && *season.egg_day > today) {
    eve = *season.egg_day - days(1);
    start = {biology::ReceivedEyed{eve}};
    start.egg_count = season.egg_count;
    past.push_back({eve, season.target, TemperatureChange::from_c(1.0), false});
  }
  if (past.empty()) return std::nullopt;
  const auto lots = biology::lots_to_go(*brood.species, choice, start, past, brood.seen, eve, what_if_lots);
  const auto hatch = biology::model_for(*brood.species, biology::Stage::hatch, choice.hatch);
  const auto swim_up = biology::model_for(*brood.species, biology::Stage::swim_up, choice.swim_up);
  if (!lots || !hatch || !swim_up) return std::nullopt;
  auto planned = planning_lots(*brood.species, choice, *lots, season.target);
  if (!planned) return std::nullopt;
  WhatIfDates dates{std::string(brood.species->key), choice.hatch, choice.swim_up, static_cast<int>((eve - today).count()) + 1};
  dates.lots = std::move(planned).value();
  return dates;
}

WhatIfOxygen oxygen_base(const WaterCase& water, const LoadingView& loading) {
  WhatIfOxygen oxygen;
  oxygen.transfer_l_per_h = loading.transfer_l_per_h;
  oxygen.transfer_at_c = loading.state == LoadingView::State::in_tank && !loading.days.empty() ? loading.days.front().water.c() : water.asked.season.target.c();
  oxygen.elevation_m = water.asked.season.elevation_m;
  for (const LoadRow& row : loading.sizes) {
    if (row.stage == biology::LifeStage::eyed_egg) oxygen.egg_g = row.each_g;
    if (row.stage == biology::LifeStage::alevin) oxygen.alevin_g = row.each_g;
  }
  for (const LoadRow& row : loading.days)
    if (row.stage == biology::LifeStage::fry && oxygen.fry_g.size() < static_cast<std::size_t>(what_if_days) + 1) oxygen.fry_g.push_back(row.each_g);
  if (oxygen.fry_g.empty()) oxygen.fry_g.push_back({0.1, 0.15, 0.25, Support::assumed});
  return oxygen;
}

/// Six weeks, and as long as dates may take, with room for colder water.
int days_needed(const WaterCase& water) {
  constexpr int more = 75, without_forecast = 200;
  const auto& forecast = water.asked.belief.brood.forecast;
  int count = what_if_days + 1;
  if (forecast) count = std::max(count, static_cast<int>((biology::day_of(forecast->stage(biology::Stage::swim_up).lot.high_90) - water.today()).count()) + more);
  else if (water.asked.season.egg_day && *water.asked.season.egg_day > water.today()) count = without_forecast;
  return std::min(count, what_if_longest_days);
}

}  // namespace

Result<WhatIfBase> what_if_base(const WaterCase& water, const TankHeatModel& heat, const LoadingView& loading) {
  const auto& now = water.asked.now;
  if (water.asked.belief.brood.animals == inference::Animals::released) return Problem{"nothing_to_ask", "", "The brood is released: nothing is foretold any more."};
  WhatIfBase base{.tanks = water.tanks};
  base.today = water.today();
  base.now_day = now.now_day;
  base.volume_l = now.season.volume_l;
  base.new_water = water.new_water;
  base.top_up_hardness_meq_per_l = water.top_up_hardness_meq_per_l;
  base.top_up_alkalinity_meq_per_l = water.top_up_alkalinity_meq_per_l;
  base.limits = water.limits;
  const tank::DayForcing air = now.season.forcing.days.empty() ? tank::DayForcing{} : now.season.forcing.days.back();
  base.air_co2_uatm = air.air_co2_uatm;
  base.air_pressure_mmhg = air.air_pressure_mmhg;
  for (const auto& event : now.season.events)
    if (const auto* dose = std::get_if<tank::Dose>(&event.what); dose && event.at_day > now.now_day && event.at_day <= now.now_day + what_if_days) base.doses.emplace_back(event.at_day, *dose);
  const auto open = days_for_change(water, base.today + days(what_if_days));
  for (const Date day : usual_change_days(water, open)) base.change_days.push_back(water.noon_of(day));
  base.usual_fraction = water.asked.season.usual_change_fraction.value_or(usual_change_fraction);
  base.brood = now.brood;
  base.alive = now.alive;
  if (now.brood) base.fry_now_g = now.fry_mass_now_g > 0.0 ? now.fry_mass_now_g : now.brood->fry_mass_g;
  base.heat = heat_base(water, heat, days_needed(water));
  base.dates = dates_base(water);
  base.oxygen = oxygen_base(water, loading);
  const auto planned = what_if(base, {});
  if (!planned) return planned.problems();
  if (!planned->sound) return Problem{"not_sound", "", "A simulated tank came to no number, so nothing can be foretold here."};
  base.as_planned = planned->summary;
  return base;
}

}  // namespace redd::planning
