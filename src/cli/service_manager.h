// cli/service_manager.h
// A word to the service manager that started the program, if one did.
#pragma once

#include <string_view>

namespace redd::cli {

/// Sends a state, "READY=1" or "STOPPING=1", to the socket that $NOTIFY_SOCKET names. Where there is none, or nobody
/// listens, nothing happens: the manager's own time-out tells.
void tell_service_manager(std::string_view state);

}  // namespace redd::cli
