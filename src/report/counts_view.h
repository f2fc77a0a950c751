#pragma once
// The brood in numbers as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/counts_look.h"
#include "wire/json.h"

namespace redd::report {

/// CountsView of docs/openapi.json: numbers unrounded, each with its text; sentences ready to show; lists in the order of show.
wire::Json counts_json(const season::CountsLook& look, const Reader& reader = {});

/// What `redd counts` prints, wrapped to `width` columns.
std::string counts_text(const season::CountsLook& look, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
