#pragma once
// The brood in numbers, as it looked at a moment.

#include "inference/counts.h"
#include "season/season.h"

namespace redd::season {

struct CountsLook {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  inference::Counts counts{};
};

/// In, errors  as look_at_day(). Before eggs have come the counts are empty and say so.
/// Shape   a few milliseconds beyond the belief.
Result<CountsLook> look_at_counts(const Setup& setup, std::span<const records::Record> records, Instant now);

}  // namespace redd::season
