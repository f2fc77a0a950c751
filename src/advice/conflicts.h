#pragma once
// Pieces of work that undo or endanger each other on one day. The lower ranked one is moved or taken into the other, and says why.

#include "advice/situation.h"
#include "planning/water_programme.h"

namespace redd::advice {

/// A change of this much, or more, is not made on the day the filter is cleaned.  Source  practice: never on the day of a big change (common practice, no
/// source). Assumed: what counts as big.
inline constexpr double big_change_fraction = 0.4;
/// A change of this much, or more, is kept apart from a new set-point.  Assumed: a quarter of the tank moves its temperature by itself.
inline constexpr double warming_change_fraction = 0.25;
/// Days between filter work and a big change. Assumed: common practice watches a cleaned filter for three days.
inline constexpr std::chrono::days filter_rest{3};

/// In      actions: ranked and merged.
/// Out     the same actions, those that clash with a higher ranked one (or with what was logged as done today) moved: `from` later, `by` at least that day,
///         `moved` saying why; or gone, their words among the other's cautions. What animals need at once is never moved to another day, only into order.
void resolve_conflicts(const Situation& s, std::vector<Action>& actions);

/// Days that filter work and set-points, asked or logged, keep free of larger changes: what resolve_conflicts() would move.
///
/// In      actions: as it leaves them.
std::vector<planning::AskedToday::Apart> kept_free(const Situation& s, const std::vector<Action>& actions);

}  // namespace redd::advice
