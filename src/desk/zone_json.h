#pragma once
// Offsets of a time zone out of JSON, as a page makes them from its own calendar.

#include <string>

#include "quantities/result.h"
#include "quantities/time.h"
#include "wire/json.h"

namespace redd::desk {

/// In      {"name", "changes": [{"from": RFC 3339, "offset_seconds"}, …]}, oldest first.
/// Errors  not_a_zone, with the given field.
Result<ZoneOffsets> zone_from(const wire::Json& given, std::string field);

/// The instant under a key, if there is one.
std::optional<Instant> instant_in(const wire::Json& object, const char* key);

}  // namespace redd::desk
