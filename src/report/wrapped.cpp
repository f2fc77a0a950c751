#include "report/wrapped.h"

#include <algorithm>

namespace redd::report {

std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string wrapped(std::string_view text, int width, std::string_view first, std::string_view hang) {
  std::string out(first);
  std::size_t column = columns_of(first);
  bool line_start = true;
  while (!text.empty()) {
    const auto space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    if (!line_start && column + 1 + columns_of(word) > static_cast<std::size_t>(width)) {
      out += "\n";
      out += hang;
      column = columns_of(hang);
      line_start = true;
    }
    if (!line_start) {
      out += ' ';
      ++column;
    }
    out += word;
    column += columns_of(word);
    line_start = false;
    text = space == std::string_view::npos ? std::string_view{} : text.substr(space + 1);
  }
  return out + "\n";
}

}  // namespace redd::report
