#pragma once
// What a water change would do to every test, and the smallest one that reaches a goal. Start at predict_change().
// Version 1 looks at the moment of the change and the next day's return to the tank's own CO2; growth of ammonia between tests
// is not forecast yet.

#include <functional>
#include <map>
#include <optional>

#include "inference/belief.h"

namespace redd::planning {

/// Largest step a water change may make in the tank. Source  common hatchery practice (1 C/h), from memory.
inline constexpr TemperatureChange largest_step = TemperatureChange::from_c(1.0);
/// New water goes in as it is when it moves the tank by no more than this; else it is tempered first. Assumed: half of the step above.
inline constexpr TemperatureChange untempered_step = TemperatureChange::from_c(0.5);
/// Largest part changed at once with animals in the tank. Assumed: half; beyond it the old water's stability is lost.
inline constexpr double largest_fraction = 0.5;

struct WaterChange {
  double fraction = 0;
  Volume volume = Volume::from_l(0);
  std::optional<Mass> thiosulfate{};                 ///< when the source water's chlorine is known and not zero
  std::optional<Temperature> temper_to{};            ///< nothing: may go in at its own temperature
  Temperature tank_before = Temperature::from_c(0);
  Temperature tank_after = Temperature::from_c(0);
  std::map<inference::Quantity, Estimate<double>> before{};
  std::map<inference::Quantity, Estimate<double>> after{};  ///< pH: just mixed
  std::optional<Estimate<double>> ph_next_day{};            ///< back at the tank's own CO2, at least that of outdoor air
  std::optional<Estimate<double>> un_ionized_before{};      ///< mg N/L
  std::optional<Estimate<double>> un_ionized_after{};       ///< mg N/L, the worse of just mixed and next day
  std::vector<Sentence> notes{};                            ///< what is not known of the source water
};

/// What changing this part of the water would do.
///
/// In      fraction: 0-1.
/// Out     quantities the source water is silent about keep their high end and take full dilution as their low end.
WaterChange predict_change(const records::SeasonSetup& season, const inference::Belief& belief, double fraction);

/// The smallest change whose prediction meets the goal, from a tenth of the tank in steps of a twentieth (less is not worth the
/// stir); nothing when half the tank does not meet it.
std::optional<WaterChange> smallest_change(const records::SeasonSetup& season, const inference::Belief& belief,
                                           const std::function<bool(const WaterChange&)>& goal);

}  // namespace redd::planning
