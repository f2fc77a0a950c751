#include "server/app.h"

#include <algorithm>

#include "server/guard.h"
#include "server/page_files.h"
#include "server/reader.h"
#include "server/routes.h"

namespace redd::server {
namespace {

bool is_json(std::string_view content_type) {
  std::string kind(content_type.substr(0, content_type.find(';')));
  while (!kind.empty() && kind.back() == ' ') kind.pop_back();
  std::ranges::transform(kind, kind.begin(),
                         [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return kind == "application/json";
}

/// A parameter nobody reads is a slip the sender should hear of: "?as-of=" would otherwise answer for another day.
std::optional<Response> unknown_parameter(const Route& route, const Request& request) {
  if (route.parameters == "*") return std::nullopt;
  Problems problems;
  const std::string known = " " + std::string(route.parameters) + " ";
  for (std::size_t i = 0; i < request.query.size(); ++i) {
    const std::string& key = request.query[i].first;
    const bool is_word = key.find(' ') == std::string::npos && !key.empty();
    if (!is_word || known.find(" " + key + " ") == std::string::npos)
      problems.push_back(
          {"unknown_parameter", key,
           said("\"{0}\" is not a parameter of this address{1}", key, route.parameters.empty() ? "; it takes none." : said("; it takes: {0}.", route.parameters))});
    for (std::size_t j = 0; j < i; ++j)
      if (request.query[j].first == key)
        problems.push_back({"given_twice", key, said("\"{0}\" is given twice: keep one.", key)});
  }
  if (problems.empty()) return std::nullopt;
  return refusal(400, problems);
}

bool is_api(const Request& request) { return request.path == "/api" || request.path.starts_with("/api/"); }

Response call(const Route& route, const Request& request, SeasonDesk& desk, FilterKeeper* filter, PlanKeeper& plans, std::vector<std::string> parts, const report::Reader& reader) {
  if (route.method == "POST" && !is_json(request.header("content-type").value_or("")))
    return refusal(415, "not_json", "", "Send the record as JSON, with the header Content-Type: application/json.");
  if (auto refused = unknown_parameter(route, request)) return *refused;
  return route.handle({request, desk, filter, plans, std::move(parts), reader});
}

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
  const std::string_view method = request.method == "HEAD" ? std::string_view("GET") : request.method;
  std::string allowed;
  for (const Route& route : routes()) {
    std::vector<std::string> parts;
    if (!path_fits(route.path, request.path, parts)) continue;
    if (route.method == method) return call(route, request, desk_, filter_, plans_, std::move(parts), reader);
    allowed += (allowed.empty() ? "" : ", ") + std::string(route.method == "GET" ? "GET, HEAD" : route.method);
  }
  if (allowed.empty() && is_api(request))
    return refusal(404, "unknown_address", "",
                   "There is nothing at this address. GET /api/openapi.json lists what there is.");
  if (allowed.empty() && method == "GET") return page_file(request);
  if (allowed.empty()) allowed = "GET, HEAD";
  Response response =
      refusal(405, "wrong_method", "",
              said("This address does not take {0}; it takes {1}.", request.method.substr(0, 20), allowed));
  response.headers.emplace_back("Allow", allowed);
  return response;
}

}  // namespace redd::server
