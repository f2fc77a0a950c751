#pragma once
// Text inside XML and HTML.

#include <string>
#include <string_view>

namespace redd::print {

/// With < > & " ' made harmless, and without the control characters that XML knows no way to write.
std::string escaped(std::string_view text);

/// As in a data: address.
std::string base64(std::string_view bytes);

}  // namespace redd::print
