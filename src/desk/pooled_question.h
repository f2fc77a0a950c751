#pragma once
// What the readings of several teams say together, asked of the core as JSON.

#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// In      request["pooled_readings"]: {"kit": a kit as wire reads one, "readings": [{"test", "form", "value"?, "upper_value"?, "team"?}, …],
///           at least one and at most 40, all of one quantity}.
/// Out     {"pooled_readings": report::pooled_json()} or {"problems": […]} with fields below "/pooled_readings".
wire::Json pooled_asked(const wire::Json& request, const report::Reader& reader = {});

}  // namespace redd::desk
