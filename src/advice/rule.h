#pragma once
// What the files in advice/rules/ share.

#include <array>

#include "advice/situation.h"

namespace redd::advice {

/// The six tests of the weekly sitting.
inline constexpr std::array weekly_quantities{inference::Quantity::total_ammonia, inference::Quantity::nitrite, inference::Quantity::nitrate,
                                              inference::Quantity::ph,            inference::Quantity::alkalinity, inference::Quantity::hardness};

/// "today", "tomorrow" or the date.
Sentence by_text(const Situation& s, Date day);

/// A water change as an action: what, how much, the prediction, and the cautions that go with any change.
Action water_change_action(const Situation& s, planning::WaterChange change, Tone tone, Date by);

/// The next weekday after a day; weekends are no school days. A calendar of closures refines this later.
Date next_weekday(Date day);
bool is_weekend(Date day);

/// When the weekly sitting falls due: seven days after the newest of the six tests; today without any.
Date next_weekly_test(const Situation& s);

namespace rules {
#define REDD_ITEM(name) std::vector<Action> name(const Situation& situation);
#include "advice/rules_list.inc"
#undef REDD_ITEM
}  // namespace rules

}  // namespace redd::advice
