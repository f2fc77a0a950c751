// desk/routes.h
// Addresses of the JSON interface, in one table. docs/openapi.json describes the same table; a test compares them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desk/costly.h"
#include "desk/desk.h"
#include "desk/http.h"
#include "report/numbers.h"

namespace redd::desk {

/// Who asks, where that makes a difference: only the server knows (server/visit.h).
class Visit {
 public:
  virtual ~Visit() = default;

 protected:
  Visit() = default;
  Visit(const Visit&) = default;
  Visit& operator=(const Visit&) = default;
};

/// What a handler gets.
struct Call {
  const Request& request;
  Desk& desk;
  FilterDoor* filter;  ///< nullptr: nobody works out the filter here
  PlanDoor& plans;
  std::vector<std::string> parts{};  ///< what stands where the path has {…}, in order
  report::Reader reader{};           ///< for whom the answer is worded; its zone is set where a season is known
  const Visit* visit = nullptr;      ///< nullptr: there are no visitors here
};

struct Route {
  std::string_view method;  ///< GET or POST; HEAD goes where GET goes
  std::string_view path;    ///< "/api/records/{id}/undo"
  Response (*handle)(const Call&);
  std::string_view summary;          ///< the same sentence as in docs/openapi.json
  std::string_view parameters = {};  ///< query parameters it takes, separated by spaces; "*" takes any
};

/// Answered wherever the season is kept. The server has a few more (server/own_routes.h).
std::span<const Route> routes();

/// Answers a request by one of these routes; what stands at no route of theirs is the caller's.
///
/// Errors  every wrong thing is a 4xx with {"problems":[…]}: 400 not understood, 404, 405 (with Allow), 415 not JSON, 409, 422.
/// Out     nothing when no path fits.
std::optional<Response> answer_by(std::span<const Route> routes, const Request& request, Desk& desk, FilterDoor* filter, PlanDoor& plans, const report::Reader& reader,
                                  const Visit* visit = nullptr);

/// Whether a path fits a route's pattern; fills `parts`.
bool path_fits(std::string_view pattern, std::string_view path, std::vector<std::string>& parts);

}  // namespace redd::desk
