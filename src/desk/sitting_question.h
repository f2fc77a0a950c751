#pragma once
// The timetable of a sitting of water tests asked of the core as JSON, before it begins and under way.

#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// In      request["bench_schedule"]: {"kit": a kit as wire reads one, "tests"?: [key, …], "hand_over"?: leave out
///           of "tests" what a low or high card leaves for later, "read"?: [{"test", "form", "value"?, "upper_value"?}, …] of this sitting, "hands"?: 1 or 2, "last_read"?: [{"quantity",
///           "value"}, …] in the program's own units, "hand_times"?: {"fill_seconds", "bottle_seconds", "drop_seconds", "titration_seconds",
///           "spoon_seconds", "mix_seconds", "read_seconds", "begin_seconds", "whole_test_seconds"}, each optional,
///           "state"?: {"begun": [{"test", "steps_done", "ended_ago_s"}, …], "hands_free_in_s"?: [{"seconds"}, …]}}.
///           With "state" the answer is for what is left, and its times count from now; name the "tests" then.
/// Out     {"bench_schedule": report::sitting_json(), with "due": [key, …] of "later" where "read" is given} or {"problems": […]} with fields below "/bench_schedule".
wire::Json sitting_asked(const wire::Json& request, const report::Reader& reader = {});

}  // namespace redd::desk
