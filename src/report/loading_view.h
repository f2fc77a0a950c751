#pragma once
// How many animals the tank carries, as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/loading_look.h"
#include "wire/json.h"

namespace redd::report {

/// LoadingView of docs/openapi.json: numbers unrounded, with text ready to show.
wire::Json loading_json(const season::LoadingLook& look, const Reader& reader = {});

/// What `redd loading` prints, wrapped to `width` columns.
std::string loading_text(const season::LoadingLook& look, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
