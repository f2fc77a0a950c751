// Food when it is due and not before: the first pinch, today's ration, and a gap that has grown too long. How much: planning/feed_plan.h.

#include <algorithm>

#include "advice/feed_holds.h"
#include "advice/rule.h"
#include "planning/feed_plan.h"

namespace redd::advice::rules {
namespace {

using planning::FeedPlan;
using planning::FeedStage;

std::optional<Instant> last_feeding(const Situation& s) {
  std::optional<Instant> last;
  for (const auto& record : s.records)
    if (std::holds_alternative<records::Feeding>(record.entry.body)) last = record.entry.at;
  return last;
}

Action feeding_action(const Situation& s) {
  Action a;
  a.rule = "feeding";
  a.beside_calm = true;
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 10;
  a.deeds = {Deed::feed};
  return a;
}

/// Food that nobody can eat yet.
std::vector<Action> too_early(const Situation& s, const FeedPlan& plan) {
  const auto last = last_feeding(s);
  constexpr double lately_days = 2.0, nobody = 0.05;
  if (!last || days_between(*last, s.now).count() > lately_days || plan.swum_up_fraction.high > nobody) return {};
  Action a = feeding_action(s);
  a.key = "feeding/too_early";
  a.deeds = {Deed::feed_less};
  a.tone = Tone::act;
  if (plan.swum_up_fraction.high < 0.01) a.benefit = {"What nobody eats becomes ammonia, in water where none can swim up yet."};
  else a.benefit = {"What nobody eats becomes ammonia, in water where at most {0} swim up yet.", {Share{plan.swum_up_fraction.high}}};
  a.concern = {"Food is in the tank before anything can eat it."};
  a.what = {"Take the food out again."};
  a.how_much = {"Vacuum it off the bottom; feed no more until about half swim up."};
  a.because.push_back({{"Food was logged and swim-up is expected around {0}; uneaten food becomes ammonia.", {biology::day_of(plan.swim_up.median)}}, plan.feedings});
  a.would_change_if.push_back({{"Swim-up seen and logged."}, {}});
  a.sources = {"first feeding at 50 to 90 % swim-up: published trout guides"};
  return {a};
}

Sentence how_it_is_given(const planning::Ration& r, const std::string& grain) {
  const Number wanted{r.feedings.wanted}, least{r.feedings.least};
  if (r.spoons) return {"{0} level spoons in all, {1} of {2}, in {3} small portions a day if you can and {4} at the least; stop when it is no longer taken at once.",
                        {Measured{*r.spoons}, r.planned, Word{grain}, wanted, least}};
  return {"{0} of {1}, in {2} small portions a day if you can and {3} at the least; stop when it is no longer taken at once. Weigh ten level spoons once, and it can be counted in spoons.",
          {r.planned, Word{grain}, wanted, least}};
}

std::vector<records::RecordId> ground(const Situation& s, const FeedPlan& plan) {
  std::vector<records::RecordId> ids = s.belief.brood.milestone_records;
  ids.insert(ids.end(), plan.alive.records.begin(), plan.alive.records.end());
  for (const auto& sample : plan.growth.samples) ids.push_back(sample.record);
  return ids;
}

void say_why(const Situation& s, const FeedPlan& plan, Action& a) {
  const planning::Ration& r = *plan.today_ration;
  a.because.push_back({{"About {0} fry of {1} to {2} in water at {3}: tables give {4} to {5} of their weight a day, a school's tank three fifths of it.",
                        {Number{static_cast<long long>(plan.alive.count.mid)}, r.fish.low, r.fish.high, r.water, Share{r.table_fraction_per_day.low}, Share{r.table_fraction_per_day.high}}},
                       ground(s, plan)});
  if (!r.in_table) a.because.push_back({{"This is outside the temperatures or sizes of the tables: go by what they take."}, {}});
  if (plan.cost.carried_share < 1.0)
    a.because.push_back({{"Held down from {0}: the filter may not carry more.", {r.wanted}}, {}});
  a.would_change_if.push_back({{"Fish weighed or measured, a count of the living, or the water warmer or colder."}, {}});
  a.cautions.push_back({"Take leftovers out within half an hour; what lies becomes ammonia."});
  a.cautions.push_back({"Test ammonia and nitrite twice a week in the first weeks of feeding."});
  a.sources = {"Iwama & Tautz 1981 (growth line); Leitritz & Lewis 1976 (chart)", "three fifths of the table in a school's tank: common practice, no source"};
}

void offer_a_pinch(const Situation& s, const FeedPlan& plan, Action& a) {
  a.key = "feeding/first_pinch";
  a.benefit = {"The first to swim up find food, and {0} are thought to have: unfed they starve in about four days.", {Share{plan.swum_up_fraction.mid}}};
  a.concern = {"About half swim up."};
  a.what = {"Offer a pinch of food and see who takes it."};
  a.how_much = {"A few grains of {0}, some times a day; all out again after half an hour. Log the food.", {Word{plan.grain}}};
  a.because.push_back({{"About {0} have swum up; every day's food begins when nine in ten have.", {Share{plan.swum_up_fraction.mid}}}, s.belief.brood.milestone_records});
  a.would_change_if.push_back({{"A count of those swimming up: log it."}, {}});
  a.cautions.push_back({"Food becomes ammonia: test twice a week when feeding starts."});
  a.sources = {"first feeding at 50 to 90 % swim-up: published trout guides"};
}

}  // namespace

std::vector<Action> feeding(const Situation& s) {
  const FeedPlan* plan = s.looks.feed;
  if (!plan) return {};
  if (plan->stage < FeedStage::pinch || !plan->today_ration) return too_early(s, *plan);
  const double share = fed_share(feed_holds(s));
  if (share <= 0.0 || plan->overfed) return {};  // not before the water is right: rules/feed_less.cpp, overfed.cpp
  Action a = feeding_action(s);
  const Instant begun = start_of_day(s.zone, plan->since.value_or(s.today()));
  const double unfed_days = days_between(plan->last_fed ? std::max(*plan->last_fed, begun) : begun, s.now).count();
  // Half a day more than may be missed: an afternoon's food and the next morning but one.
  const double gap_days = biology::longest_gap_days(plan->growth.now.low, plan->first_weeks) + 0.5;
  planning::Ration r = *plan->today_ration;
  r.planned = Mass::from_g(share * r.planned.g());
  if (r.spoons) *r.spoons *= share;
  if (unfed_days >= gap_days) {
    a.key = "feeding/gap";
    a.tone = Tone::act;
    a.concern = plan->last_fed ? Sentence{"No feeding is logged for days."} : Sentence{"They swim up and no feeding is logged."};
    a.what = share < 1.0 ? Sentence{"Feed half, and log it."} : Sentence{"Feed, and log it."};
    a.how_much = how_it_is_given(r, plan->grain);
    a.benefit = {"Fry whose yolk is gone starve in about four days."};
    a.because.push_back({{"Nothing has been logged as fed for {0}; {1} is the longest they should go without now.", {Days(unfed_days), Days(gap_days - 0.5)}}, s.belief.brood.milestone_records});
    say_why(s, *plan, a);
    a.would_change_if.push_back({{"A feeding that was given and not logged."}, {}});
    a.sources.push_back("unfed salmon fry starve in about 4 days after the yolk: Letcher & Terrick 2001");
    return {a};
  }
  if (plan->last_fed && local_day(s.zone, *plan->last_fed) == s.today()) return {};
  a.tone = Tone::watch;
  if (plan->stage == FeedStage::pinch) {
    offer_a_pinch(s, *plan, a);
    return {a};
  }
  a.key = "feeding/today";
  a.again = Days(1);
  a.benefit = {"Fry of this size should go without food for {0} at most.", {Days(gap_days - 0.5)}};
  a.concern = {"Today's food is not logged yet."};
  a.what = share < 1.0 ? Sentence{"Feed half of today's ration: {0}.", {r.planned}} : Sentence{"Feed today's ration: {0}.", {r.planned}};
  a.how_much = share < 1.0 ? Sentence{"Half of the usual, in small portions, only as much as is taken at once."} : how_it_is_given(r, plan->grain);
  say_why(s, *plan, a);
  return {a};
}

}  // namespace redd::advice::rules
