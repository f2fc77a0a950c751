#pragma once
// What the log says is broken or off, and which emergency that is. Start at open_failures().

#include <map>
#include <span>
#include <string_view>

#include "records/record.h"

namespace redd::emergency {

using Equipment = records::EquipmentEvent::Equipment;

/// Flow, air, cold and what drives them: off by choice is as bad as broken.
bool keeps_alive(Equipment what);

/// The newest record of each thing that failed (or, where it keeps animals alive, was switched off) and was not logged as working since.
/// "Serviced" does not say that it works.
/// Out     pointers into `records`.
std::map<Equipment, const records::Record*> open_failures(std::span<const records::Record> records);

/// Key of the emergency that this failure is; empty for what is none.
std::string_view emergency_of(Equipment what);

}  // namespace redd::emergency
