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
Response preview_table(const Call& call);
Response keep_table(const Call& call);
Response thermometer(const Call& call);
Response quiet_thermometer(const Call& call);
Response try_thermometer(const Call& call);
Response description(const Call& call);

}  // namespace redd::server
