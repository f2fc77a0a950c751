#include "server/own_routes.h"

#include "assets/assets.h"

namespace redd::server {
namespace {

constexpr Route own[] = {
    {"POST", "/api/calendar/preview", preview_calendar, "What the school's calendar, or a list of days, would bring. Nothing is kept.", "as_of"},
    {"POST", "/api/calendar", keep_calendar, "Keeps the closures of the school's calendar once they are confirmed.", "as_of"},
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

Response description(const Call&) {
  const auto asset = assets::find_asset("docs/openapi.json");
  if (!asset) return refusal(404, "unknown_address", "", "This build carries no description.");
  Response response;
  response.packed_body = asset->text();
  return response;
}

}  // namespace redd::server
