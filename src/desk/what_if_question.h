#pragma once
// What-ifs asked of the core as JSON: the base once, then one question for each place of the sliders.

#include "report/what_if_view.h"
#include "wire/json.h"

namespace redd::desk {

/// In      request["what_if_base"]: as {"day": …} is asked (desk/day_question.h).
/// Out     {"what_if_base": WhatIfBase of docs/openapi.json} or {"problems": […]}.
wire::Json what_if_base_asked(const wire::Json& request, const report::Reader& reader = {});

/// In      request["what_if"]: {"base": "asked" of a base, "sliders": {…}}.
/// Out     {"what_if": WhatIf of docs/openapi.json} or {"problems": […]}.
wire::Json what_if_asked(const wire::Json& request, const report::Reader& reader = {});

/// The same from a base that is at hand.
wire::Json what_if_answered(const report::WhatIfAsked& asked, const wire::Json& sliders, const report::Reader& reader = {});

}  // namespace redd::desk
