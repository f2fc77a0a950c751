#pragma once
// How long the oxygen lasts when pump and air stop: of a still basket, and of the whole tank with what comes in through its surface. Shared by emergencies and
// the loading, so that both tell the same hours. Start at tank_reserve().

#include "planning/life.h"
#include "planning/still_water.h"
#include "planning/heat_view.h"

namespace redd::planning {

/// Volume of water in a still egg basket. Assumed: a litre; no basket is on record.
inline constexpr double basket_l = 1.0;
/// Oxygen below which eggs and alevins suffer, and fish begin to. Assumed: common practice, no source; published limits are in docs/science/water.md.
inline constexpr double basket_limit_mg_per_l = 5.0, tank_limit_mg_per_l = 7.0;
/// Longer than this no hour is told: then scum, rot and bacteria decide and not the animals.
inline constexpr Hours longest_told{72.0};

struct ReserveCase {
  Life life = Life::none;
  int count = 0;
  Estimate<double> fry_g{0.1, 0.3, 1.0, Support::assumed};
  double hatched_fraction = 0.0;
  Temperature water;
  Temperature warmed;               ///< what it may have warmed to meanwhile, >= water
  Estimate<OxygenConc> start;       ///< when the flow stopped; see oxygen_at_first()
  double elevation_m = 0.0;
  double volume_l = 200.0;
  double depth_m = 0.4;             ///< volume by surface
};

/// The case of this moment.
/// In      records: effective. heat: of the same moment; gives the water, its depth, and how warm it may get.
ReserveCase reserve_case(const records::SeasonSetup& season, std::span<const records::Record> records, const inference::Belief& belief, const HeatView& heat, Instant now);

/// Oxygen when the flow stopped: as last read while that is not stale, never above saturation, the low end never above nine tenths of it; else full.
Estimate<OxygenConc> oxygen_at_first(const records::SeasonSetup& season, const inference::Belief& belief, Temperature water);

/// What the whole brood breathes at rest.
Estimate<double> use_at_rest_mg_o2_per_h(const ReserveCase& at, Temperature water);

/// A basket without flow until its water is down to a limit.
/// Source  what the brood breathes (life.h) from the water's own oxygen. Nothing comes in: see diffusing_mg_o2_per_h(). Soonest at 2.5 times the highest
///         use (stress, moulds and bacteria; common practice, no source: 2-3 times); latest at half the lowest use: some flow by warmth.
HoldSpan basket_reserve(const ReserveCase& at, OxygenConc limit = OxygenConc::from_mg_o2_per_l(basket_limit_mg_per_l));

/// The whole tank without air or flow until a limit.
/// Source  as above, with the surface. Soonest: none comes through it and the water has warmed; likely: twice the use and a poor surface; latest: the use
///         alone under a quiet one.
HoldSpan tank_reserve(const ReserveCase& at, OxygenConc limit = OxygenConc::from_mg_o2_per_l(tank_limit_mg_per_l));

/// Whether hours may be told: not beyond longest_told.
bool may_be_told(const HoldSpan& span);

/// Of the brood, the share that has hatched, by the forecast; none without one.
double hatched_fraction(const inference::Belief& belief);

}  // namespace redd::planning
