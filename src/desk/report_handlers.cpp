// Handlers of the season report and of what it teaches the next year.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/next_year_view.h"
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

Response next_year(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto found = season::look_at_next_year({asked->look->zone}, asked->look->records, asked->now);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"next_year", report::next_year_json(*found, call.reader)}}));
}

}  // namespace redd::desk
