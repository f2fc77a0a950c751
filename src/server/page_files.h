// server/page_files.h
// The page and its parts out of the program itself: right type, ETag, compressed where the browser takes it.
#pragma once

#include <string_view>

#include "server/http.h"

namespace redd::server {

/// The packed file behind a path such as "/" or "/assets/index.js".
///
/// Errors  404 in plain words (an HTML page) when there is no such file.
Response page_file(const Request& request);

/// Whether an Accept-Encoding header allows a coding, "br" or "gzip" ("gzip;q=0" does not).
bool accepts(std::string_view accept_encoding, std::string_view coding);

/// Whether an If-None-Match header names this entity tag.
bool names_tag(std::string_view if_none_match, std::string_view quoted_tag);

}  // namespace redd::server
