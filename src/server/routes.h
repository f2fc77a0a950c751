// server/routes.h
// Every address of the JSON interface, in one table. docs/openapi.json describes the same table; a test compares them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "server/filter_keeper.h"
#include "server/http.h"
#include "report/numbers.h"
#include "server/plan_keeper.h"
#include "server/season_desk.h"

namespace redd::server {

/// What a handler gets.
struct Call {
  const Request& request;
  SeasonDesk& desk;
  FilterKeeper* filter;  ///< nullptr: nobody works out the filter here
  PlanKeeper& plans;
  std::vector<std::string> parts{};  ///< what stands where the path has {…}, in order
  report::Reader reader{};           ///< for whom the answer is worded; its zone is set where a season is known
};

struct Route {
  std::string_view method;  ///< GET or POST; HEAD goes where GET goes
  std::string_view path;    ///< "/api/records/{id}/undo"
  Response (*handle)(const Call&);
  std::string_view summary;          ///< the same sentence as in docs/openapi.json
  std::string_view parameters = {};  ///< query parameters it takes, separated by spaces; "*" takes any
};

std::span<const Route> routes();

/// Whether a path fits a route's pattern; fills `parts`.
bool path_fits(std::string_view pattern, std::string_view path, std::vector<std::string>& parts);

}  // namespace redd::server
