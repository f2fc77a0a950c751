// The filter may not carry the brood once it eats: less food, fewer fry or more water, planned while there is time.

#include "advice/assess_filter.h"
#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> filter_load(const Situation& s) {
  if (!s.filter || s.belief.brood.animals == inference::Animals::released) return {};
  const planning::FilterOutlook& filter = *s.filter;
  const Tone tone = capacity_tone(filter);
  if (tone != Tone::watch && tone != Tone::act) return {};
  const bool animals = inference::has_animals(s.belief.brood.animals);
  const Date heaviest = local_day(s.zone, after_days(filter.begin, filter.outlook.coming_load_day + 0.5));
  constexpr std::chrono::days soon{14};
  Action a;
  a.rule = "filter_load";
  a.aim = animals ? Aim::animals : Aim::deadline;
  a.deeds = {Deed::plan};
  a.tone = tone == Tone::act && animals && heaviest - s.today() <= soon ? Tone::act : Tone::watch;
  a.concern = {"The filter may be too weak for what is coming."};
  a.what = animals ? Sentence{"Plan for less food, fewer fry or more water changes around {0}.", {heaviest}}
                   : Sentence{"Ripen the filter further, or plan for fewer eggs."};
  a.how_much = {"Keep the food within what the filter turns over: test ammonia and nitrite twice a week while the ration grows."};
  const Date day = next_weekly_test(s);
  a.by = s.end_of(std::max(day, s.today()));
  a.by_text = by_text(s, std::max(day, s.today()));
  a.effort_minutes = 10;
  const auto& capacity = filter.outlook.capacity_at_target_mg_n_per_l_per_day;
  a.benefit = {"The filter falls behind what the brood gives off around {1} with {0}; ammonia then rises every day.",
               {Chance{1.0 - filter.outlook.carries_coming_load_probability}, heaviest}};
  a.because.push_back({{"At {0} the filter of today could turn over {1} to {2} mg N/L a day; the plan asks for {3} around {4}: {5} that it carries it.",
                        {s.season.target, Measured{capacity.low}, Measured{capacity.high}, Measured{filter.outlook.coming_load_mg_n_per_l_per_day}, heaviest,
                         Chance{filter.outlook.carries_coming_load_probability}}}, filter_readings(s)});
  a.would_change_if.push_back({{"A test dose cleared within a day with the water already cold, before animals come."}, filter_readings(s)});
  a.cautions.push_back({"A filter grows with what it is fed, but slowly in the cold: raise the food step by step."});
  return {a};
}

}  // namespace redd::advice::rules
