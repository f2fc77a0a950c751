// The controller no longer stops the chiller: the tank goes towards freezing.

#include "emergency/holds.h"

namespace redd::emergency::kinds {
namespace {

/// The water is well below a set-point that has stood for a day, and the room is warmer than both: only the chiller can have done that.
bool logged(const Case& now) {
  const auto& heat = now.heat;
  if (!heat.water_measured || !heat.model.set_point_logged || heat.model.chiller_down) return false;
  const records::Record* newest = nullptr;
  for (const records::Record& record : now.records)
    if (std::holds_alternative<records::SetPoint>(record.entry.body) && record.entry.at <= now.now) newest = &record;
  if (!newest || now.now - newest->entry.at < std::chrono::hours(24)) return false;
  constexpr auto far_off = TemperatureChange::from_c(1.5);  // Assumed: half a degree beyond the band of an ordinary controller
  return heat.water + far_off < heat.model.set_point && heat.rooms.coldest > heat.model.set_point;
}

}  // namespace

Emergency chiller_stuck_on(const Case& now) {
  Emergency e;
  e.key = "chiller_stuck_on", e.rank = 4;
  e.name = "Chiller does not stop";
  e.sign = "The water is colder than the set-point and the chiller still runs.";
  e.now = logged(now);
  e.hold = temperature_times(now.heat.stuck_on, now,
                             "The chiller's cooling power is not on record. Take a weekend as enough: 250 W bring 200 litres from 8 °C to 1 °C in 28 hours (worked out, room at 21 °C).");
  e.steps = {"Pull the chiller's plug. Leave pumps and air running.",
             {"Let the water warm by itself, no more than a degree an hour, back to {0}. Add no warm water.", {now.heat.target}},
             "Check that the controller's probe hangs in the water and reads right; then set-point and switch.",
             "Leave the chiller off overnight rather than unwatched, unless the room would warm the tank beyond its limits."};
  e.measure = {"Temperature every half hour, with a second thermometer.", "Ice on the chiller's coil or pipes: then flow has stopped there."};
  e.call = {supplier_by_temperature(now), "Ring whoever services the chiller before it runs unwatched again."};
  e.cautions = {pull_the_plug(), "Sudden cold harms hatching eggs and alevins more than slow cold does: bring nothing back in a hurry."};
  e.sources = {"heat balance of this tank (docs/science/heat.md)", "sudden cooling near hatch: Peterson and others 1977 (abstract)"};
  return e;
}

}  // namespace redd::emergency::kinds
