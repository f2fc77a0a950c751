#pragma once
// The tank's heat as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/season.h"
#include "wire/json.h"

namespace redd::report {

/// HeatView of docs/openapi.json: numbers unrounded, each answer with its sentence.
wire::Json heat_json(const season::HeatLook& look, const Reader& reader = {});

/// What `redd heat` prints, wrapped to `width` columns.
std::string heat_text(const season::HeatLook& look, const Reader& reader = {}, int width = 80);

/// "6 hours (at the soonest 4, at the latest 9)"; "never" where no world crosses; says so where none is left, or perhaps none.
std::string hold_text(const planning::HoldSpan& span, const Reader& reader);

}  // namespace redd::report
