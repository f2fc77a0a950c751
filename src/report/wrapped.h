#pragma once
// Text broken into lines for a terminal.

#include <string>
#include <string_view>

namespace redd::report {

/// Columns a UTF-8 text takes, one for each code point.
std::size_t columns_of(std::string_view text);

/// Text broken at spaces, every line but the first moved in by `hang`, with a line end.
std::string wrapped(std::string_view text, int width, std::string_view first, std::string_view hang);

}  // namespace redd::report
