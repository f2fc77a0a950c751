#pragma once
// The three kinds of charts, each from the view that words it.

#include "print/chart.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::print {

/// In      water: one entry of DayView.water; the axis of days is set already.
Chart water_chart(Chart chart, const wire::Json& water, const ZoneOffsets& zone, const report::Reader& reader);
/// In      line: DayView.season_line; today: the last day that is drawn.
Chart temperature_chart(Chart chart, const wire::Json& line, const report::Reader& reader);
/// In      counts: CountsView.
Chart survival_chart(Chart chart, const wire::Json& counts, const report::Reader& reader);
Chart losses_chart(Chart chart, const wire::Json& counts, const report::Reader& reader);

}  // namespace redd::print
