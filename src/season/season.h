#pragma once
// The whole path in one function: from the log to what a keeper is told. Read look_at_day() first; everything else hangs on it.

#include <span>
#include <vector>

#include "advice/advise.h"
#include "inference/belief.h"
#include "records/record.h"

namespace redd::season {

/// What the log itself does not hold.
struct Setup {
  ZoneOffsets zone{};  ///< the season's time zone, resolved at the rim
};

/// Everything a renderer may show. Page, report and command line see only this, so they can't disagree.
struct DayView {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  std::vector<records::Record> records{};  ///< effective: what counted and was known by now
  inference::Belief belief{};
  advice::Advice advice{};
};

/// The day as it looked at `now`: only records logged by then are used.
///
/// In      records: all of the log, in order of id.
/// Out     the same records and the same moment always give the same view.
/// Errors  no_season when none was set up by then.
Result<DayView> look_at_day(const Setup& setup, std::span<const records::Record> records, Instant now);

}  // namespace redd::season
