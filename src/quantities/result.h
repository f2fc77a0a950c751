#pragma once
// How the core says "this cannot be done": by value, never by throwing.
// Start at Result<T>. A Problem's sentence is written for the keeper and is shown as it stands.

#include <cstdio>
#include <cstdlib>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "quantities/phrase.h"

namespace redd {

/// One thing wrong with what was given: a stable code, the field at fault, and what is wrong and how to mend it.
struct Problem {
  std::string code;      ///< stable word for programs, e.g. "out_of_range"
  std::string field;     ///< the input at fault, e.g. "ph" or "/body/volume_l"; empty if none
  Phrase sentence;       ///< what is wrong, where, and what would be right
  friend bool operator==(const Problem&, const Problem&) = default;
};

/// All problems of one input, so that a keeper mends a form once and not five times.
using Problems = std::vector<Problem>;

/// Stops the program on a broken promise of our own code (never on bad input).
[[noreturn]] inline void broken_promise(const char* function, const char* what) {
  std::fprintf(stderr, "redd: internal error in %s: %s\n", function, what);
  std::abort();
}
inline void require(bool condition, const char* function, const char* what) {
  if (!condition) broken_promise(function, what);
}

/// A value, or the problems that kept it from being made. Never both, never neither.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : content_(std::in_place_index<0>, std::move(value)) {}
  Result(Problem problem) : content_(std::in_place_index<1>, Problems{std::move(problem)}) {}
  Result(Problems problems) : content_(std::in_place_index<1>, std::move(problems)) {
    require(!std::get<1>(content_).empty(), "Result", "made from an empty list of problems");
  }

  bool has_value() const { return content_.index() == 0; }
  explicit operator bool() const { return has_value(); }
  const T& value() const& {
    require(has_value(), "Result::value", "there is no value");
    return *std::get_if<0>(&content_);
  }
  T& value() & {
    require(has_value(), "Result::value", "there is no value");
    return *std::get_if<0>(&content_);
  }
  T&& value() && {
    require(has_value(), "Result::value", "there is no value");
    return std::move(*std::get_if<0>(&content_));
  }
  const T& operator*() const& { return value(); }
  const T* operator->() const { return &value(); }
  const Problems& problems() const {
    require(!has_value(), "Result::problems", "there is a value");
    return *std::get_if<1>(&content_);
  }

 private:
  std::variant<T, Problems> content_;
};

}  // namespace redd
