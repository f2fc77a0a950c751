#pragma once
// The day as JSON: the contract between the core and every page. Each number comes with its ready-made text.

#include <string>

#include "report/numbers.h"
#include "season/season.h"

namespace redd::report {

/// DayView as one JSON object. Keys and meanings: docs/openapi.json, schema DayView.
std::string day_json(const season::DayView& day, const Reader& reader = {});

}  // namespace redd::report
