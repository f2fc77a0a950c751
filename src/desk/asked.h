#pragma once
// What most questions begin with: the season as it is kept, and the moment asked about.

#include <memory>

#include "desk/routes.h"

namespace redd::desk {

struct Asked {
  std::shared_ptr<const Look> look;
  Instant now{};
};

/// Errors  what keeps the season from being read; no_season; a moment that is none.
Result<Asked> asked_of(const Call& call);

/// The filter's outlook of that moment when it is at hand. Asking begins to work it out; nobody waits for it here.
FilterAnswer filter_at_hand(const Call& call, const Asked& asked);

}  // namespace redd::desk
