#include "desk/routes.h"

#include <algorithm>

#include "quantities/verbatim.h"

namespace redd::desk {
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
           said("\"{0}\" is not a parameter of this address{1}", verbatim(key), route.parameters.empty() ? "; it takes none." : said("; it takes: {0}.", verbatim(route.parameters)))});
    for (std::size_t j = 0; j < i; ++j)
      if (request.query[j].first == key)
        problems.push_back({"given_twice", key, said("\"{0}\" is given twice: keep one.", verbatim(key))});
  }
  if (problems.empty()) return std::nullopt;
  return refusal(400, problems);
}

Response call(const Route& route, const Request& request, const Call& call) {
  if (route.method == "POST" && !is_json(request.header("content-type").value_or("")))
    return refusal(415, "not_json", "", "Send the record as JSON, with the header Content-Type: application/json.");
  if (auto refused = unknown_parameter(route, request)) return *refused;
  return route.handle(call);
}

std::string_view next_segment(std::string_view& path) {
  path.remove_prefix(1);  // the slash
  const std::string_view segment = path.substr(0, path.find('/'));
  path.remove_prefix(segment.size());
  return segment;
}

}  // namespace

std::optional<Response> answer_by(std::span<const Route> routes, const Request& request, Desk& desk, FilterDoor* filter, PlanDoor& plans, const report::Reader& reader,
                                  const Visit* visit) {
  const std::string_view method = request.method == "HEAD" ? std::string_view("GET") : request.method;
  std::string allowed;
  for (const Route& route : routes) {
    std::vector<std::string> parts;
    if (!path_fits(route.path, request.path, parts)) continue;
    if (route.method == method) return call(route, request, {request, desk, filter, plans, std::move(parts), reader, visit});
    allowed += (allowed.empty() ? "" : ", ") + std::string(route.method == "GET" ? "GET, HEAD" : route.method);
  }
  if (allowed.empty()) return std::nullopt;
  Response response = refusal(405, "wrong_method", "", said("This address does not take {0}; it takes {1}.", verbatim(request.method.substr(0, 20)), verbatim(allowed)));
  response.headers.emplace_back("Allow", allowed);
  return response;
}

bool path_fits(std::string_view pattern, std::string_view path, std::vector<std::string>& parts) {
  parts.clear();
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = next_segment(pattern), given = next_segment(path);
    if (wanted.starts_with('{')) {
      if (given.empty()) return false;
      parts.emplace_back(given);
    } else if (wanted != given) {
      return false;
    }
  }
  return pattern.empty() && path.empty();
}

}  // namespace redd::desk
