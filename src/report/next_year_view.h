#pragma once
// What this season teaches the next one, as JSON for the page and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/next_year.h"
#include "wire/json.h"

namespace redd::report {

/// NextYear of docs/openapi.json.
wire::Json next_year_json(const season::NextYear& look, const Reader& reader = {});

/// What `redd next-year` prints, wrapped to `width` columns.
std::string next_year_text(const season::NextYear& look, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
