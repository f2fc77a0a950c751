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
Response export_tables(const Call& call);
Response report_pdf(const Call& call);
Response report_html(const Call& call);
Response chart(const Call& call);
Response description(const Call& call);

}  // namespace redd::server
