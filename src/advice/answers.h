#pragma once
// What the keeper answered to advice: done, skipped, not now. An answer quiets a thing for a while; it never quiets an alarm.

#include <string_view>

#include "advice/situation.h"

namespace redd::advice {

/// Whether an answer to `answered` speaks of the action `key`: both are keys, or several joined by "+", and have one in common.
bool answers(std::string_view answered, std::string_view key);

/// The parts of both keys, each once, in order of the alphabet, joined by "+".
std::string joined_keys(std::string_view one, std::string_view other);

/// Takes out of `actions` what was answered and is not asked now, and returns it, each with its answer and the day it comes back.
///
/// An alarm for animals stays, whatever was answered, and carries the answer.
/// Done: back when somebody sees something new (a reading, count, failure or milestone logged after the answer and named in `because`), or after
///       `again`; then it carries the answer.
/// Skipped: what animals depend on and is to be acted on comes back the next day and carries the answer; the rest is let go this once: back when
///       something new is seen, or after a week.
/// Not now: back on the day given, else the next day; sooner when something new calls for action.
std::vector<Action> take_answered(const Situation& s, std::vector<Action>& actions);

}  // namespace redd::advice
