#pragma once
// The temperature plan and its tasks as a calendar to take along.

#include <string>
#include <vector>

#include "report/ics.h"
#include "report/numbers.h"
#include "season/season.h"

namespace redd::report {

/// Egg day, each step of the chill and of the set-point, windows of hatch and first feeding, the permit's window, and a water test a week on
/// a school day while the plan runs. The same plan gives the same uids.
std::vector<IcsEvent> plan_events(const season::PlanView& view, const Reader& reader = {});

/// The same as an .ics text.
std::string plan_ics(const season::PlanView& view, const Reader& reader = {});

}  // namespace redd::report
