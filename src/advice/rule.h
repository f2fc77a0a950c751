#pragma once
// What the files in advice/rules/ share.

#include <array>
#include <initializer_list>

#include "advice/situation.h"

namespace redd::advice {

/// The six tests of the weekly sitting.
inline constexpr std::array weekly_quantities{inference::Quantity::total_ammonia, inference::Quantity::nitrite, inference::Quantity::nitrate,
                                              inference::Quantity::ph,            inference::Quantity::alkalinity, inference::Quantity::hardness};

/// "today", "tomorrow" or the date.
Sentence by_text(const Situation& s, Date day);

/// A water change as an action: what, how much, the prediction, and the cautions that go with any change.
Action water_change_action(const Situation& s, planning::WaterChange change, Tone tone, Date by);

/// Whether fresh readings of this quantity contradict each other, so that a repeat comes first.
bool needs_repeat(const Situation& s, inference::Quantity quantity);

/// The change or, where that much would jump further than animals should bear or lift un-ionized ammonia past its mark, the most that does not; at least a tenth
/// of the tank. For changes that can be made in parts on different days.
planning::WaterChange bearable(const Situation& s, planning::WaterChange change);

/// Whether un-ionized ammonia reaches its mark only by what a doubted kit or contradicting readings add to the readings themselves.
bool only_by_doubt(const Situation& s);

/// The change this action asks for only if the repeat reads high too: nothing drastic on readings that can't all be right.
void await_repeat(const Situation& s, Action& change);

/// Longest put-off for a closed school while animals are in the tank: Good Friday to the Tuesday after Easter. Assumed.
inline constexpr std::chrono::days longest_wait{4};

/// The day itself when the school is open, else the next open one. Animals can't wait for the end of a long closure: then it stays
/// the day itself, and somebody has to come in.
Date open_day_from(const Situation& s, Date day);

/// Records of the readings behind a judgement and behind another, each once.
std::vector<records::RecordId> ids_of(std::initializer_list<const std::vector<records::RecordId>*> lists);

/// The record that set the season up or last changed it: the ground of what rests on a plan.
std::vector<records::RecordId> setup_records(const Situation& s);

/// The next day to ask for what need not be done today. Before a long closure animals can't wait out, that is today.
Date next_school_day(const Situation& s);

/// When the weekly sitting falls due: seven days after half of the six tests were last read; today without any.
Date next_weekly_test(const Situation& s);

/// The day for a sitting that falls due on `due`: by the class's habit where it has one; see by_habit(). While the school is closed: on one of the two open days before it, else up to four days
/// before (the last day before a break), else as soon after as the animals allow.
Date weekly_test_day(const Situation& s, Date due);

/// Why a sitting that falls due on `due` is planned for another day of the week; nothing when it is not.
std::optional<Reason> habit_reason(const Situation& s, Date due);

/// The readings that the judgement of the filter rests on most: the latest ammonia and nitrite; the set-up while there are none.
std::vector<records::RecordId> filter_readings(const Situation& s);

/// A quantity as part of a key: "nitrite", "ph".
std::string key_word(inference::Quantity quantity);

namespace rules {
#define REDD_ITEM(name) std::vector<Action> name(const Situation& situation);
#include "advice/rules_list.inc"
#undef REDD_ITEM
}  // namespace rules

}  // namespace redd::advice
