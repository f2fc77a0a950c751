#include "emergency/failures.h"

namespace redd::emergency {

bool keeps_alive(Equipment what) { return what == Equipment::chiller || what == Equipment::pump || what == Equipment::air || what == Equipment::power; }

std::map<Equipment, const records::Record*> open_failures(std::span<const records::Record> records) {
  using Event = records::EquipmentEvent::Event;
  std::map<Equipment, const records::Record*> failed;
  for (const auto& record : records) {
    const auto* e = std::get_if<records::EquipmentEvent>(&record.entry.body);
    if (!e) continue;
    if (e->event == Event::failed || (e->event == Event::switched_off && keeps_alive(e->equipment))) failed[e->equipment] = &record;
    else if (e->event != Event::serviced && e->event != Event::switched_off) failed.erase(e->equipment);
  }
  return failed;
}

std::string_view emergency_of(Equipment what) {
  switch (what) {
    case Equipment::power: return "power_cut";
    case Equipment::chiller: return "chiller_failed";
    case Equipment::pump:
    case Equipment::air: return "socket_tripped";
    case Equipment::heater:
    case Equipment::light:
    case Equipment::other: break;
  }
  return {};
}

}  // namespace redd::emergency
