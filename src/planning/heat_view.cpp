#include "planning/heat_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "heat/moist_air.h"
#include "planning/water_change.h"

namespace redd::planning {
namespace {

using heat::HeatWorld;
using inference::Animals;

constexpr int days_ahead = 14;
constexpr auto zero_w = Power::from_w(0.0);
constexpr double thin_foam_m = 0.025;
/// Freezer. Assumed: -18 C, the usual household setting.
constexpr auto freezer = Temperature::from_c(-18.0);

HoldSpan joined(const HoldSpan& worst, const HoldSpan& mean) { return {worst.soonest, mean.likely, mean.latest}; }

HeatRooms rooms_of(const TankHeatModel& model, const HeatAsked& asked, Date today) {
  if (asked.room) return {*asked.room, *asked.room, *asked.room};
  const auto days = planned_rooms(model, today, 7);
  double sum_c = 0.0;
  HeatRooms rooms{heat::mean_of(days.front()), heat::coldest_of(days.front()), heat::warmest_of(days.front())};
  for (const auto& day : days) {
    sum_c += heat::mean_of(day).c();
    rooms.coldest = std::min(rooms.coldest, heat::coldest_of(day));
    rooms.warmest = std::max(rooms.warmest, heat::warmest_of(day));
  }
  rooms.mean = Temperature::from_c(sum_c / static_cast<double>(days.size()));
  // A reading outside what the building is said to do is believed.
  if (model.room_now) {
    if (*model.room_now > rooms.warmest || *model.room_now < rooms.coldest) rooms.mean = *model.room_now;
    rooms.coldest = std::min(rooms.coldest, *model.room_now);
    rooms.warmest = std::max(rooms.warmest, *model.room_now);
  }
  return rooms;
}

HoldAnswer hold_answer(const TankHeatModel& model, Temperature target, Temperature room) {
  const auto held_in = [&](const HeatWorld& world) { return heat::held(model.tank_of(world), *model.chiller_of(world), target, room); };
  HoldAnswer answer{.target = target, .room = room, .settles_at = {room, room, room}};
  answer.duty_fraction = over_worlds(model, [&](const HeatWorld& w) { return held_in(w).duty_fraction; });
  answer.likely = heat::holding_at(answer.duty_fraction.mid);
  answer.cautious = heat::holding_at(answer.duty_fraction.high);
  const auto settles_c = over_worlds(model, [&](const HeatWorld& w) { return held_in(w).settles_at.c(); });
  answer.settles_at = {Temperature::from_c(settles_c.low), Temperature::from_c(settles_c.mid), Temperature::from_c(settles_c.high), settles_c.support};
  const auto good = std::ranges::count_if(model.worlds, [&](const HeatWorld& w) { return held_in(w).duty_fraction <= heat::refused_duty; });
  answer.held_probability = static_cast<double>(good) / static_cast<double>(model.worlds.size());
  return answer;
}

WeekAnswer week_answer(const TankHeatModel& model, Temperature target, Temperature room) {
  const auto held_in = [&](const HeatWorld& world) { return heat::held(model.tank_of(world), *model.chiller_of(world), target, room); };
  WeekAnswer week{.room = room};
  week.duty_fraction = over_worlds(model, [&](const HeatWorld& w) { return held_in(w).duty_fraction; });
  week.electric_kwh = over_worlds(model, [&](const HeatWorld& w) { return held_in(w).electric_per_week().kwh(); });
  if (const auto price = model.price_per_kwh)
    week.cost = Estimate<double>{*price * week.electric_kwh.low, *price * week.electric_kwh.mid, *price * week.electric_kwh.high, week.electric_kwh.support};
  return week;
}

/// Heat that comes in with everything off.
Estimate<double> still_gain_w(const TankHeatModel& model, Temperature water, Temperature room) {
  return over_worlds(model, [&](const HeatWorld& w) { return heat::heat_balance(model.without_power(w), water, room).total.w(); });
}

/// Everything off, until the water is as warm as that.
std::optional<Hours> outage_time(const TankHeatModel& model, const HeatWorld& world, Temperature from, Temperature limit, Temperature room) {
  if (from >= limit) return Hours(0.0);
  const heat::TankHeat tank = model.without_power(world);
  return heat::relaxation(tank.capacity, tank.conductance, room, heat::mean_own_heat(tank)).time_to(from, limit);
}

std::vector<BottleAnswer> bottles(const TankHeatModel& model, Temperature water, const HeatRooms& rooms) {
  const auto mean = still_gain_w(model, water, rooms.mean), warm = still_gain_w(model, water, rooms.warmest);
  std::vector<BottleAnswer> all;
  for (const double each_g : {500.0, 1000.0, 1500.0, 2000.0}) {
    BottleAnswer answer{.each = Mass::from_g(each_g)};
    const auto hours = [&](double gain_w) { return heat::hours_held_by_ice(answer.each, Power::from_w(gain_w), water, freezer); };
    answer.shortest = hours(warm.high), answer.likely = hours(mean.mid), answer.longest = hours(mean.low);
    if (answer.shortest) answer.a_day = static_cast<int>(std::ceil(24.0 / answer.shortest->count() - 1e-9));
    all.push_back(answer);
  }
  return all;
}

/// What of the conductance is left when foam covers every face that has none yet (a resistance above 0.6 m2 K/W is foam).
double share_left_by_foam(const std::vector<heat::Face>& faces, bool keep_front) {
  double before_w_per_k = 0.0, after_w_per_k = 0.0;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const heat::Face& face = faces[i];
    const bool as_it_is = 1.0 / face.u_w_per_m2_k > 0.6 || (keep_front && i == 0);
    before_w_per_k += face.conductance().w_per_k();
    after_w_per_k += face.area_m2 * (as_it_is ? face.u_w_per_m2_k : 1.0 / (1.0 / face.u_w_per_m2_k + thin_foam_m / heat::conductivity_w_per_m_k::foam));
  }
  return after_w_per_k / before_w_per_k;
}

/// Middles of the worlds, so that "before" is the same number as in the other answers.
FoamAnswer foam_answer(const TankHeatModel& model, bool keep_front, Temperature target, const HeatRooms& rooms, Temperature limit) {
  const double left = share_left_by_foam(model.faces, keep_front);
  const auto insulated = [&](HeatWorld world) {
    world.conductance = left * world.conductance;
    return world;
  };
  const auto gain_w = [&](const HeatWorld& w) { return std::max(0.0, heat::heat_balance(model.tank_of(w), target, rooms.warmest).total.w()); };
  FoamAnswer answer{.what = keep_front ? Sentence{"Foam of 25 mm on every face but the front pane"} : Sentence{"Foam of 25 mm all round, with a flap before the front pane"},
                    .gain_before = Power::from_w(over_worlds(model, gain_w).mid),
                    .gain_after = Power::from_w(over_worlds(model, [&](const HeatWorld& w) { return gain_w(insulated(w)); }).mid)};
  const auto outage = [&](const HeatWorld& w) { return outage_time(model, w, target, limit, rooms.warmest); };
  answer.outage_before = span_over_worlds(model, outage).likely;
  answer.outage_after = span_over_worlds(model, [&](const HeatWorld& w) { return outage(insulated(w)); }).likely;
  if (!model.plate) return answer;
  const auto week = [&](const HeatWorld& w, Temperature room) { return heat::held(model.tank_of(w), *model.chiller_of(w), target, room); };
  answer.duty_before = over_worlds(model, [&](const HeatWorld& w) { return week(w, rooms.warmest).duty_fraction; }).mid;
  answer.duty_after = over_worlds(model, [&](const HeatWorld& w) { return week(insulated(w), rooms.warmest).duty_fraction; }).mid;
  answer.saved_kwh_per_week =
      over_worlds(model, [&](const HeatWorld& w) { return (week(w, rooms.mean).electric_per_week() - week(insulated(w), rooms.mean).electric_per_week()).kwh(); }).mid;
  // The bare tank has the foamed one's duty with a chiller stronger by the ratio of the two.
  if (*answer.duty_after > 0.0)
    answer.same_by_chiller = (*answer.duty_before / *answer.duty_after) * heat::cooling_power(*model.equipment.chiller, target, rooms.warmest);
  return answer;
}

DampAnswer damp_answer(const TankHeatModel& model, Temperature water, Temperature room, std::optional<double> humidity) {
  DampAnswer damp{.humidity_fraction = humidity.value_or(usual_humidity_fraction), .humidity_assumed = !humidity, .coldest_surface = room, .surface_gain = zero_w, .brings = zero_w};
  for (const heat::Face& face : model.faces)
    if (face.kind != heat::FaceKind::top || !model.open_top)
      damp.coldest_surface = std::min(damp.coldest_surface, heat::outer_surface(face.u_w_per_m2_k, face.kind, water, room));
  const heat::RoomAir air{room, damp.humidity_fraction};
  damp.sweats_above_fraction = heat::sweating_humidity_fraction(damp.coldest_surface, room);
  damp.sweats = heat::sweats(damp.coldest_surface, air);
  damp.surface_gains_above_fraction = heat::saturation_pressure_pa(water) / heat::saturation_pressure_pa(room);
  damp.surface_gain = heat::surface_gain(model.faces.back().area_m2, !model.open_top, water, air);
  damp.brings = damp_heat(model, water, air);
  return damp;
}

std::optional<ChangeAnswer> change_answer(const records::SeasonSetup& season, const inference::Belief& belief, Temperature water) {
  if (!belief.source || !belief.source->temperature) return std::nullopt;
  const Temperature source = *belief.source->temperature;
  const double usual = std::clamp(season.usual_change_fraction.value_or(0.2), 0.01, 1.0);
  const TemperatureChange widest = (1.0 / usual) * largest_step;
  return ChangeAnswer{source, heat::largest_water_change(water, source, largest_step), largest_step, usual, std::max(Temperature::from_c(0), water - widest), water + widest};
}

}  // namespace

