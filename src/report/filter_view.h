#pragma once
// The filter's outlook as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/season.h"
#include "wire/json.h"

namespace redd::report {

/// The first thing to say of the filter, in one sentence. In: a day with a filter.
std::string filter_sentence(const season::DayView& day, const Reader& reader);

/// FilterView of docs/openapi.json. Without an outlook: {"state": "absent", …} with a sentence that says why.
wire::Json filter_json(const season::DayView& day, const Reader& reader = {});

/// What `redd outlook` prints, wrapped to `width` columns.
std::string filter_text(const season::DayView& day, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
