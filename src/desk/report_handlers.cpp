// Handler of the season report.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/season_report_view.h"
#include "wire/json.h"

namespace redd::desk {

Response season_report(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto found = season::look_at_report({asked->look->zone}, asked->look->records, asked->now);
  if (!found) return refused(found.problems());
  auto shown = report::season_report_json(*found, call.reader);
  for (const Phrase& doubt : doubts_of(*asked->look, call.desk.clock())) shown["doubt"].push_back(report::text_of(doubt, call.reader));
  return json_response(wire::printed(wire::Json{{"report", std::move(shown)}}));
}

}  // namespace redd::desk
