// Handler of the season report.
#include "report/season_report_view.h"
#include "desk/asked.h"
#include "desk/handlers.h"
#include "wire/json.h"

namespace redd::desk {

Response season_report(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto found = season::look_at_report({asked->look->zone}, asked->look->records, asked->now);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"report", report::season_report_json(*found, call.reader)}}));
}

}  // namespace redd::desk
