// server/app.h
// The program as seen over HTTP: one request in, one response out, no sockets. Start at App::handle(); routes.h lists
// what can be asked.
#pragma once

#include "server/filter_keeper.h"
#include "server/http.h"
#include "server/plan_keeper.h"
#include "server/season_desk.h"

namespace redd::server {

class App {
 public:
  /// In      desk, filter: outlive the App. Without a keeper no answer speaks of the filter's outlook.
  explicit App(SeasonDesk& desk, FilterKeeper* filter = nullptr) : desk_(desk), filter_(filter) {}

  /// Answers any request. Safe from several threads.
  ///
  /// Errors  every wrong thing is a 4xx with {"problems":[{"code","field","sentence"}]}: 400 not understood, 403 not
  /// from
  ///         this machine's page, 404, 405 (with Allow), 409 in conflict with the log, 415 not JSON, 422 wrong content.
  ///         Only a failing disk or season file is a 5xx.
  Response handle(const Request& request) const;

 private:
  Response answer(const Request& request, const report::Reader& reader) const;
  SeasonDesk& desk_;
  FilterKeeper* filter_;
  mutable PlanKeeper plans_;
};

}  // namespace redd::server
