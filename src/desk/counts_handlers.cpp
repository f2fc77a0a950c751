// Handler of the brood in numbers.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/counts_view.h"
#include "wire/json.h"

namespace redd::desk {

Response counts(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto found = season::look_at_counts({asked->look->zone}, asked->look->records, asked->now);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"counts", report::counts_json(*found, call.reader)}}));
}

}  // namespace redd::desk
