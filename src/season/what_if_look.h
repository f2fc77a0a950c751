#pragma once
// What a what-if starts from, as it looked at a moment. Start at look_at_what_if(); the sliders are planning/what_if.h.

#include "planning/what_if.h"
#include "season/season.h"

namespace redd::season {

struct WhatIfLook {
  DayView day{};                                ///< believed, without advice
  planning::WhatIfBase base;
  std::vector<Sentence> assumed{}, cautions{};  ///< of the base, whatever the sliders say
  Sentence rests_on{};
  bool usual_change_assumed = false;            ///< the season does not say it
  bool doubted = false;                         ///< ammonia, pH or nitrite was not tested lately, or a reading is in doubt: nothing is called good
  bool filter_working = false;                  ///< a narrower answer is on its way
};

/// In      as look_at_day(). filter: of the same records and moment; without it the tanks are told by the last sittings alone.
///         filter_working: it is still being worked out, which is then said.
/// Shape   some tens of milliseconds.
/// Errors  as look_at_day(); nothing_to_ask once the brood is released.
Result<WhatIfLook> look_at_what_if(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter = nullptr, bool filter_working = false);

}  // namespace redd::season
