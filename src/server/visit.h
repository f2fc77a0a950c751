#pragma once
// Who asks, as a handler of the server sees it.

#include "desk/routes.h"
#include "server/classroom.h"

namespace redd::server {

struct Visit final : desk::Visit {
  Visit(Classroom* there, Visitor who) : classroom(there), visitor(std::move(who)) {}
  Classroom* classroom;  ///< nullptr: a program without one
  Visitor visitor;
};

/// The visit of a call that the server answers.
inline const Visit& visit_of(const desk::Call& call) {
  require(call.visit != nullptr, "visit_of", "a call without a visit");
  return static_cast<const Visit&>(*call.visit);
}

}  // namespace redd::server
