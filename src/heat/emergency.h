#pragma once
// When power or chiller fail, and what a keeper can do by hand: how fast the tank drifts, what frozen bottles and foam buy, how much water
// may be changed. Start at outage_times(), ice_to_hold() and largest_water_change().

#include <optional>
#include <span>
#include <vector>

#include "heat/balance.h"

namespace redd::heat {

/// When a limit is crossed; nothing means never (the water settles before it).
struct CrossingTime {
  Temperature limit;
  std::optional<Hours> soonest, likely, latest;  ///< over the doubt of the conductance; plan by the soonest
};

/// Drift of the tank with the chiller dead, to each of the limits.
///
/// In      tank: pump and damp as they are in the failure (power cut: no pump heat). conductance: replaces the tank's.
///         side: whether a limit is too warm (crossed at or above it) or too cold (at or below).
/// Out     zero where the water is beyond the limit already.
/// Shape   one entry for each limit, in their order.
enum class LimitSide { too_warm, too_cold };
std::vector<CrossingTime> outage_times(const TankHeat& tank, const Estimate<Conductance>& conductance, LimitSide side, Temperature water,
                                       Temperature room, std::span<const Temperature> limits);

/// The same for a chiller that no longer stops: when each limit is reached from above.
std::vector<CrossingTime> stuck_on_times(const TankHeat& tank, const Estimate<Conductance>& conductance, const Chiller& chiller,
                                         Temperature water, Temperature room, std::span<const Temperature> limits);

/// Source  [openstax_physics2012], tables of latent heat and specific heat.
inline constexpr double ice_melting_j_per_g = 334.0;
inline constexpr double ice_j_per_g_k = 2.09;

/// Heat a gram of ice takes up until it is water of the tank's temperature.
/// In      ice at or below 0 C; water at or above.
double heat_taken_by_ice_j_per_g(Temperature ice, Temperature water);

/// Ice that brings the tank down by a change and then stands, melted and at tank temperature, in its bottle.
///
/// Out     at least; heat that comes in meanwhile needs its own, see ice_to_hold().
Mass ice_for_drop(Volume water, TemperatureChange drop, Temperature after, Temperature ice);

/// Ice that keeps the water at a temperature against a heat gain for a span.
/// Out     zero for a gain of zero or less.
Mass ice_to_hold(Power gain, Hours span, Temperature water, Temperature ice);

/// Time this much ice holds the water; nothing when nothing flows in (it holds by itself).
std::optional<Hours> hours_held_by_ice(Mass ice, Power gain, Temperature water, Temperature ice_at);

/// Temperature of water in which ice has melted, without heat from outside; nothing when not all of it melts.
std::optional<Temperature> after_melting(Mass water, Temperature water_at, Mass ice, Temperature ice_at);

/// Largest share of the water that may be changed at once so that the tank's temperature moves by no more than `most`.
/// Out     0-1; 1 when source and tank are no further apart than that.
double largest_water_change(Temperature tank, Temperature source, TemperatureChange most);

/// Temperature the new water must have (at least when it is colder, at most when warmer) for this share to move the tank by no more than `most`.
/// In      fraction above 0.
Temperature tempered_source(Temperature tank, Temperature source, double fraction, TemperatureChange most);

/// What insulating buys against buying a bigger chiller.
struct InsulationBuys {
  Power gain_before, gain_after;             ///< heat to remove at the set-point
  double duty_before, duty_after;            ///< of the chiller there is
  Energy saved_per_week;                     ///< electric; at full power where the set-point is not reached
  std::optional<Power> same_by_chiller;      ///< cooling at set-point a bigger chiller needs for duty_after without foam; nothing when no chilling is needed
  std::optional<Hours> outage_before, outage_after;  ///< to the limit, everything off; nothing: never
};
InsulationBuys insulation_buys(const TankHeat& before, Conductance insulated, const Chiller& chiller, Temperature set_point, Temperature room,
                               Temperature limit);

}  // namespace redd::heat
