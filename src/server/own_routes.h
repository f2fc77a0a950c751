// server/own_routes.h
// Every address of the server's JSON interface: those of desk/routes.h, and the few that need what only a server has.
#pragma once

#include <vector>

#include "desk/routes.h"
#include "server/http.h"

namespace redd::server {

using desk::Call;
using desk::path_fits;
using desk::Route;

std::vector<Route> routes();

Response preview_calendar(const Call& call);
Response keep_calendar(const Call& call);
Response copies(const Call& call);
Response make_copy(const Call& call);
Response export_tables(const Call& call);
Response classroom_state(const Call& call);
Response sign_in(const Call& call);
Response sign_out(const Call& call);
Response access(const Call& call);
Response make_code(const Call& call);
Response end_code(const Call& call);
Response end_session(const Call& call);
Response end_all(const Call& call);
Response audit(const Call& call);
Response preview_table(const Call& call);
Response keep_table(const Call& call);
Response thermometer(const Call& call);
Response quiet_thermometer(const Call& call);
Response try_thermometer(const Call& call);
Response description(const Call& call);

}  // namespace redd::server
