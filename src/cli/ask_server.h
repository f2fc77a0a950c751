#pragma once
// A question to the Redd that serves on this machine, for what only the running server knows.

#include <string>

#include "quantities/result.h"
#include "report/numbers.h"

namespace redd::cli {

struct ServersAnswer {
  int status = 0;
  std::string body{};
};

/// Sends JSON by POST, or asks by GET where there is no body, to 127.0.0.1 and waits for the answer, at most ten seconds.
/// Errors  not_running: nobody answers at this port.
Result<ServersAnswer> ask_server(int port, const std::string& path, const std::string& body, report::Language language);

}  // namespace redd::cli
