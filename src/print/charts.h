#pragma once
// The charts of a season, by name: the water's readings with limits, the temperature, the brood. Start at chart_of().
// What is drawn are the numbers and words of report/day_json.h and report/counts_view.h; nothing is worked out here.

#include <optional>
#include <span>
#include <string_view>

#include "print/chart.h"
#include "quantities/result.h"
#include "report/numbers.h"
#include "season/counts_look.h"
#include "season/season.h"

namespace redd::print {

/// "temperature", "survival", "losses", then one for each test of the water.
std::span<const std::string_view> chart_names();

/// One chart, of the whole season until the moment that is looked at.
///
/// In      name: one of chart_names(). day and counts: of one moment. from: where the drawing begins; else with the season.
/// Out     a chart without anything to draw says so in `empty`.
/// Errors  no_such_chart, with the names there are.
Result<Chart> chart_of(std::string_view name, const season::DayView& day, const season::CountsLook& counts, const report::Reader& reader, std::optional<Date> from = std::nullopt);

}  // namespace redd::print
