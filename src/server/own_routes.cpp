#include "server/own_routes.h"

#include "assets/assets.h"
#include "desk/handlers.h"
#include "ledger/season_tables.h"

namespace redd::server {
namespace {

constexpr Route own[] = {
    {"POST", "/api/calendar/preview", preview_calendar, "What the school's calendar, or a list of days, would bring. Nothing is kept.", "as_of"},
    {"POST", "/api/calendar", keep_calendar, "Keeps the closures of the school's calendar once they are confirmed.", "as_of"},
    {"GET", "/api/copies", copies, "The copies of the season on this machine, each read through just now."},
    {"POST", "/api/copies", make_copy, "Makes one more copy of the season, now."},
    {"GET", "/api/export.zip", export_tables, "The whole season as CSV tables in a .zip: a Data Package with every column's unit and meaning."},
    {"GET", "/api/classroom", classroom_state, "Who asks, what they may do, and where the classroom finds this server."},
    {"POST", "/api/classroom/sign-in", sign_in, "Signs in with the keeper's passphrase or a bench code; the answer sets the session's cookie."},
    {"POST", "/api/classroom/sign-out", sign_out, "Ends the session that asks."},
    {"GET", "/api/classroom/access", access, "Sessions and bench codes that are open now."},
    {"POST", "/api/classroom/codes", make_code, "Makes a bench code: for a short while a team may look at the bench and add readings with it."},
    {"POST", "/api/classroom/codes/{id}/end", end_code, "Ends a bench code and every session that began with it."},
    {"POST", "/api/classroom/sessions/{id}/end", end_session, "Ends one session."},
    {"POST", "/api/classroom/end-all", end_all, "Ends every bench code and every session but the one that asks."},
    {"GET", "/api/audit", audit, "Who did what and when, newest first: records, sign-ins, codes.", "limit before"},
    {"POST", "/api/table/preview", preview_table, "What a table, a logger's or a log kept by hand, would bring, and what each column was taken for. Nothing is kept.", "as_of"},
    {"POST", "/api/table", keep_table, "Keeps what a table brings once it is confirmed.", "as_of"},
    {"GET", "/api/thermometer", thermometer, "How the live thermometer stands, and what alarms."},
    {"POST", "/api/thermometer/quiet", quiet_thermometer, "Somebody knows of all that alarms now: it shows, and calls no more until it ends."},
    {"POST", "/api/thermometer/try", try_thermometer, "Sends a test alarm on every way that is set up, and says what became of it."},
    {"GET", "/api/openapi.json", description, "This description."},
};

}  // namespace

std::vector<Route> routes() {
  std::vector<Route> all(desk::routes().begin(), desk::routes().end());
  all.insert(all.end(), std::begin(own), std::end(own));
  return all;
}

Response export_tables(const Call& call) {
  const auto look = desk::whole_season(call);
  if (!look) return desk::refused(look.problems());
  Response response;
  response.content_type = "application/zip";
  response.body = ledger::stored_zip(ledger::season_tables((*look)->records));
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"redd-season-tables.zip\"");
  return response;
}

Response description(const Call&) {
  const auto asset = assets::find_asset("docs/openapi.json");
  if (!asset) return refusal(404, "unknown_address", "", "This build carries no description.");
  Response response;
  response.packed_body = asset->text();
  return response;
}

}  // namespace redd::server
