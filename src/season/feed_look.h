#pragma once
// Food and growth as they looked at a moment: for `redd feed` and GET /api/feed. Start at look_at_feed().

#include "advice/feed_holds.h"
#include "planning/feed_plan.h"
#include "season/season.h"

namespace redd::season {

struct FeedLook {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  inference::Animals animals = inference::Animals::none;
  std::optional<planning::FeedPlan> plan{};   ///< nothing without animals whose dates can be foretold
  std::vector<advice::FeedHold> holds{};      ///< what stands against feeding now, the strictest first
  double today_share = 1.0;                   ///< of the planned food that these, and too much that was fed, leave for today: 1, 0.5 or 0
  double share_to_come = 1.0;                 ///< the same for tomorrow and for the pots of closed days, as long as nothing changes
  bool filter_known = false;                  ///< the filter's outlook was at hand
  bool filter_doubted = false;                ///< and is not to be leaned on for calm
};

/// In      as look_at_day().
/// Shape   some milliseconds beside the belief.
/// Errors  as look_at_day().
Result<FeedLook> look_at_feed(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter = nullptr);

}  // namespace redd::season
