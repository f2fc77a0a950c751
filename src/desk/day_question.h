#pragma once
// The day view asked of the core as JSON: the same look_at_day() the server uses, for the browser module and its tests.

#include <string>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// A log and a moment, as a question brings them.
struct DayAsked {
  Instant now{};
  ZoneOffsets zone{};
  std::vector<records::Record> records{};
};

/// In      day: {"now": RFC 3339, "records": [record as wire::json_from_record() writes it, …],
///           "zone"?: {"name", "changes": [{"from": RFC 3339, "offset_seconds"}, …]}}; UTC without a zone. path: of `day` in the question.
/// Errors  not_a_day, not_a_zone; those of the records.
Result<DayAsked> day_from(const wire::Json& day, const std::string& path);

/// In      request["day"]: as day_from() takes it.
/// Out     {"day": DayView} or {"problems": […]}.
wire::Json day_asked(const wire::Json& request, const report::Reader& reader = {});

}  // namespace redd::desk
