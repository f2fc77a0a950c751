// Handler of the loading. The filter's outlook is taken when it is at hand; asking begins the work, and the answer says whether it was there.
#include "report/loading_view.h"
#include "server/handlers.h"
#include "wire/json.h"

namespace redd::server {

Response loading(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({Problem{"no_season", "", "There is no season yet. Set one up first."}});
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return refused(now.problems());
  const auto filter = call.filter ? call.filter->ask(*look, *now) : FilterKeeper::Answer{};
  const auto found = season::look_at_loading({(*look)->zone}, (*look)->records, *now, filter.outlook.get());
  if (!found) return refused(found.problems());
  wire::Json answer{{"loading", report::loading_json(*found)}};
  answer["loading"]["filter"]["working"] = filter.state == FilterKeeper::State::working;
  return json_response(wire::printed(answer));
}

}  // namespace redd::server
