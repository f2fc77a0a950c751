#pragma once
// What the keeper answered to advice: done, skipped, not now. An answer quiets a thing for a while; it never quiets an alarm.

#include <string_view>

#include "advice/situation.h"

namespace redd::advice {

/// Whether an answer to `answered` (a key, or several joined by "+") answers `key`.
bool answers(std::string_view answered, std::string_view key);

/// Takes out of `actions` what was answered and is not asked now, and returns it, each with its answer and the day it comes back.
///
/// An alarm for animals stays, whatever was answered, and carries the answer.
/// Done: back when somebody sees something new (a reading, count, failure or milestone logged after the answer and named in `because`), or after
///       `again`; then it carries the answer.
/// Skipped: what animals depend on and is to be acted on comes back the next day and carries the answer; the rest is let go this once: back like done.
/// Not now: back on the day given, else the next day; sooner when something new calls for action.
std::vector<Action> take_answered(const Situation& s, std::vector<Action>& actions);

}  // namespace redd::advice
