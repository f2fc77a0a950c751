#include "desk/asked.h"

namespace redd::desk {

Result<Asked> asked_of(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return look.problems();
  if (!(*look)->season) return Problem{"no_season", "", "There is no season yet. Set one up first."};
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return now.problems();
  return Asked{*look, *now};
}

FilterAnswer filter_at_hand(const Call& call, const Asked& asked) {
  return call.filter ? call.filter->ask(asked.look, asked.now) : FilterAnswer{};
}

}  // namespace redd::desk
