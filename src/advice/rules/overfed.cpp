// Far more food than the tables allow: take it out before it rots, and know what is to come.

#include "advice/rule.h"
#include "planning/feed_plan.h"

namespace redd::advice::rules {

std::vector<Action> overfed(const Situation& s) {
  if (!s.looks.feed || !s.looks.feed->overfed) return {};
  const planning::Overfed& o = *s.looks.feed->overfed;
  Action a;
  a.rule = "overfed";
  a.tone = Tone::act;
  a.deeds = {Deed::feed_less, Deed::test};
  a.concern = {"Much more food went in than they can eat."};
  a.what = {"Siphon the uneaten food out now."};
  a.how_much = {"All that lies on the bottom, with the water it takes; no more food today, half a ration tomorrow, and test ammonia tomorrow and the day after."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 20;
  a.benefit = {"Left lying it sets free {0} to {1} mg N/L of ammonia within days; each part taken out is that part less.", {Measured{o.to_come_mg_n_per_l.low}, Measured{o.to_come_mg_n_per_l.high}}};
  a.because.push_back({{"{0} were logged on {1}; the higher table gives at most {2} a day for all of them.", {o.fed, o.day, o.most}}, o.records});
  a.would_change_if.push_back({{"An amount that was mistyped: correct that record."}, o.records});
  a.cautions.push_back({"Do not clean the filter on the same day: it has to carry what is left."});
  a.sources = {"protein at 16 % nitrogen, starter food about half protein: Hinshaw 1999", "leftovers out within half an hour: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
