#pragma once
// The temperature plan as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/season.h"
#include "wire/json.h"

namespace redd::report {

/// PlanView of docs/openapi.json.
wire::Json plan_json(const season::PlanView& view, const Reader& reader = {});

/// One plan alone, as a row of plan_json()'s "plans"; for what was tried in the plan's place.
wire::Json tried_plan_json(const planning::PlanAnswer& answer, const season::PlanView& view, const Reader& reader = {});

/// What `redd plan` prints, wrapped to `width` columns.
std::string plan_text(const season::PlanView& view, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
