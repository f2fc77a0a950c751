#include "season/feed_look.h"

#include <algorithm>

#include "advice/assess_filter.h"
#include "season/day_looks.h"

namespace redd::season {

Result<FeedLook> look_at_feed(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  const auto day = doubted_day(setup, log, now, filter);
  if (!day) return day.problems();
  FeedLook look{.now = now, .zone = day->zone, .season = day->season, .animals = day->belief.brood.animals};
  look.plan = planning::feed_plan(day->season, day->records, day->belief, records::SchoolCalendar(day->records), filter, day->zone, now);
  look.filter_known = filter != nullptr;
  look.filter_doubted = filter && advice::leans_on_weak_ground(*filter);
  if (look.plan && look.plan->stage >= planning::FeedStage::pinch) look.holds = advice::feed_holds(day->season, day->records, day->belief, day->zone, now);
  look.today_share = look.share_to_come = advice::fed_share(look.holds);
  if (look.plan && look.plan->overfed) {
    look.today_share = 0.0;
    look.share_to_come = std::min(look.share_to_come, 0.5);
  }
  return look;
}

}  // namespace redd::season
