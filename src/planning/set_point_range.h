#pragma once
// Which water temperatures may be set: what the animals bear or like best, and what the equipment holds. The season's plan and the quick look at
// first feeding (feeding_break.h) both ask here, so that neither calls out of reach what the other sets. Start at borne_too().

#include <span>

#include "biology/species.h"
#include "planning/season_plan_question.h"

namespace redd::planning {

/// Both ends belong to it; empty when low > high.
struct SetPointRange {
  Temperature low = Temperature::from_c(-100.0), high = Temperature::from_c(100.0);
  bool empty() const { return low > high; }
  bool holds(Temperature t) const { return t >= low && t <= high; }
};

/// What equipment is taken to hold while nobody has described it and the room. Assumed: a school's chiller and heater.
inline constexpr SetPointRange usual_equipment{Temperature::from_c(4.0), Temperature::from_c(26.0)};

/// Neither looks farther than this beyond the latest likely swim-up: what would come later is not counted as met.
inline constexpr std::chrono::days planned_after_swim_up{60};

/// Eggs, whatever their age: a plan does not ask whether they are eyed.
biology::ThermalBand egg_band(const biology::SpeciesProfile& species);

/// Of the range what this stage bears too: within its red limits.
SetPointRange borne_too(const SetPointRange& range, const biology::ThermalBand& stage);
/// Of the range what this stage likes best too: its green band.
SetPointRange liked_too(const SetPointRange& range, const biology::ThermalBand& stage);
/// Of the range what the equipment holds on each of these days; on none of them, the usual equipment.
SetPointRange held_too(const SetPointRange& range, std::span<const PlanDay> days);

}  // namespace redd::planning
