// server/guard.h
// Keeps other web sites out of a server that has no password: only pages served by Redd itself may talk to it.
#pragma once

#include <optional>

#include "server/http.h"

namespace redd::server {

/// A refusal when the request was not meant for this machine or comes from a page of another site; else nothing.
///
/// In      request: with its headers.
/// Out     403 wrong_host: the Host is not 127.0.0.1, localhost or [::1] (a foreign name made to point here).
///         403 foreign_page: an Origin that is not this very server, or Sec-Fetch-Site says cross-site on a change.
std::optional<Response> refused_by_guard(const Request& request);

/// Headers every response carries: what the page may load, and that nobody may frame, sniff or embed it.
void add_safety_headers(Response& response);

}  // namespace redd::server
