#include "desk/desk.h"

namespace redd::desk {

Instant Desk::written_at(const Look& look, Instant looked_at) const {
  if (!look.season || look.invented()) return looked_at;
  const auto present = moment(look, std::nullopt);
  require(present.has_value(), "Desk::written_at", "a season that is there has a present moment");
  return *present;
}

}  // namespace redd::desk
