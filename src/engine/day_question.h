#pragma once
// The day view asked of the core as JSON: the same look_at_day() the server uses, for the browser module and its tests.

#include <string>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"
#include "wire/json.h"

namespace redd::engine {

/// What a question about a season begins with: the log, the moment, the zone.
struct LogAtMoment {
  Instant now{};
  ZoneOffsets zone{};
  std::vector<records::Record> log{};
};

/// In      given: {"now": RFC 3339, "records": [record as wire::json_from_record() writes it, …],
///           "zone"?: {"name", "changes": [{"from": RFC 3339, "offset_seconds"}, …]}}; UTC without a zone. path: where it stands in the request.
/// Errors  not_a_day, not_a_zone, and those of reading a record.
Result<LogAtMoment> log_at_moment(const wire::Json& given, const std::string& path);

/// In      request["day"]: as log_at_moment() takes it.
/// Out     {"day": DayView} or {"problems": […]}.
wire::Json day_asked(const wire::Json& request);

}  // namespace redd::engine
