#include "server/app.h"

#include "desk/reader.h"
#include "server/guard.h"
#include "server/own_routes.h"
#include "server/page_files.h"
#include "server/single_file.h"

namespace redd::server {
namespace {

bool is_api(const Request& request) { return request.path == "/api" || request.path.starts_with("/api/"); }

}  // namespace

Response App::handle(const Request& request) const {
  const auto asked = reader_of(request);
  const report::Reader reader = asked ? *asked : report::Reader{};
  Response response = asked ? answer(without_reader(request), reader) : refusal(400, asked.problems());
  word_problems(response, reader);
  if (is_api(request)) response.headers.emplace_back("Content-Language", report::tag_of(reader.language));
  add_safety_headers(response);
  return response;
}

Response App::answer(const Request& request, const report::Reader& reader) const {
  if (auto refused = refused_by_guard(request)) return *refused;
  static const std::vector<Route> table = routes();
  if (auto answered = desk::answer_by(table, request, desk_, filter_, plans_, reader)) return *answered;
  if (is_api(request))
    return refusal(404, "unknown_address", "",
                   "There is nothing at this address. GET /api/openapi.json lists what there is.");
  const bool only_looks = request.method == "GET" || request.method == "HEAD";
  if (only_looks && request.path == "/redd.html") return single_file_response();
  if (only_looks) return page_file(request);
  Response response = refusal(405, "wrong_method", "", said("This address does not take {0}; it takes {1}.", request.method.substr(0, 20), "GET, HEAD"));
  response.headers.emplace_back("Allow", "GET, HEAD");
  return response;
}

}  // namespace redd::server
