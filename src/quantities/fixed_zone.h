#pragma once
// Time zones that never change, written as an offset: they need no zone file.

#include <optional>
#include <string_view>

#include "quantities/time.h"

namespace redd {

/// A zone that never changes: "UTC", "UTC-07:00", "UTC+5", "GMT+01:00", "+01:00". Nothing when the text is not of that form.
std::optional<ZoneOffsets> fixed_zone(std::string_view text);

}  // namespace redd
