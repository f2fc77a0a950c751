// Handler of the brood in numbers.
#include "report/counts_view.h"
#include "server/handlers.h"
#include "wire/json.h"

namespace redd::server {

Response counts(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({Problem{"no_season", "", "There is no season yet. Set one up first."}});
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return refused(now.problems());
  const auto found = season::look_at_counts({(*look)->zone}, (*look)->records, *now);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"counts", report::counts_json(*found)}}));
}

}  // namespace redd::server
