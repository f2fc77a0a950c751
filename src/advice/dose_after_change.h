#pragma once
// Bicarbonate beside a water change that brings KH itself: what the change lifts is not dosed too. Start at dose_only_the_rest().

#include "advice/situation.h"

namespace redd::advice {

/// A change due no later than this many days on is waited for with bicarbonate; while KH may be below the least for life, no later than the next school day.
/// Assumed: in a week a school's filter uses up a few tenths of a German degree.
inline constexpr std::chrono::days waited_for_change{7};

/// In      actions: merged, so that at most one asks for a change.
/// Out     where the change alone lifts KH to the filter's need the dose is gone, its reasons with the change; else it waits for the change and is for what is then
///         still missing. Untouched where the source's KH is not on record or the change does not lift KH.
void dose_only_the_rest(const Situation& s, std::vector<Action>& actions);

}  // namespace redd::advice
