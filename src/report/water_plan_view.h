#pragma once
// The water programme, and a proposed change, as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/water_look.h"
#include "wire/json.h"

namespace redd::report {

/// WaterPlan of docs/openapi.json: numbers in the unit of the keeper's cards, each with its text.
wire::Json water_plan_json(const season::WaterLook& look, const Reader& reader = {});
/// What `redd water` prints, wrapped to `width` columns.
std::string water_plan_text(const season::WaterLook& look, const Reader& reader = {}, int width = 80);

/// TriedWater of docs/openapi.json.
wire::Json tried_water_json(const season::WaterTrial& trial, const Reader& reader = {});
/// What `redd water --change` prints.
std::string tried_water_text(const season::WaterTrial& trial, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
