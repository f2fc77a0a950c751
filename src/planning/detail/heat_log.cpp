#include "planning/detail/heat_log.h"

#include <algorithm>

namespace redd::planning::detail {
namespace {

using records::EquipmentEvent;
using records::Record;
using records::TemperatureReading;

struct At {
  Instant at;
  Temperature temperature;
  records::RecordId id;
};

std::vector<At> read_at(std::span<const Record> records, TemperatureReading::Place place) {
  std::vector<At> all;
  for (const Record& record : records)
    if (const auto* t = std::get_if<TemperatureReading>(&record.entry.body); t && t->place == place && (all.empty() || record.entry.at > all.back().at))
      all.push_back({record.entry.at, t->temperature, record.id});
  return all;
}

Hours between(Instant a, Instant b) { return b - a; }

std::optional<Temperature> room_at(const std::vector<At>& rooms, Instant at) {
  constexpr Hours near{1.0}, apart{6.0};
  const auto after = std::ranges::lower_bound(rooms, at, {}, &At::at);
  const At* next = after == rooms.end() ? nullptr : &*after;
  const At* before = after == rooms.begin() ? nullptr : &*std::prev(after);
  if (next && before && between(before->at, next->at) <= apart) {
    const double part = between(before->at, at) / between(before->at, next->at);
    return before->temperature + part * (next->temperature - before->temperature);
  }
  if (next && between(at, next->at) <= near) return next->temperature;
  if (before && between(before->at, at) <= near) return before->temperature;
  return std::nullopt;
}

bool changes_between(std::span<const Record> records, Instant from, Instant to) {
  return std::ranges::any_of(records, [&](const Record& record) {
    if (record.entry.at <= from || record.entry.at > to) return false;
    const auto* event = std::get_if<EquipmentEvent>(&record.entry.body);
    return std::holds_alternative<records::WaterChange>(record.entry.body) || std::holds_alternative<records::SetPoint>(record.entry.body) ||
           (event && event->event != EquipmentEvent::Event::serviced);
  });
}

/// Surely no heater at work while the chiller rests: the water is clearly colder than its room and not below its set-point. How hard a heater
/// works nobody writes down, so a stretch with one can't teach; taken for an idle one it would make a leaky tank look tight.
bool heater_rests(const heat::HeatReading& here, const heat::HeatReading& next, const std::optional<Temperature>& set, TemperatureChange band) {
  const auto clear = TemperatureChange::from_c(1.0);
  if (set && std::min(here.water, next.water) <= *set - 0.5 * band) return false;
  return here.water + clear < here.room && next.water + clear < next.room;
}

std::optional<Temperature> set_point_at(std::span<const Record> records, Instant at) {
  std::optional<Temperature> found;
  for (const Record& record : records)
    if (const auto* set = std::get_if<records::SetPoint>(&record.entry.body); set && record.entry.at <= at) found = set->temperature;
  return found;
}

}  // namespace

bool is_down(std::span<const Record> records, EquipmentEvent::Equipment which, Instant at) {
  bool down = false;
  for (const Record& record : records)
    if (const auto* event = std::get_if<EquipmentEvent>(&record.entry.body); event && event->equipment == which && record.entry.at <= at) {
      if (event->event == EquipmentEvent::Event::failed || event->event == EquipmentEvent::Event::switched_off) down = true;
      if (event->event == EquipmentEvent::Event::restored || event->event == EquipmentEvent::Event::switched_on) down = false;
    }
  return down;
}

HeatLog heat_log(std::span<const Record> records, const ZoneOffsets& zone, Instant now, const HeatLogSettings& settings) {
  using enum EquipmentEvent::Equipment;
  const auto tank = read_at(records, TemperatureReading::Place::tank), room = read_at(records, TemperatureReading::Place::room);
  std::vector<Record> acts;  // what may end a stretch; a logger's month holds hundreds of readings for each of these
  for (const Record& record : records)
    if (std::holds_alternative<EquipmentEvent>(record.entry.body) || std::holds_alternative<records::SetPoint>(record.entry.body) ||
        std::holds_alternative<records::WaterChange>(record.entry.body))
      acts.push_back(record);
  std::vector<std::pair<At, Temperature>> kept;
  for (const At& each : tank)
    if (each.at >= settings.since && each.at <= now)
      if (const auto room_then = room_at(room, each.at)) kept.emplace_back(each, *room_then);
  const auto lit_at = [&](Instant at) {
    const auto local = local_time(zone, at);
    const auto hour = std::chrono::floor<std::chrono::hours>(local - std::chrono::floor<std::chrono::days>(local)).count();
    return hour >= settings.tank.light_from_hour && hour < settings.tank.light_until_hour;
  };
  HeatLog log;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const At& here = kept[i].first;
    heat::HeatReading reading{.at = between(settings.since, here.at), .water = here.temperature, .room = kept[i].second, .chiller_share = std::nullopt,
                              .known_heat = Power::from_w(0.0)};
    const At* next = i + 1 < kept.size() ? &kept[i + 1].first : nullptr;
    const bool power = !is_down(acts, EquipmentEvent::Equipment::power, here.at);
    if (next && !changes_between(acts, here.at, next->at)) {
      const auto set = set_point_at(acts, here.at);
      heat::HeatReading after = reading;
      after.at = between(settings.since, next->at), after.water = next->temperature, after.room = kept[i + 1].second;
      if (!power || is_down(acts, chiller, here.at)) reading.chiller_share = 0.0;
      else if (set && settings.has_plate) reading.chiller_share = heat::with_chiller_from_set_point({reading, after}, {*set, settings.band}).front().chiller_share;
      const bool heater_works = power && settings.heater_possible && !is_down(acts, heater, here.at);
      if (heater_works && reading.chiller_share == 0.0 && !heater_rests(reading, after, set, settings.band)) reading.chiller_share.reset();
    }
    if (!power || is_down(acts, pump, here.at)) reading.known_heat = -1.0 * settings.tank.pump;
    if (next && power && !is_down(acts, light, here.at)) {  // the mean of the light at the hours of the stretch
      double lit = 0.0;
      constexpr int parts = 6;
      for (int part = 0; part < parts; ++part) {
        if (lit_at(here.at + std::chrono::duration_cast<std::chrono::seconds>((part + 0.5) / parts * between(here.at, next->at)))) lit += 1.0 / parts;
      }
      reading.known_heat = reading.known_heat + lit * settings.tank.light;
    }
    log.readings.push_back(reading);
    log.records.push_back(here.id);
  }
  return log;
}

}  // namespace redd::planning::detail
