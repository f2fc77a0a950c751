#pragma once
// Emergencies as JSON, as text for a terminal, and all of them on one page to hang beside the tank.

#include <string>

#include "report/numbers.h"
#include "season/season.h"
#include "wire/json.h"

namespace redd::report {

/// EmergencyList of docs/openapi.json.
wire::Json emergencies_json(const season::EmergencyLook& look, const Reader& reader = {});
/// One row of it.
wire::Json emergency_json(const emergency::Emergency& one, const Reader& reader = {});

/// What `redd emergency` prints: every kind in two lines.
std::string emergencies_text(const season::EmergencyLook& look, const Reader& reader = {}, int width = 80);
/// What `redd emergency WHICH` prints.
std::string emergency_text(const emergency::Emergency& one, const Reader& reader = {}, int width = 80);
/// What `redd emergency --card` prints: this tank's numbers and the first three steps of each kind, with lines for telephone numbers.
std::string emergency_card(const season::EmergencyLook& look, const Reader& reader = {}, int width = 100);

}  // namespace redd::report
