// A heater that no longer stops.

#include "emergency/holds.h"
#include "heat/relaxation.h"

namespace redd::emergency::kinds {
namespace {

/// With the heater on and the chiller unable to help; nothing when no heater is on record.
std::vector<planning::LimitTime> heating_times(const Case& now) {
  const auto& model = now.heat.model;
  if (!model.heater_known || model.equipment.heater.w() <= 0.0) return {};
  std::vector<planning::LimitTime> times = now.heat.chiller_dead;
  for (auto& time : times)
    time.span = planning::span_over_worlds(model, [&](const heat::HeatWorld& world) -> std::optional<Hours> {
      if (now.heat.water >= time.limit) return Hours(0.0);
      heat::TankHeat tank = model.tank_of(world);
      tank.pump = tank.pump + model.equipment.heater;
      return heat::relaxation(tank.capacity, tank.conductance, now.heat.rooms.warmest, heat::mean_own_heat(tank)).time_to(now.heat.water, time.limit);
    });
  return times;
}

}  // namespace

Emergency heater_stuck(const Case& now) {
  Emergency e;
  e.key = "heater_stuck", e.rank = 5;
  e.name = "Heater does not stop";
  e.sign = "The water is warmer than the set-point and the heater's light is on.";
  e.hold = temperature_times(heating_times(now), now, "No heater's power is on record. Take hours, not days: 100 W warm 200 litres by a degree in about two and a half hours, apart from the room.");
  e.steps = {"Pull the heater's plug. Wait ten minutes before it leaves the water: hot glass cracks.",
             {"Let the chiller cool back to {0}, no more than a degree an hour. Too much ice at once harms more than the warmth.", {now.heat.target}},
             "Strong air: warm water holds less oxygen. Do not feed.", "With animals in the tank a cold-water tank needs no heater: leave it out."};
  if (!has_animals(now)) e.steps.back() = "Without animals the warmth harms nobody; above 30 °C the filter suffers (common practice, no source).";
  e.measure = {"Temperature every half hour, with a second thermometer.", test_of(now, records::Quantity::oxygen), test_of(now, records::Quantity::total_ammonia)};
  e.call = {supplier_by_temperature(now)};
  e.cautions = {pull_the_plug()};
  e.sources = {"heat balance of this tank (docs/science/heat.md)"};
  return e;
}

}  // namespace redd::emergency::kinds
