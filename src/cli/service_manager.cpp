#include "cli/service_manager.h"

#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstddef>
#include <cstring>

#include "cli/place.h"

namespace redd::cli {

void tell_service_manager(std::string_view state) {
  const auto name = environment("NOTIFY_SOCKET");
  sockaddr_un address{};
  if (!name || name->empty() || name->size() >= sizeof address.sun_path) return;
  address.sun_family = AF_UNIX;
  std::memcpy(address.sun_path, name->data(), name->size());
  if (name->front() == '@') address.sun_path[0] = '\0';  // an abstract name is written with @
  const int socket_fd = socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC, 0);
  if (socket_fd < 0) return;
  const auto length = static_cast<socklen_t>(offsetof(sockaddr_un, sun_path) + name->size());
  sendto(socket_fd, state.data(), state.size(), MSG_NOSIGNAL, reinterpret_cast<const sockaddr*>(&address), length);
  close(socket_fd);
}

}  // namespace redd::cli
