// Something failed and nobody has logged that it works again.

#include <map>

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

using Equipment = records::EquipmentEvent::Equipment;

const char* name_of(Equipment e) {
  switch (e) {
    case Equipment::chiller: return "chiller";
    case Equipment::pump: return "pump";
    case Equipment::air: return "air pump";
    case Equipment::heater: return "heater";
    case Equipment::power: return "power";
    case Equipment::light: return "light";
    case Equipment::other: break;
  }
  return "equipment";
}

bool keeps_alive(Equipment e) { return e == Equipment::chiller || e == Equipment::pump || e == Equipment::air || e == Equipment::power; }

}  // namespace

std::vector<Action> equipment(const Situation& s) {
  std::map<Equipment, const records::Record*> failed;
  for (const auto& record : s.records)
    if (const auto* e = std::get_if<records::EquipmentEvent>(&record.entry.body)) {
      using Event = records::EquipmentEvent::Event;
      if (e->event == Event::failed || (e->event == Event::switched_off && keeps_alive(e->equipment))) failed[e->equipment] = &record;
      else if (e->event != Event::serviced && e->event != Event::switched_off) failed.erase(e->equipment);  // serviced does not say that it works
    }
  const bool animals = inference::has_animals(s.belief.brood.animals);
  std::vector<Action> actions;
  for (const auto& [what, record] : failed) {
    const bool vital = keeps_alive(what);
    const bool off = std::get<records::EquipmentEvent>(record->entry.body).event == records::EquipmentEvent::Event::switched_off;
    Action a;
    a.rule = "equipment";
    a.tone = animals && vital ? Tone::alarm : Tone::watch;
    const Word name{name_of(what)};
    a.concern = off ? Sentence{"Something vital is switched off: {0}.", {name}} : Sentence{"Something is broken: {0}.", {name}};
    a.what = {"Get the {0} working, or log that it works again.", {name}};
    a.how_much = what == Equipment::chiller ? Sentence{"Read the temperature now and every hour; float closed bottles of ice to slow the warming."}
                 : vital ? Sentence{"Flow past the eggs or fish first: pour or bubble by hand, then temperature, then the rest of the tank."}
                               : Sentence{"Check plug, socket and fuse."};
    a.by = s.end_of(s.today());
    a.by_text = animals && vital ? Sentence{"now"} : Sentence{"today"};
    a.effort_minutes = 20;
    a.because.push_back({off ? Sentence{"The {0} was logged as switched off {1} ago, and not as on again.", {name, days_between(record->entry.at, s.now)}}
                            : Sentence{"The {0} was logged as failed {1} ago, and not as restored.", {name, days_between(record->entry.at, s.now)}}, {record->id}});
    a.would_change_if.push_back({{"An equipment record that says restored or switched on."}, {record->id}});
    a.cautions.push_back({"A tripped safety socket trips for a reason: dry everything, unplug all, and call a licensed electrician if it trips again."});
    a.sources = {"order of measures: flow, temperature, oxygen of the whole tank (worked out for a still basket of alevins)"};
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
