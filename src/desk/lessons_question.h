#pragma once
// The lessons asked of the core as JSON, for the browser module and its tests.

#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// In      request["lessons"]: as day_from() takes it, and "sheet"?: 1 to lessons::most_sheets.
/// Out     {"lessons": LessonsView} or {"problems": […]}.
wire::Json lessons_asked(const wire::Json& request, const report::Reader& reader = {});

}  // namespace redd::desk
