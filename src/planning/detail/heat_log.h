#pragma once
// The log's temperatures of tank and room as the fit of the heat balance takes them, with what is surely known of the machines between
// them. What is not known ends a stretch: a wrong "the chiller stood still" would teach a wrong tank.

#include <optional>
#include <span>
#include <vector>

#include "heat/fit.h"
#include "records/record.h"

namespace redd::planning::detail {

/// Down from "failed" or "switched off" until "restored" or "switched on"; nothing was logged: working.
bool is_down(std::span<const records::Record> records, records::EquipmentEvent::Equipment which, Instant at);

struct HeatLogSettings {
  Instant since{};
  bool has_plate = false;                        ///< the chiller's power is on record: running above its band can be reckoned with
  bool heater_possible = true;                   ///< false: known that there is none
  TemperatureChange band = TemperatureChange::from_c(1.0);
  heat::TankHeat tank;                           ///< light by the hour, and the pump, which stops with the power
};

struct HeatLog {
  std::vector<heat::HeatReading> readings{};
  std::vector<records::RecordId> records{};
};

/// In      records: effective, in order of time.
/// Out     tank readings whose room is known: read within an hour, or between two room readings at most 6 h apart.
HeatLog heat_log(std::span<const records::Record> records, const ZoneOffsets& zone, Instant now, const HeatLogSettings& settings);

}  // namespace redd::planning::detail
