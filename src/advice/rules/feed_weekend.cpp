// Who feeds while the school is closed: asked while somebody can still be found.

#include <algorithm>

#include "advice/feed_holds.h"
#include "advice/rule.h"
#include "planning/fed_days.h"
#include "planning/feed_plan.h"

namespace redd::advice::rules {
namespace {

using std::chrono::days;

/// Days of the gap without anybody on duty.
std::vector<Date> uncovered(const planning::FeedGap& gap) {
  std::vector<Date> open;
  for (const auto& day : gap.days)
    if (day.on_duty.empty()) open.push_back(day.day);
  return open;
}

Sentence who_feeds(const std::vector<Date>& open) {
  if (open.size() == 1) return {"Arrange who feeds on {0}.", {open.front()}};
  if (open.size() == 2) return {"Arrange who feeds on {0} and {1}.", {open.front(), open.back()}};
  return {"Arrange who feeds from {0} to {1}.", {open.front(), open.back()}};
}

}  // namespace

std::vector<Action> feed_weekend(const Situation& s) {
  const planning::FeedPlan* plan = s.looks.feed;
  if (!plan) return {};
  constexpr days weekend_notice{4}, break_notice{14};
  for (const planning::FeedGap& gap : plan->gaps) {
    const bool is_break = static_cast<int>(gap.days.size()) >= planning::shortest_break_days;
    if (gap.covered || gap.from - s.today() > (is_break ? break_notice : weekend_notice)) continue;
    const auto last_open = s.school.last_open_day_before(gap.from);
    const Date by = std::max(s.today(), last_open.value_or(s.today()));
    Action a;
    a.rule = "feed_weekend";
    a.beside_calm = true;
    a.key = "feed_weekend/" + iso_from_date(gap.from);
    a.aim = Aim::deadline;
    a.deeds = {Deed::ask_for_help};
    a.tone = gap.first_weeks && by - s.today() <= days(1) ? Tone::act : Tone::watch;
    a.concern = {"Nobody is noted to feed while the school is closed."};
    a.what = who_feeds(uncovered(gap));
    const double share = fed_share(feed_holds(s));
    if (share >= 1.0) a.how_much = {"{0} a day, twice a day at the least; leave it weighed out, a day a pot.", {gap.a_day}};
    else if (share <= 0.0) a.how_much = {"No pots yet: nothing is fed until what holds food back is over; after that {0} a day, twice a day at the least.", {gap.a_day}};
    else a.how_much = {"{0} a day, half of the usual, twice a day at the least; leave it weighed out, a day a pot. Only when what holds food back is over, {1} a day again.", {Mass::from_g(share * gap.a_day.g()), gap.a_day}};
    a.by = s.end_of(by);
    a.by_text = by_text(s, by);
    a.benefit = gap.first_weeks ? Sentence{"Fry in their first three weeks of feeding should miss one day at most; unfed they starve in about four."}
                                : Sentence{"Fish of this size should miss {0} in a row at most.", {Days(gap.may_miss_days)}};
    a.because.push_back({{"The school is closed from {0} to {1}, and they may miss {2} at most.", {gap.from, gap.to, Days(gap.may_miss_days)}}, s.belief.brood.milestone_records});
    a.would_change_if.push_back({{"A duty logged for these days."}, {}});
    if (share < 1.0)
      a.cautions.push_back(share <= 0.0 ? Sentence{"Nothing is fed now, see the list: whoever comes feeds only once that is over."}
                                        : Sentence{"Only half is fed now, see the list: whoever comes gives half until that is over."});
    a.cautions.push_back({"No double ration before: what they cannot eat becomes ammonia with nobody there."});
    a.cautions.push_back({"No feeding blocks or slow-release food: they foul the water and fry do not find them. An automatic feeder only after a week's trial."});
    a.cautions.push_back({"Show whoever comes one portion, and write down whom to call."});
    a.sources = {"unfed salmon fry starve in about 4 days after the yolk: Letcher & Terrick 2001", "one day at most: common practice, no source"};
    return {a};  // the nearest; the next is asked for when this one is past
  }
  return {};
}

}  // namespace redd::advice::rules
