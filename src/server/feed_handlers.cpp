// Food and growth over HTTP.
#include "report/feed_view.h"
#include "season/feed_look.h"
#include "server/filter_keeper.h"
#include "server/handlers.h"
#include "wire/json.h"

namespace redd::server {

Response feed(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({Problem{"no_season", "", "There is no season yet. Set one up first."}});
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return refused(now.problems());
  // What the filter carries is taken in when it has been worked out; asking begins the work, and the answer does not wait for it.
  const auto filter = call.filter ? call.filter->ask(*look, *now) : FilterKeeper::Answer{};
  const auto found = season::look_at_feed({(*look)->zone}, (*look)->records, *now, filter.outlook.get());
  if (!found) return refused(found.problems());
  wire::Json answer = report::feed_json(*found);
  answer["filter_working"] = filter.state == FilterKeeper::State::working;
  return json_response(wire::printed(wire::Json{{"feed", std::move(answer)}}));
}

}  // namespace redd::server
