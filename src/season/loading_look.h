#pragma once
// How many animals the tank carries, as it looked at a moment; see planning/loading.h.

#include "planning/loading.h"
#include "season/season.h"

namespace redd::season {

struct LoadingLook {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  planning::LoadingView view{};  ///< with the hours of reserve
};

/// In      as look_at_day(); without a filter's outlook the answer says that ammonia can't be judged.
/// Shape   some tens of milliseconds, most of it for the tank's heat.
/// Errors  as look_at_day().
Result<LoadingLook> look_at_loading(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter = nullptr);

}  // namespace redd::season
