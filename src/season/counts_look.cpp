#include "season/counts_look.h"

namespace redd::season {

Result<CountsLook> look_at_counts(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  return CountsLook{now, day->zone, day->season, inference::counts_of(day->records, day->belief, day->zone, now)};
}

}  // namespace redd::season
