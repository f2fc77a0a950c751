// Light over eggs and alevins that was switched on and not off again.

#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> light(const Situation& s) {
  using Event = records::EquipmentEvent::Event;
  using inference::Animals;
  const Animals animals = s.belief.brood.most_sensitive;
  if (!inference::has_animals(s.belief.brood.animals) || animals == Animals::fry) return {};
  const records::Record* on = nullptr;
  for (const auto& record : s.records) {
    const auto* e = std::get_if<records::EquipmentEvent>(&record.entry.body);
    if (!e || e->equipment != records::EquipmentEvent::Equipment::light || e->event == Event::serviced) continue;
    on = e->event == Event::switched_on ? &record : nullptr;
  }
  constexpr double look_days = 1.0 / 24.0;  // Assumed: a lesson's look is over within the hour
  if (!on || days_between(on->entry.at, s.now).count() < look_days) return {};
  Action a;
  a.rule = "light";
  a.beside_calm = true;
  a.deeds = {Deed::mend};
  a.again = Days(1);
  a.tone = Tone::watch;
  a.concern = {"The light is on over eggs or alevins."};
  a.what = {"Switch the light off and cover the tank."};
  a.how_much = {"Dark from the day the eggs come until they swim up; to look: under a minute, dim."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 2;
  a.benefit = {"Light over a bare floor malformed the yolk sacs of chum alevins and killed many; gravel or a cover spared them."};
  a.because.push_back({{"The light was logged as switched on {0} ago, and not as off again.", {days_between(on->entry.at, s.now)}}, {on->id}});
  a.would_change_if.push_back({{"A record that says the light is off."}, {on->id}});
  a.sources = {"Poon 1977", "Flamarique & Harrower 1999", "Piper et al. 1982 (no direct light on eggs)", "under a minute: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
