#pragma once
// What stands between the local network and the season: every request is asked for its host, its page, its session and its role, in that order, before
// anything else looks at it. Start at refused_at_door().

#include <optional>
#include <string_view>

#include "server/classroom.h"
#include "server/http.h"
#include "server/season_desk.h"

namespace redd::server {

/// The header that every change carries. Another site's page can send it only after asking, and is never answered that it may.
inline constexpr std::string_view page_header = "redd-page";

/// Refuses before anybody is known.
///
/// Out     429 try_later; 403 wrong_host (a name the certificate does not have: somebody else's name made to point here); 403 foreign_page (an Origin that
///         is not this server, a cross-site change, a change without the header). Nothing: go on.
std::optional<Response> refused_at_door(const Request& request, Classroom& classroom);

/// Refuses what this visitor may not do (classroom/roles.h): 401 not_signed_in, 403 not_yours. For a bench session it looks into the record that is sent.
std::optional<Response> refused_by_role(const Request& request, const Visitor& visitor, desk::Desk& desk);

/// The session's token of the request's cookie; empty: none. Only the first of its name counts.
std::string_view token_of(const Request& request);

/// Set-Cookie for a session that lasts so long, or for none any more.
std::string cookie_with(std::string_view token, std::chrono::seconds life);
std::string cookie_of_nobody();

/// 429 with Retry-After, or what else the problem is worth.
Response refusal_of(const Tried& tried);

}  // namespace redd::server