StageLimits stage_limits(const inference::Belief& belief) {
  const auto animals = belief.brood.animals;
  const bool planned = !inference::has_animals(animals);
  StageLimits limits{Temperature::from_c(3), Temperature::from_c(6), Temperature::from_c(10), Temperature::from_c(12), "salmonid eggs",
                     "planning band of salmonid eggs, synthesis of published rows", planned};
  if (!belief.brood.species) return limits;
  const auto stage = animals == Animals::green_egg ? biology::LifeStage::green_egg
                     : animals == Animals::alevin  ? biology::LifeStage::alevin
                     : animals == Animals::fry     ? biology::LifeStage::fry
                                                   : biology::LifeStage::eyed_egg;
  auto band = belief.brood.species->band(stage);
  // Stages side by side (hatching, swim-up): the tightest limits of those that are there count.
  const auto sensitive = belief.brood.most_sensitive;
  if (inference::has_animals(sensitive) && sensitive != animals) {
    const auto other = belief.brood.species->band(sensitive == Animals::green_egg  ? biology::LifeStage::green_egg
                                                  : sensitive == Animals::eyed_egg ? biology::LifeStage::eyed_egg
                                                  : sensitive == Animals::alevin   ? biology::LifeStage::alevin
                                                                                   : biology::LifeStage::fry);
    band.red_below = std::max(band.red_below, other.red_below), band.red_above = std::min(band.red_above, other.red_above);
    band.green_low = std::max(band.green_low, other.green_low), band.green_high = std::min(band.green_high, other.green_high);
  }
  const char* name = stage == biology::LifeStage::green_egg ? "green eggs"
                     : stage == biology::LifeStage::alevin  ? "alevins"
                     : stage == biology::LifeStage::fry     ? "fry"
                                                            : "eyed eggs";
  return {band.red_below, band.green_low, band.green_high, band.red_above, name, std::string(band.source), planned};
}

