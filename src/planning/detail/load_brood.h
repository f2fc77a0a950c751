#pragma once
// The brood on each day to come, as a load is reckoned for it: how many, which stage, how heavy, how warm.

#include <optional>
#include <vector>

#include "inference/growth_belief.h"
#include "planning/animal_load.h"
#include "planning/loading.h"

namespace redd::planning {

struct LoadBrood {
  bool to_come = false;
  int count = 0;
  bool count_assumed = false;
  Date from{};                   ///< first day in the tank that is looked at
  std::optional<Date> hatch{}, swim_up_early{}, swim_up{}, swim_up_late{};  ///< half of the batch
  std::optional<inference::GrowthBelief> growth{};  ///< of a brood in the tank
};

/// Nothing when no eggs are planned, when they have been released, or when nobody knows their dates.
/// Shape   up to ten milliseconds for eggs still to come.
std::optional<LoadBrood> load_brood(const LoadingCase& now, Date today);

biology::LifeStage stage_on(const LoadBrood& brood, Date day);
tank::Stage load_stage(biology::LifeStage stage);
Estimate<double> each_g_on(const LoadingCase& now, const LoadBrood& brood, Date day);
/// As believed or planned; for eggs to come the season's target.
Temperature water_on(const LoadingCase& now, const LoadBrood& brood, Date day);

/// Wet mass of an egg or alevin, from the species' weight at swim-up: 0.6 and 0.8 of it.
/// Source  trout: egg 0.101 g, hatch 0.110 g, yolk gone 0.167 g, [from1991], Tables 1-2.
Estimate<double> unfed_g(biology::LifeStage stage, const inference::Belief& belief);

}  // namespace redd::planning
