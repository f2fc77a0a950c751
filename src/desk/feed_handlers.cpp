// Food and growth over HTTP.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/feed_view.h"
#include "season/feed_look.h"
#include "wire/json.h"

namespace redd::desk {

Response feed(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto filter = filter_at_hand(call, *asked);
  const auto found = season::look_at_feed({asked->look->zone}, asked->look->records, asked->now, filter.outlook.get());
  if (!found) return refused(found.problems());
  wire::Json answer = report::feed_json(*found, call.reader);
  answer["filter_working"] = filter.state == FilterState::working;
  return json_response(wire::printed(wire::Json{{"feed", std::move(answer)}}));
}

}  // namespace redd::desk
