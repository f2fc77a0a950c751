// Handlers that show the season's copies and make one more.
#include "desk/handlers.h"
#include "report/numbers.h"
#include "server/found_copies.h"
#include "server/own_routes.h"
#include "server/visit.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using wire::Json;

/// In      zone: the school's.
Json json_of(const FoundCopy& found, const ZoneOffsets& zone, const report::Reader& reader) {
  return {{"number", found.copy.number},
          {"made_at", rfc3339_from_instant(found.copy.made_at)},
          {"made_text", report::date_text(local_day(zone, found.copy.made_at), reader) + ", " + report::time_text(zone, found.copy.made_at)},
          {"why", logbook::word_of(found.copy.why)},
          {"why_text", report::text_of(why_text(found.copy.why), reader)},
          {"records", found.records ? Json(*found.records) : Json(nullptr)},
          {"state", word_of(found.state)},
          {"state_text", report::text_of(found.said, reader)}};
}

Response all_copies(const Call& call, int status) {
  const auto look = call.desk.look();
  if (!look) return desk::refused(look.problems());
  const auto copies = found_copies(visit_of(call).season.file());
  if (!copies) return desk::refused(copies.problems());
  Json list = Json::array();
  for (const FoundCopy& found : *copies) list.push_back(json_of(found, (*look)->zone, call.reader));
  return json_response(wire::printed(Json{{"copies", std::move(list)}, {"season", visit_of(call).season.file().filename().string()}}), status);
}

}  // namespace

Response copies(const Call& call) {
  if (visit_of(call).season.is_demo()) return desk::refused({no_copies_of_the_demo()});
  return all_copies(call, 200);
}

Response make_copy(const Call& call) {
  const auto made = visit_of(call).season.keep_copy(logbook::Why::by_hand);
  if (!made) return desk::refused(made.problems());
  return all_copies(call, 201);
}

}  // namespace redd::server
