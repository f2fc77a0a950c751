#include "server/own_routes.h"

#include "assets/assets.h"

namespace redd::server {
namespace {

constexpr Route own[] = {
    {"POST", "/api/calendar/preview", preview_calendar, "What the school's calendar, or a list of days, would bring. Nothing is kept.", "as_of"},
    {"POST", "/api/calendar", keep_calendar, "Keeps the closures of the school's calendar once they are confirmed.", "as_of"},
    {"GET", "/api/copies", copies, "The copies of the season on this machine, each read through just now."},
    {"POST", "/api/copies", make_copy, "Makes one more copy of the season, now."},
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
