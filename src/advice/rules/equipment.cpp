// Something failed and nobody has logged that it works again.

#include <algorithm>

#include "advice/rule.h"
#include "emergency/holds.h"

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

const char* key_of(Equipment e) { return e == Equipment::air ? "air" : name_of(e); }

/// What to do first, and how long the first two things hold, by the emergency that this failure is; unchanged when there is none.
void begin_with(Action& a, const emergency::Emergency& e) {
  a.what = e.steps.front();
  std::string typed = e.key;
  std::ranges::replace(typed, '_', '-');
  const Word key{typed};
  a.how_much = e.steps.size() > 1 ? joined(e.steps[1], {"All steps: redd emergency {0}, or Emergency on the page.", {key}})
                                  : Sentence{"All steps: redd emergency {0}, or Emergency on the page.", {key}};
  const auto known = std::ranges::find_if(e.hold, [](const emergency::HoldTime& h) { return h.span && h.span->soonest; });
  if (known != e.hold.end())  // "already" is no gain: then the time it has been out says more
    if (const Sentence time = emergency::time_sentence(*known->span); !time.values.empty())
      a.benefit = joined(joined({"Uses the time there is:"}, known->what), time);
  int said = 0;
  for (const emergency::HoldTime& hold : e.hold) {
    if (!hold.span || !hold.span->soonest || said == 2) continue;
    const Sentence begun = joined("How long it holds:", hold.what);
    a.because.push_back({joined(begun, emergency::time_sentence(*hold.span)), a.because.front().records});
    ++said;
  }
  a.cautions = e.cautions;
  a.sources.insert(a.sources.end(), e.sources.begin(), e.sources.end());
}

/// Which emergency a failure is, by what else is known. A heater in water that is too warm and a chiller in water that is too cold run on; a pump or an
/// air pump that stopped alone is no tripped socket.
std::string_view emergency_here(const Situation& s, Equipment what, bool both_still) {
  constexpr double off_target_c = 1.5;  // Assumed: more than a controller's band and a thermometer's error
  const Temperature aim = s.belief.temperature.set_point.value_or(s.season.target);
  const double above_c = s.belief.temperature.latest ? (*s.belief.temperature.latest - aim).c() : 0.0;
  if (what == Equipment::heater && above_c > off_target_c) return "heater_stuck";
  if (what == Equipment::chiller && above_c < -off_target_c) return "chiller_stuck_on";
  if ((what == Equipment::pump || what == Equipment::air) && !both_still) return {};
  return emergency::emergency_of(what);
}

}  // namespace

std::vector<Action> equipment(const Situation& s) {
  const auto failed = emergency::open_failures(s.records);
  const bool animals = inference::has_animals(s.belief.brood.animals);
  std::vector<Action> actions;
  for (const auto& [what, record] : failed) {
    const std::string_view which = emergency_here(s, what, failed.contains(Equipment::pump) && failed.contains(Equipment::air));
    const bool vital = emergency::keeps_alive(what) || which == "heater_stuck";
    const bool flow = what == Equipment::pump || what == Equipment::air;
    const bool off = std::get<records::EquipmentEvent>(record->entry.body).event == records::EquipmentEvent::Event::switched_off;
    Action a;
    a.rule = "equipment";
    a.key = std::string("equipment/") + key_of(what);
    a.deeds = {Deed::mend};
    a.again = Days(1);
    if (animals && vital) a.stake = 0.8;  // Assumed: what stands still long enough is lost
    a.tone = animals && vital ? Tone::alarm : Tone::watch;
    const Word name{name_of(what)};
    a.concern = off ? Sentence{"Something vital is switched off: {0}.", {name}} : Sentence{"Something is broken: {0}.", {name}};
    a.what = flow && animals ? Sentence{"Keep water moving past the animals by hand: pour tank water gently through, or bubble air below them."}
                             : Sentence{"Get the {0} working, or log that it works again.", {name}};
    a.how_much = what == Equipment::chiller ? Sentence{"Read the temperature now and every hour; float closed bottles of ice to slow the warming."}
                 : flow && animals ? Sentence{"Every 15 minutes until the {0} runs again; then look at plug, intake and impeller, dry hands and unplugged.", {name}}
                 : vital ? Sentence{"Flow past the eggs or fish first: pour or bubble by hand, then temperature, then the rest of the tank."}
                               : Sentence{"Check plug, socket and fuse."};
    a.benefit = vital ? Sentence{"It has been without for {0}: flow, cold and oxygen run down from the moment it stops.", {days_between(record->entry.at, s.now)}}
                      : Sentence{"It has been out for {0}, and is missing the day it is needed.", {days_between(record->entry.at, s.now)}};
    a.by = s.end_of(s.today());
    a.by_text = animals && vital ? Sentence{"now"} : Sentence{"today"};
    a.effort_minutes = 20;
    a.because.push_back({off ? Sentence{"The {0} was logged as switched off {1} ago, and not as on again.", {name, days_between(record->entry.at, s.now)}}
                            : Sentence{"The {0} was logged as failed {1} ago, and not as restored.", {name, days_between(record->entry.at, s.now)}}, {record->id}});
    a.would_change_if.push_back({{"An equipment record that says restored or switched on."}, {record->id}});
    a.cautions.push_back({"A tripped safety socket trips for a reason: dry everything, unplug all, and call a licensed electrician if it trips again."});
    a.sources = {"order of measures: flow, temperature, oxygen of the whole tank (worked out for a still basket of alevins)"};
    if (const auto e = std::ranges::find(s.looks.emergencies, which, &emergency::Emergency::key); e != s.looks.emergencies.end()) begin_with(a, *e);
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
