// Handler of the loading; it says whether the filter's outlook is still being worked out.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/loading_view.h"
#include "wire/json.h"

namespace redd::desk {

Response loading(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto filter = filter_at_hand(call, *asked);
  const auto found = season::look_at_loading({asked->look->zone}, asked->look->records, asked->now, filter.outlook.get());
  if (!found) return refused(found.problems());
  wire::Json answer{{"loading", report::loading_json(*found, call.reader)}};
  answer["loading"]["filter"]["working"] = filter.state == FilterState::working;
  return json_response(wire::printed(answer));
}

}  // namespace redd::desk
