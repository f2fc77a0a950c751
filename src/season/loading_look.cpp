#include "season/loading_look.h"

#include <algorithm>

#include "season/day_looks.h"

namespace redd::season {

Result<LoadingLook> look_at_loading(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  const auto day = doubted_day(setup, log, now, filter);
  if (!day) return day.problems();
  LoadingLook look{now, day->zone, day->season, planning::loading_view({day->season, day->records, day->belief, filter, day->zone, now})};
  if (look.view.state != planning::LoadingView::State::in_tank) return look;
  const auto heat = planning::heat_view(planning::tank_heat(day->season, day->records, day->belief, day->zone, now), day->season, day->belief, day->zone, now);
  planning::ReserveCase reserve = planning::reserve_case(day->season, day->records, day->belief, heat, now);
  // Where nobody measured and the balance lies below what they should have, nothing is left to breathe down.
  const auto* row = look.view.today();
  if (row && reserve.start.support == Support::assumed && row->oxygen.mid < row->oxygen_limit)
    reserve.start = {std::min(reserve.start.low, row->oxygen.low), row->oxygen.mid, std::min(reserve.start.high, row->oxygen.high), Support::assumed};
  look.view.reserve = planning::oxygen_holds(reserve);
  return look;
}

}  // namespace redd::season
