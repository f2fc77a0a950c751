#include "planning/set_point_range.h"

#include <algorithm>

namespace redd::planning {

biology::ThermalBand egg_band(const biology::SpeciesProfile& species) {
  const biology::ThermalBand &a = species.green_egg, &b = species.eyed_egg;
  return {std::max(a.red_below, b.red_below), std::max(a.green_low, b.green_low), std::min(a.green_high, b.green_high), std::min(a.red_above, b.red_above), a.source};
}

SetPointRange borne_too(const SetPointRange& range, const biology::ThermalBand& stage) {
  return {std::max(range.low, stage.red_below), std::min(range.high, stage.red_above)};
}

SetPointRange liked_too(const SetPointRange& range, const biology::ThermalBand& stage) {
  return {std::max(range.low, stage.green_low), std::min(range.high, stage.green_high)};
}

SetPointRange held_too(const SetPointRange& range, std::span<const PlanDay> days) {
  SetPointRange held = days.empty() ? SetPointRange{std::max(range.low, usual_equipment.low), std::min(range.high, usual_equipment.high)} : range;
  for (const PlanDay& day : days) held = {std::max(held.low, day.coldest), std::min(held.high, day.warmest)};
  return held;
}

}  // namespace redd::planning
