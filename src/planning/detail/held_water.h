#pragma once
// What the log itself shows the equipment holding: readings that stood still for days with the chiller at work. Where it speaks, no
// reckoning from plates and dimensions may say otherwise.

#include <functional>
#include <optional>
#include <span>

#include "records/record.h"

namespace redd::planning {

/// Water held for days.
struct HeldWater {
  Temperature water;  ///< the warmest reading of those days
  Temperature room;   ///< the coldest the room was then
  bool room_read;     ///< by a thermometer, four times at least; else as the room is described
  Date from, until;
};

namespace detail {

/// The days that show most: those with the widest gap between room and water.
///
/// In      records: effective, in order of time. since: earlier readings were of another tank.
///         planned_coldest: coldest hour of the room on a day, for days without room readings; empty: nothing is known of the room then.
/// Out     nothing unless four readings over at least four days, none more than three days apart, did not rise by more than half a degree,
///         with chiller and power never logged as down: water that only drifts towards where it settles rises more than that.
///         Assumed: those numbers. A tank follows its room within one to four days.
std::optional<HeldWater> held_water(std::span<const records::Record> records, const ZoneOffsets& zone, Instant since, Instant now,
                                    const std::function<Temperature(Date)>& planned_coldest);

}  // namespace detail
}  // namespace redd::planning
