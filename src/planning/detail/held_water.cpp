#include "planning/detail/held_water.h"

#include <algorithm>
#include <vector>

#include "planning/detail/heat_log.h"

namespace redd::planning::detail {
namespace {

using records::EquipmentEvent;
using records::Record;
using records::TemperatureReading;

constexpr std::chrono::hours shortest_stand{96}, longest_gap{72};
constexpr std::size_t fewest_readings = 4;
constexpr auto stood_still = TemperatureChange::from_c(0.5);

struct At {
  Instant at;
  Temperature temperature;
};

std::vector<At> read_between(std::span<const Record> records, TemperatureReading::Place place, Instant from, Instant to) {
  std::vector<At> all;
  for (const Record& record : records)
    if (const auto* t = std::get_if<TemperatureReading>(&record.entry.body); t && t->place == place && record.entry.at >= from && record.entry.at <= to)
      all.push_back({record.entry.at, t->temperature});
  return all;
}

bool always_up(std::span<const Record> acts, Instant from, Instant to) {
  using enum EquipmentEvent::Equipment;
  if (is_down(acts, chiller, from) || is_down(acts, power, from)) return false;
  return std::ranges::none_of(acts, [&](const Record& record) {
    const auto& event = std::get<EquipmentEvent>(record.entry.body);
    return record.entry.at > from && record.entry.at <= to && (event.equipment == chiller || event.equipment == power) &&
           (event.event == EquipmentEvent::Event::failed || event.event == EquipmentEvent::Event::switched_off);
  });
}

bool without_gaps(std::span<const At> stand) {
  for (std::size_t i = 1; i < stand.size(); ++i)
    if (stand[i].at - stand[i - 1].at > longest_gap) return false;
  return true;
}

struct Room {
  Temperature coldest;
  bool read;
};

/// Read in those days where it was, else as planned.
std::optional<Room> coldest_room(const std::vector<At>& rooms, const ZoneOffsets& zone, Instant from, Instant to, const std::function<Temperature(Date)>& planned_coldest) {
  std::vector<Temperature> read, planned;
  for (const At& room : rooms)
    if (room.at >= from && room.at <= to) read.push_back(room.temperature);
  if (read.size() >= fewest_readings) return Room{std::ranges::min(read), true};
  if (!planned_coldest) return std::nullopt;
  for (Date day = local_day(zone, from); day <= local_day(zone, to); day += std::chrono::days(1)) planned.push_back(planned_coldest(day));
  return Room{std::ranges::min(planned), false};
}

}  // namespace

std::optional<HeldWater> held_water(std::span<const Record> records, const ZoneOffsets& zone, Instant since, Instant now,
                                    const std::function<Temperature(Date)>& planned_coldest) {
  const auto tank = read_between(records, TemperatureReading::Place::tank, since, now), rooms = read_between(records, TemperatureReading::Place::room, since, now);
  std::vector<Record> acts;
  for (const Record& record : records)
    if (std::holds_alternative<EquipmentEvent>(record.entry.body)) acts.push_back(record);
  std::optional<HeldWater> best;
  std::size_t first = 0;
  for (std::size_t last = 0; last < tank.size(); ++last) {
    while (first + 1 < last && tank[last].at - tank[first + 1].at >= shortest_stand) ++first;
    const std::span stand(tank.data() + first, last - first + 1);
    const Instant from = stand.front().at, to = stand.back().at;
    if (to - from < shortest_stand || stand.size() < fewest_readings || stand.back().temperature > stand.front().temperature + stood_still) continue;
    const Temperature warmest = std::ranges::max(stand, {}, &At::temperature).temperature;
    if (!without_gaps(stand) || !always_up(acts, from, to)) continue;
    const auto room = coldest_room(rooms, zone, from, to, planned_coldest);
    if (!room || room->coldest <= warmest) continue;
    if (!best || room->coldest - warmest > best->room - best->water) best = HeldWater{warmest, room->coldest, room->read, local_day(zone, from), local_day(zone, to)};
  }
  return best;
}

}  // namespace redd::planning::detail
