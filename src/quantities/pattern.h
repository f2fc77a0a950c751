// quantities/pattern.h
// Sentences with places to fill: {0}, {1}, …, and forms that follow a number or a word. A small part of ICU MessageFormat:
//   {0}                                              what stands at place 0
//   {0, plural, =0 {none} one {# egg} other {# eggs}}  by number; # is the number as the reader writes it
//   {0, select, eggs {laid} other {born}}              by word
// Forms may hold places and forms. A brace that opens none of these stands for itself, and so does an apostrophe.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace redd {

/// What stands at one place.
struct Filling {
  std::string text{};                ///< ready for the reader
  std::optional<long long> count{};  ///< the whole number it is, for plural
  std::string word{};                ///< the word in English, for select
};

/// The pattern with every place filled. A pattern that is not well formed is shown as far as it can be understood.
///
/// In  filling: gives what stands at a place; asked once for each time the place is named.
std::string filled(std::string_view pattern, const std::function<Filling(std::size_t)>& filling);

/// What is wrong with a pattern, or nothing; gathers the places it names.
std::optional<std::string> pattern_fault(std::string_view pattern, std::set<std::size_t>& places);

}  // namespace redd
