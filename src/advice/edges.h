#pragma once
// How near to another answer today's advice stands: each reading of the latest sittings is moved by one step of its own card, a meter by its accuracy,
// the thermometer by half a degree, and the list is made again. Where another thing would then stand first, the first action says so.

#include <functional>

#include "advice/situation.h"

namespace redd::advice {

/// The ranked list of a situation.
using Ranked = std::function<std::vector<Action>(const Situation&)>;

/// Half a degree: what a school thermometer may be off.  Source  ice-point checks accept 0.5 C (food-safety practice).
inline constexpr TemperatureChange thermometer_step = TemperatureChange::from_c(0.5);

/// Adds to `would_change_if` of the first action what a neighbouring reading would make of it: another first action, or the same one more or less pressing;
/// with the readings' record ids.
///
/// In      ranked: makes the list that `actions` came from.
/// Shape   one list a different reading and direction, about twenty with six tests: everything but the moved belief is kept (the filter's outlook and
///         the other looks too, so that what they say is not seen to move).
void say_edges(const Situation& s, std::vector<Action>& actions, const Ranked& ranked);

/// The reading one step (drop, accuracy) up or down its test; nothing beyond either end, or when it is no step of its test.
std::optional<records::Reading> neighbour(const records::KitTest& test, const records::Reading& reading, bool up);

}  // namespace redd::advice
