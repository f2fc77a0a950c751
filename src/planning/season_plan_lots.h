#pragma once
// From what biology believes of the batch to the planner's lots. Start at planning_lots().

#include <span>
#include <vector>

#include "planning/season_plan_question.h"
#include "quantities/water.h"

namespace redd::planning {

/// How far the water to come may stand from its set-points, lastingly: one standard deviation. Assumed: as inference takes a plan.
inline constexpr TemperatureChange usual_doubt_to_come = TemperatureChange::from_c(0.7);

/// The planner's lots from biology::lots_to_go().
///
/// A lasting departure of the water to come is taken as a factor on the rate, the one it makes at `typical`: then every lot passes
/// a stage at its own point of one common clock, which is what makes the search exact. Against shifted temperatures the factor errs by
/// 1 % of the rate 2 C away from `typical` for a departure of 0.7 C.
///
/// In      typical: about the middle of the temperatures to come. doubt_to_come: one standard deviation, 0-3 C.
///         release_c_days: thermal units from swim-up to the size of release; 0 where release goes by swim-up.
///         release_log_sd: doubt of these between lots.
/// Errors  unknown_model, as biology::model_for().
Result<std::vector<Lot>> planning_lots(const biology::SpeciesProfile& species, const biology::ModelChoice& choice,
                                       std::span<const biology::LotToGo> lots, Temperature typical,
                                       TemperatureChange doubt_to_come = usual_doubt_to_come, double release_c_days = 0.0,
                                       double release_log_sd = 0.2);

/// Thermal units a fish needs to grow from one weight to another: W^(1/3) rises by GC/1000 a C-day.
/// In      weights > 0. growth_coefficient: 0.6-1.4, usually 1 (docs/science/planning.md).
/// Out     0 when the goal is reached already.
/// Source  [iwama1981], equation for W(t); for trout and salmon fed to satiation, below some 14 C.
double growth_c_days(Mass from, Mass to, double growth_coefficient = 1.0);

}  // namespace redd::planning
