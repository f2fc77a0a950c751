#include "server/app.h"

#include "server/guard.h"
#include "server/own_routes.h"
#include "server/page_files.h"
#include "server/single_file.h"

namespace redd::server {

Response App::handle(const Request& request) const {
  Response response = answer(request);
  add_safety_headers(response);
  return response;
}

Response App::answer(const Request& request) const {
  if (auto refused = refused_by_guard(request)) return *refused;
  static const std::vector<Route> table = routes();
  if (auto answered = desk::answer_by(table, request, desk_, filter_, plans_)) return *answered;
  const bool is_api = request.path == "/api" || request.path.starts_with("/api/");
  if (is_api)
    return refusal(404, "unknown_address", "",
                   "There is nothing at this address. GET /api/openapi.json lists what there is.");
  const bool only_looks = request.method == "GET" || request.method == "HEAD";
  if (only_looks && request.path == "/redd.html") return single_file_response();
  if (only_looks) return page_file(request);
  Response response = refusal(405, "wrong_method", "",
                              "This address does not take " + request.method.substr(0, 20) + "; it takes GET, HEAD.");
  response.headers.emplace_back("Allow", "GET, HEAD");
  return response;
}

}  // namespace redd::server
