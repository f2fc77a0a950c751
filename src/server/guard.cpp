#include "server/guard.h"

#include <string>

namespace redd::server {
namespace {

bool all_digits(std::string_view text) {
  return text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// "name" or "name:port" with one of the names of this machine.
bool is_this_machine(std::string_view host) {
  for (const std::string_view name : {"127.0.0.1", "localhost", "[::1]"}) {
    if (!host.starts_with(name)) continue;
    const std::string_view rest = host.substr(name.size());
    if (rest.empty() || (rest.front() == ':' && rest.size() > 1 && all_digits(rest.substr(1)))) return true;
  }
  return false;
}

}  // namespace

std::optional<Response> refused_by_guard(const Request& request) {
  const std::string_view host = request.header("host").value_or("");
  if (!is_this_machine(host))
    return refusal(403, "wrong_host", "",
                   "Redd answers only on this machine: open http://127.0.0.1 or http://localhost with its port.");
  const auto origin = request.header("origin");
  if (origin && *origin != "http://" + std::string(host))
    return refusal(403, "foreign_page", "", "A page of another site may not talk to Redd. Use Redd's own page.");
  const bool changes_something = request.method != "GET" && request.method != "HEAD";
  if (changes_something && request.header("sec-fetch-site").value_or("same-origin") == "cross-site")
    return refusal(403, "foreign_page", "",
                   "A page of another site may not change Redd's records. Use Redd's own page.");
  return std::nullopt;
}

void add_safety_headers(Response& response) {
  auto& headers = response.headers;
  headers.emplace_back(
      "Content-Security-Policy",
      "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; "
      "font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; "
      "form-action 'self'; frame-ancestors 'none'");
  headers.emplace_back("X-Content-Type-Options", "nosniff");
  headers.emplace_back("X-Frame-Options", "DENY");
  headers.emplace_back("Referrer-Policy", "no-referrer");
  headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  if (!response.header("cache-control")) headers.emplace_back("Cache-Control", "no-store");
}

}  // namespace redd::server
