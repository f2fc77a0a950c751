#pragma once
// The water over the coming weeks as it looked at a moment: the programme of changes, and what a proposed change would do. Start at look_at_water().

#include "planning/water_programme.h"
#include "planning/water_trial.h"
#include "season/season.h"

namespace redd::season {

struct WaterLook {
  DayView day{};  ///< believed, without advice
  std::optional<planning::WaterProgramme> programme{};  ///< nothing once the brood is released, or when a simulated tank came to no number
};

/// In      as look_at_day(). filter: of the same records and moment; without it the tanks are told by the last sittings alone.
/// Shape   some tens of milliseconds.
/// Errors  as look_at_day().
Result<WaterLook> look_at_water(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter = nullptr);

struct WaterTrial {
  DayView day{};
  planning::TriedWater tried{};
};

/// In      wished: as planning::try_change().
/// Errors  as look_at_day(); those of planning::try_change(); nothing_to_change once the brood is released.
Result<WaterTrial> try_water(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::ChangeWished& wished,
                             const planning::FilterOutlook* filter = nullptr);

/// Whether today's list speaks of the programme: not where no rule would (no animals now or within its weeks, water unread for long), so that nobody waits for
/// it; and not without the filter's outlook, so that advice does not change its mind when that arrives.
bool water_on_list(const DayView& day, const planning::FilterOutlook* filter);

/// The programme for today's advice; nothing where that does not speak of it.
std::optional<planning::WaterProgramme> water_programme_of(const DayView& day, const planning::FilterOutlook* filter);

}  // namespace redd::season
