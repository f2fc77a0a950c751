#pragma once
// Which action stands first. A keeper's order: what may kill, then what can't wait, then the rest by when it falls due.

#include "advice/situation.h"

namespace redd::advice {

/// Something to watch that is not asked for within a fortnight: it takes nothing away from a tank that is in order.
bool is_far(const Situation& s, const Action& a);

/// Sorts best first; equals keep their order.
///
/// Alarms, then what is to be acted on: animals before deadlines before lessons, then by the time it is due, then by what a minute of work
/// averts (stake over effort). What is only to be watched follows by when it is due (until tomorrow or the next school day; this week; later), and only
/// then by what it is for, so that a thing a month ahead never stands before one of tomorrow. What is in order comes after
/// it, and last what is_far().
void rank(const Situation& s, std::vector<Action>& actions);

}  // namespace redd::advice
