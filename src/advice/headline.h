#pragma once
// The one sentence above everything. It agrees with the first action, and is never calmer than what still stands.

#include "advice/advise.h"

namespace redd::advice {

/// In      actions: ranked. put_aside: what was answered and is not asked now.
Headline headline_of(const Situation& s, const std::vector<Action>& actions, const std::vector<Action>& put_aside);

}  // namespace redd::advice
