#pragma once
// Who asks, as a handler of the server sees it.

#include "desk/routes.h"
#include "server/classroom.h"
#include "server/season_desk.h"

namespace redd::server {

struct Visit final : desk::Visit {
  Visit(SeasonDesk& kept, Classroom* there, Visitor who) : season(kept), classroom(there), visitor(std::move(who)) {}
  SeasonDesk& season;    ///< the desk that keeps the file, whatever stands before it for this call
  Classroom* classroom;  ///< nullptr: a program without one
  Visitor visitor;
};

/// The visit of a call that the server answers.
inline const Visit& visit_of(const desk::Call& call) {
  require(call.visit != nullptr, "visit_of", "a call without a visit");
  return static_cast<const Visit&>(*call.visit);
}

}  // namespace redd::server
