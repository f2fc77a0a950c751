#pragma once
// A what-if as JSON: its base, which the page keeps and hands back, and the answer to one place of the sliders. Start at what_if_base_json().

#include <array>

#include "planning/what_if.h"
#include "report/numbers.h"
#include "report/water_view.h"
#include "season/what_if_look.h"
#include "wire/json.h"

namespace redd::report {

/// The base with all that its answers are worded by.
struct WhatIfAsked {
  planning::WhatIfBase base;
  std::array<ShownQuantity, planning::what_if_line_count> shown{};
  bool doubted = false;  ///< as WhatIfLook
};
WhatIfAsked what_if_asked(const season::WhatIfLook& look);

/// {"asked": the base, to be handed back as it is; "days", "sliders": ranges and names; "filter_working", "cautions", "assumed", "rests_on"}.
wire::Json what_if_base_json(const season::WhatIfLook& look, const Reader& reader = {});

/// "asked" read back. Numbers are kept to the last bit.
///
/// Errors  not_a_base.
Result<WhatIfAsked> what_if_asked_from_json(const wire::Json& asked);
wire::Json json_from_what_if_asked(const WhatIfAsked& asked);

/// {"room_warmer_c", "set_point_warmer_c", "animals_factor", "food_factor", "weekly_change_fraction"}, any of them; all as planned where absent.
///
/// Errors  not_an_object, unknown_field, not_a_number; ranges are planning::what_if()'s to refuse.
Result<planning::WhatIfSliders> what_if_sliders_from_json(const wire::Json& sliders);

/// WhatIf of docs/openapi.json.
wire::Json what_if_json(const WhatIfAsked& asked, const planning::WhatIf& told, const Reader& reader = {});

}  // namespace redd::report
