#pragma once
// The day view asked of the core as JSON: the same look_at_day() the server uses, for the browser module and its tests.

#include "report/numbers.h"
#include "wire/json.h"

namespace redd::engine {

/// In      request["day"]: {"now": RFC 3339, "records": [record as wire::json_from_record() writes it, …],
///           "zone"?: {"name", "changes": [{"from": RFC 3339, "offset_seconds"}, …]}}; UTC without a zone.
/// Out     {"day": DayView} or {"problems": […]}.
wire::Json day_asked(const wire::Json& request, const report::Reader& reader);

}  // namespace redd::engine
