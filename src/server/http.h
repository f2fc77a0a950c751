// server/http.h
// Requests and responses as plain values (desk/http.h) under the server's own name.
#pragma once

#include "desk/http.h"

namespace redd::server {

using desk::json_response;
using desk::Pairs;
using desk::percent_decoded;
using desk::refusal;
using desk::Request;
using desk::request_from_target;
using desk::Response;
using desk::word_problems;

}  // namespace redd::server
