// server/app.h
// The program as seen over HTTP: one request in, one response out, no sockets. Start at App::handle(); routes.h lists
// what can be asked. What comes in over the local network goes through handle_from_network(), which trusts nobody.
#pragma once

#include "server/classroom.h"
#include "server/filter_keeper.h"
#include "server/http.h"
#include "server/plan_keeper.h"
#include "server/season_desk.h"

namespace redd::server {

struct Visit;

class App {
 public:
  /// In      desk, filter, classroom: outlive the App. Without a keeper no answer speaks of the filter's outlook; without a classroom nobody is let in
  ///         over the network.
  explicit App(SeasonDesk& desk, FilterKeeper* filter = nullptr, Classroom* classroom = nullptr) : desk_(desk), filter_(filter), classroom_(classroom) {}

  /// Answers any request from this machine. Safe from several threads.
  ///
  /// Errors  every wrong thing is a 4xx with {"problems":[{"code","field","sentence"}]}: 400 not understood, 403 not
  /// from
  ///         this machine's page, 404, 405 (with Allow), 409 in conflict with the log, 415 not JSON, 422 wrong content.
  ///         Only a failing disk or season file is a 5xx.
  Response handle(const Request& request) const;

  /// Answers any request that came over the local network. Safe from several threads.
  ///
  /// In      request: with `from`.
  /// Errors  those of handle(), and 401 not_signed_in, 403 not_yours (another role is needed), wrong_host, foreign_page, 429 try_later with Retry-After.
  Response handle_from_network(const Request& request) const;

 private:
  template <class Answer>
  Response worded(const Request& request, const Answer& answer) const;
  Response answer(const Request& request, const report::Reader& reader, desk::Desk& desk, const Visit& visit) const;
  Response answer_guest(const Request& request, const report::Reader& reader) const;
  SeasonDesk& desk_;
  FilterKeeper* filter_;
  Classroom* classroom_;
  mutable PlanKeeper plans_;
};

}  // namespace redd::server
