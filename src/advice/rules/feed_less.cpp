// Less food, or none: while water or equipment is wrong, or when the filter would not carry the ration.

#include "advice/assess_filter.h"
#include "advice/feed_holds.h"
#include "advice/rule.h"
#include "planning/feed_plan.h"

namespace redd::advice::rules {
namespace {

Action less(const Situation& s) {
  Action a;
  a.rule = "feed_less";
  a.deeds = {Deed::feed_less};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 1;
  return a;
}

Action held(const Situation& s, const std::vector<FeedHold>& holds) {
  Action a = less(s);
  const bool none = fed_share(holds) <= 0.0;
  a.key = none ? "feed_less/none" : "feed_less/half";
  a.tone = none ? Tone::act : Tone::watch;
  a.concern = none ? Sentence{"Food would make it worse now."} : Sentence{"Half the food is enough for now."};
  a.what = none ? Sentence{"Do not feed until this is put right."} : Sentence{"Feed half until this is put right."};
  a.how_much = none ? Sentence{"No food; take out what lies there."} : Sentence{"Half a ration, in small portions."};
  const auto& load = s.looks.feed->cost.ammonia_mg_n_per_l_per_day;
  a.benefit = {"Food not given sets nothing free: a whole ration is {0} to {1} mg/L of ammonia nitrogen in a day.", {Measured{load.low}, Measured{load.high}}};
  for (const FeedHold& hold : holds) {
    if (none && hold.food != FeedHold::Food::none) continue;
    a.because.push_back({hold.why, hold.records});
    a.would_change_if.push_back({hold.until, {}});
  }
  constexpr double long_unfed_days = 2.0;
  const auto& last_fed = s.looks.feed->last_fed;
  if (const double unfed_days = last_fed ? days_between(*last_fed, s.now).count() : 0.0; none && unfed_days >= long_unfed_days)
    a.cautions.push_back({"Nothing is logged as fed for {0}, and fry without yolk starve in about four days: do not let the test wait. If nobody can test, ask the egg supplier or agency today.", {Days(unfed_days)}});
  else if (none && s.looks.feed->first_weeks) a.cautions.push_back({"Young fry starve in about four days: put it right today, so that they can be fed tomorrow."});
  a.sources = {"half or no food while water or filter is not right: common practice, no source"};
  return a;
}

}  // namespace

std::vector<Action> feed_less(const Situation& s) {
  const planning::FeedPlan* plan = s.looks.feed;
  if (!plan || plan->stage < planning::FeedStage::pinch || !plan->tomorrow) return {};
  if (const auto holds = feed_holds(s); !holds.empty()) return {held(s, holds)};
  const auto& cost = plan->cost;
  if (!s.filter || !cost.carried_probability || !cost.capacity_mg_n_per_l_per_day || *cost.carried_probability >= planning::carried_enough) return {};
  Action a = less(s);
  a.key = "feed_less/filter";
  a.tone = *cost.carried_probability < doubtful_probability && !leans_on_weak_ground(*s.filter) ? Tone::act : Tone::watch;
  a.concern = {"The filter may not carry tomorrow's food."};
  a.what = {"Feed {0} tomorrow instead of {1}.", {plan->tomorrow->planned, plan->tomorrow->wanted}};
  a.how_much = {"{0} of the ration, and test ammonia and nitrite the day after.", {Share{cost.carried_share}}};
  a.by = s.end_of(s.today() + std::chrono::days(1));
  a.by_text = {"tomorrow"};
  const auto& load = cost.ammonia_mg_n_per_l_per_day;
  const auto& capacity = *cost.capacity_mg_n_per_l_per_day;
  a.because.push_back({{"The whole ration sets free {0} to {1} mg N/L in a day; the filter is thought to turn over {2} at most: {3} that it carries it.",
                        {Measured{load.low}, Measured{load.high}, Measured{capacity.high}, Chance{*cost.carried_probability}}},
                       plan->feedings});
  if (cost.carried_share <= planning::least_share + 1e-9)
    a.cautions.push_back({"Even a third may be too much: change water rather than let fry go hungry."});
  a.benefit = {"With the whole ration the filter keeps up with {0}; what it leaves stays in the water.", {Chance{*cost.carried_probability}}};
  a.would_change_if.push_back({{"Ammonia and nitrite tested low on two days while they are fed."}, {}});
  a.sources = {"ammonia from food: Timmons & Ebeling 2007 (from memory) and trout handbooks; the filter's capacity from your own tests"};
  return {a};
}

}  // namespace redd::advice::rules
