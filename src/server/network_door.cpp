#include "server/network_door.h"

#include "desk/handlers.h"
#include "wire/codec.h"

namespace redd::server {
namespace {

using classroom::Role;

/// The prefix makes browsers refuse the cookie unless it is secure, of this very host and for all of it.
constexpr std::string_view cookie_name = "__Host-redd";
constexpr std::size_t longest_token = 64;

bool changes_something(const Request& request) { return request.method != "GET" && request.method != "HEAD"; }

Response wait(const Problem& problem, std::chrono::seconds seconds) {
  Response response = refusal(429, {problem});
  response.headers.emplace_back("Retry-After", std::to_string(seconds.count()));
  return response;
}

/// An entry that can't be read is left to who answers: it says what is wrong with it, and keeps nothing.
std::optional<Response> refused_record_of_bench(const Request& request, const Visitor& visitor, desk::Desk& desk) {
  const auto look = desk.look();
  if (!look) return desk::refused(look.problems());
  if (request.parameter("as_of") && !(*look)->invented()) return refusal(403, "not_yours", "as_of", "With a bench code only today can be looked at.");
  if (request.path != "/api/records" || !changes_something(request)) return std::nullopt;
  const auto looked_at = desk.moment(**look, request.parameter("as_of"));
  if (!looked_at) return desk::refused(looked_at.problems());
  const auto entry = wire::entry_from_json(request.body, *looked_at);
  if (!entry) return desk::refused(entry.problems());
  const Problems problems = classroom::problems_of_bench_entry(*entry, visitor.label, desk.written_at(**look, *looked_at));
  if (problems.empty()) return std::nullopt;
  return refusal(403, problems);
}

}  // namespace

std::optional<Response> refused_at_door(const Request& request, Classroom& classroom) {
  if (const auto seconds = classroom.wait_to_ask(request.from); seconds.count() > 0)
    return wait({"try_later", "", "Too many questions at once from this device or network. Wait a moment, then try again."}, seconds);
  const std::string host(request.header("host").value_or(""));
  if (!secrets::answers_to(classroom.network()->certificate, host))
    return refusal(403, "wrong_host", "", "Redd's certificate does not have this name. Use an address that the keeper's machine shows.");
  const auto origin = request.header("origin");
  if (origin && *origin != "https://" + host)
    return refusal(403, "foreign_page", "", "A page of another site may not talk to Redd. Use Redd's own page.");
  if (!changes_something(request)) return std::nullopt;
  if (request.header("sec-fetch-site").value_or("same-origin") != "same-origin")
    return refusal(403, "foreign_page", "", "A page of another site may not change Redd's records. Use Redd's own page.");
  if (!request.header(page_header))
    return refusal(403, "foreign_page", "", "A change on the network carries the header Redd-Page: 1, as Redd's own page sends it.");
  return std::nullopt;
}

std::optional<Response> refused_by_role(const Request& request, const Visitor& visitor, desk::Desk& desk) {
  const Role lowest = classroom::lowest_role(request.method, request.path);
  if (visitor.role >= lowest) return visitor.role == Role::bench && lowest == Role::bench ? refused_record_of_bench(request, visitor, desk) : std::nullopt;
  if (visitor.role == Role::nobody) return refusal(401, "not_signed_in", "", "Sign in first: with a bench code, or with the keeper's passphrase.");
  return refusal(403, "not_yours", "", "This is the keeper's to do: a bench code is for adding readings only.");
}

std::string_view token_of(const Request& request) {
  std::string_view rest = request.header("cookie").value_or("");
  while (!rest.empty()) {
    const std::size_t end = rest.find(';');
    std::string_view pair = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    while (pair.starts_with(' ')) pair.remove_prefix(1);
    if (pair.size() <= cookie_name.size() || !pair.starts_with(cookie_name) || pair[cookie_name.size()] != '=') continue;
    const std::string_view token = pair.substr(cookie_name.size() + 1);
    return token.size() <= longest_token ? token : std::string_view();
  }
  return {};
}

std::string cookie_with(std::string_view token, std::chrono::seconds life) {
  return std::string(cookie_name) + "=" + std::string(token) + "; Path=/; Max-Age=" + std::to_string(life.count()) + "; Secure; HttpOnly; SameSite=Strict";
}

std::string cookie_of_nobody() { return cookie_with("", std::chrono::seconds(0)); }

Response refusal_of(const Tried& tried) {
  require(tried.problem.has_value(), "refusal_of", "nothing was refused");
  if (tried.wait.count() > 0) return wait(*tried.problem, tried.wait);
  const std::string& code = tried.problem->code;
  return refusal(code == "wrong_passphrase" || code == "unknown_code" ? 401 : 500, {*tried.problem});
}

}  // namespace redd::server
