#pragma once
// What the page and the command line show of an action beside its words: its key, what it is for, when, and what became of it.

#include "report/numbers.h"
#include "season/season.h"
#include "wire/json.h"

namespace redd::report {

/// "animals", "deadline", "lesson"; "test", "change_water", …
std::string_view aim_key(advice::Aim aim);
std::string_view deed_key(advice::Deed deed);

/// "You skipped this on 3 Feb; the risk stays. …"; for what was put aside, when it comes back.
std::string answer_text(const advice::Action& action, const Reader& reader);

/// Adds {key, aim, deeds, from, from_text, benefit, moved_text, answer} to an action's JSON. from, moved_text and answer may be null;
/// answer: {answer, at, back, record_id, text}.
void add_advice_fields(wire::Json& out, const advice::Action& action, const Reader& reader);

/// [{key, tone, what, answer}] of what was answered and is not asked now.
wire::Json put_aside_json(const advice::Advice& advice, const Reader& reader);

}  // namespace redd::report
