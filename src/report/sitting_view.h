#pragma once
// A sitting of water tests as words and as JSON. Start at sitting_json(); sitting_text() is the same for a terminal.

#include <string>

#include "records/kit.h"
#include "report/numbers.h"
#include "sitting/timetable.h"
#include "wire/json.h"

namespace redd::report {

/// {"headline", "lasts_s", "lasts_text", "hands", "hands_on_s", "one_after_another_s"?, "one_after_another_text"?, "lasts_with_later_s"?,
///  "lasts_with_later_text"?, "switches", "shortest", "turns": [turn, …] by start, "later": [{"first", "then", "at_or_above", "printed",
///  "sentence"}, …], "remarks": [sentence, …], "safety": [sentence, …]}
///
/// A turn   {"test", "hands": 1 or 2, "starts_s", "ends_s", "starts_text", "ends_text", "sentence", "steps": [{"step", "do", "text", "assumed",
///           "count"?, "starts_s", "ends_s"}, …], "waits_until_s"?, "waits_until_text"?, "wait_step"?, "strip_of"?: key of the test whose dip starts it, "read_by_s"?, "read_by_text"?}; times from now, in
///           whole seconds, their texts as minutes and seconds. "step" counts as continue_from() does.
wire::Json sitting_json(const records::Kit& kit, const sitting::Timetable& table, int hands, const Reader& reader = {});
std::string sitting_text(const records::Kit& kit, const sitting::Timetable& table, int hands, const Reader& reader = {});

}  // namespace redd::report