HoldSpan warming_span(const TankHeatModel& model, Temperature from, Temperature limit, const HeatRooms& rooms, bool pump_runs) {
  const auto in_room = [&](Temperature room) {
    return span_over_worlds(model, [&](const HeatWorld& world) -> std::optional<Hours> {
      if (!pump_runs) return outage_time(model, world, from, limit, room);
      if (from >= limit) return Hours(0.0);
      const heat::TankHeat tank = model.tank_of(world);
      return heat::relaxation(tank.capacity, tank.conductance, room, heat::mean_own_heat(tank)).time_to(from, limit);
    });
  };
  return joined(in_room(rooms.warmest), in_room(rooms.mean));
}

HoldSpan chilling_span(const TankHeatModel& model, Temperature from, Temperature limit, const HeatRooms& rooms) {
  if (!model.plate) return {};
  const auto in_room = [&](Temperature room) {
    return span_over_worlds(model, [&](const HeatWorld& world) {
      heat::TankHeat dry = model.tank_of(world);
      dry.damp = zero_w;  // soonest in dry air
      return heat::time_to_cool(dry, *model.chiller_of(world), from, limit, room);
    });
  };
  return joined(in_room(rooms.coldest), in_room(rooms.mean));
}

HeatView heat_view(TankHeatModel given, const records::SeasonSetup& season, const inference::Belief& belief, const ZoneOffsets& zone, Instant now,
                   const HeatAsked& asked) {
  const Temperature target = asked.target.value_or(given.set_point);
  const Date today = local_day(zone, now);
  const HeatRooms rooms = rooms_of(given, asked, today);
  HeatView view{.model = std::move(given),
                .water = target,
                .target = target,
                .rooms = rooms,
                .room_asked = asked.room.has_value(),
                .limits = stage_limits(belief),
                .to_remove = {zero_w, zero_w, zero_w},
                .chiller_wanted = zero_w,
                .most_ice_an_hour = Mass::from_g(0),
                .damp = {.coldest_surface = target, .surface_gain = zero_w, .brings = zero_w}};
  // What a log found holds the damp of its own weeks; a humidity asked for comes on top of it, which errs to the careful side.
  if (asked.humidity_fraction || view.model.basis != HeatBasis::log)
    view.model.tank.damp = damp_heat(view.model, target, {rooms.warmest, asked.humidity_fraction.value_or(usual_humidity_fraction)});
  if (!asked.humidity_fraction && view.model.basis != HeatBasis::log && view.model.tank.damp.w() >= 1.0)
    view.model.assumed.push_back({"The room's air is taken as moist, {0} relative humidity. Dry winter air brings less heat, a damp summer more.", {Share{usual_humidity_fraction}}});
  const TankHeatModel& model = view.model;
  view.water_measured = model.water_now.has_value();
  if (model.water_now) view.water = *model.water_now;
  view.time_constant_h = over_worlds(model, [&](const HeatWorld& w) { return model.tank.capacity.j_per_k() / w.conductance.w_per_k() / 3600.0; });
  const auto need_w = over_worlds(model, [&](const HeatWorld& w) { return std::max(0.0, heat::heat_balance(model.tank_of(w), target, rooms.warmest).total.w()); });
  view.to_remove = {Power::from_w(need_w.low), Power::from_w(need_w.mid), Power::from_w(need_w.high), need_w.support};
  view.chiller_wanted = Power::from_w(1.5 * need_w.high);
  if (model.plate) {
    view.hold = hold_answer(model, target, rooms.warmest);
    view.week = week_answer(model, target, rooms.mean);
    if (view.water > target + TemperatureChange::from_c(0.5)) {
      const auto in_room = [&](Temperature room) {
        return span_over_worlds(model, [&](const HeatWorld& w) { return heat::time_to_cool(model.tank_of(w), *model.chiller_of(w), view.water, target, room); });
      };
      const HoldSpan mean = in_room(rooms.mean);
      view.cooling = HoldSpan{mean.soonest, mean.likely, in_room(rooms.warmest).latest};
    }
  }
  const StageLimits& limits = view.limits;
  const std::array warm{std::pair(limits.green_high, Sentence{"best for {0} ends", {Word{limits.animals}}}),
                        std::pair(limits.red_above, Sentence{"never above, for {0}", {Word{limits.animals}}})};
  for (const auto& [limit, name] : warm) {
    view.power_cut.push_back({limit, name, warming_span(model, view.water, limit, rooms, false)});
    view.chiller_dead.push_back({limit, name, warming_span(model, view.water, limit, rooms, true)});
  }
  const std::array cold{std::pair(limits.red_below, Sentence{"never below, for {0}", {Word{limits.animals}}}), std::pair(Temperature::from_c(1), Sentence{"nearly freezing"})};
  if (model.plate)
    for (const auto& [limit, name] : cold) view.stuck_on.push_back({limit, name, chilling_span(model, view.water, limit, rooms)});
  view.bottles = bottles(model, view.water, rooms);
  // About a degree in an hour. Source  a kilogram for 100 L and a degree, by the heat of melting.
  view.most_ice_an_hour = heat::ice_for_drop(model.water, TemperatureChange::from_c(1), view.water, freezer);
  view.change = change_answer(season, belief, view.water);
  view.foam = {foam_answer(model, true, target, rooms, limits.red_above), foam_answer(model, false, target, rooms, limits.red_above)};
  view.damp = damp_answer(model, view.water, rooms.warmest, asked.humidity_fraction);
  if (!asked.room) {
    const auto planned = planned_rooms(model, today, days_ahead);
    const std::array set{target};
    const auto abilities = day_abilities(model, today, days_ahead, set);
    for (int i = 0; i < days_ahead; ++i) {
      const auto at = static_cast<std::size_t>(i);
      view.days.push_back({today + std::chrono::days(i), heat::mean_of(planned[at]), heat::warmest_of(planned[at]), abilities[at]});
    }
  }
  return view;
}

}  // namespace redd::planning
