#pragma once
// The season report: for the school, the agency behind the permit and next year's keeper. As JSON for the page, as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/report_look.h"
#include "wire/json.h"

namespace redd::report {

/// SeasonReport of docs/openapi.json: every line ready to show, with the day and the record behind it.
wire::Json season_report_json(const season::ReportLook& look, const Reader& reader = {});

/// What `redd report` prints, wrapped to `width` columns.
std::string season_report_text(const season::ReportLook& look, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
