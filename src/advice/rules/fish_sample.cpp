// A few fish weighed every other week: the ration follows their weight, and a class sees them grow.

#include "advice/feed_holds.h"
#include "advice/rule.h"
#include "planning/feed_plan.h"

namespace redd::advice::rules {

std::vector<Action> fish_sample(const Situation& s) {
  const planning::FeedPlan* plan = s.looks.feed;
  if (!plan || plan->stage != planning::FeedStage::routine || !plan->sample_due || *plan->sample_due > s.today() || !feed_holds(s).empty()) return {};
  Action a;
  a.rule = "fish_sample";
  a.beside_calm = true;
  a.aim = Aim::lesson;
  a.deeds = {Deed::count};
  a.tone = Tone::watch;
  a.concern = {"Nobody has weighed fish for two weeks."};
  a.what = {"Weigh some twenty fish together, or measure them."};
  a.how_much = {"A beaker of tank water on a scale that shows 0.01 g: note it before and after they go in. Or photograph them beside a ruler in a shallow dish. Cold water, wet hands, under a minute out of the tank."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 20;
  a.benefit = {"The ration follows their weight, now known as {0} to {1}: too much fouls the water, too little holds them back.", {plan->growth.now.low, plan->growth.now.high}};
  std::vector<records::RecordId> ids;
  for (const auto& sample : plan->growth.samples) ids.push_back(sample.record);
  a.because.push_back({{"They are thought to weigh {0} to {1} each; twenty weighed narrow that, and the ration with it.", {plan->growth.now.low, plan->growth.now.high}}, ids});
  a.would_change_if.push_back({{"A sample logged."}, {}});
  a.cautions.push_back({"Before feeding, not after. Not on a day with losses or bad water."});
  a.sources = {"every two weeks: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
