// server/single_file.h
// The edition in one file, redd.html: page, core, kits and invented season in one HTML text that opens from the disk, without
// a server. It is put together from the very files that the server sends. Start at single_file().
#pragma once

#include <string>
#include <string_view>

#include "quantities/result.h"
#include "server/http.h"

namespace redd::server {

/// The whole file. Same program, same bytes.
///
/// Errors  no_page: this build carries no page, or not all of its parts.
Result<std::string> single_file();

/// GET /redd.html: the file as a download.
Response single_file_response();

/// Source  RFC 4648, section 4.
std::string base64(std::string_view bytes);

}  // namespace redd::server
