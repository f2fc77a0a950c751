#pragma once
// The sentences of a what-if. For what_if_view.cpp.

#include <optional>
#include <string_view>
#include <vector>

#include "report/what_if_view.h"

namespace redd::report {

/// From here on a limit is called likely to be passed, and possibly. Assumed.
inline constexpr double what_if_likely = 0.5, what_if_possible = 0.1;

bool is_changed(const planning::WhatIfBase& base, const planning::WhatIfSliders& sliders);
Date day_at(const planning::WhatIfBase& base, double index);

/// What passing this limit means, as the head of a line: "Un-ionized ammonia above its limit".
Sentence limit_sentence(planning::WhatIfLimit limit);
std::optional<Sentence> when_sentence(const planning::WhatIfBase& base, const planning::WhatIfChance& chance);
/// "more", "less", "same" likely than as planned, by one chance in twenty at least; "unknown" where either cannot be said.
std::string_view standing_of(const planning::WhatIfChance& now, const planning::WhatIfChance& planned);
/// In      key: "hatch" or "swim_up".
Sentence date_sentence(std::string_view key, const planning::WhatIfBase& base, const planning::WhatIfWindow& now, const planning::WhatIfWindow& planned);

/// The result first: temperature, then the limit that is passed first, then the dates that move.
std::vector<Sentence> what_if_headline(const WhatIfAsked& asked, const planning::WhatIf& told);
/// What no number may be read without.
std::vector<Sentence> what_if_cautions(const WhatIfAsked& asked, const planning::WhatIf& told);
/// "unknown" rather than "good" while the tests are old.
std::string_view what_if_tone(const WhatIfAsked& asked, const planning::WhatIf& told);

}  // namespace redd::report
