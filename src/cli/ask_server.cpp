#include "cli/ask_server.h"

#include <arpa/inet.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

namespace redd::cli {
namespace {

constexpr std::size_t most_bytes = 1 << 20;

/// What came until the other side closed; empty when nothing did.
std::string exchanged(int handle, int port, std::string_view text) {
  const timeval patience{10, 0};
  setsockopt(handle, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  setsockopt(handle, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (connect(handle, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) return "";
  while (!text.empty()) {
    const ssize_t sent = send(handle, text.data(), text.size(), MSG_NOSIGNAL);
    if (sent <= 0) return "";
    text.remove_prefix(static_cast<std::size_t>(sent));
  }
  std::string answer;
  char buffer[4096];
  for (ssize_t count = 0; answer.size() < most_bytes && (count = recv(handle, buffer, sizeof buffer, 0)) > 0;) answer.append(buffer, static_cast<std::size_t>(count));
  return answer;
}

}  // namespace

Result<ServersAnswer> ask_server(int port, const std::string& path, const std::string& body, report::Language language) {
  const std::string host = "127.0.0.1:" + std::to_string(port);
  const std::string text = (body.empty() ? "GET " : "POST ") + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\nContent-Type: application/json\r\nAccept-Language: " + std::string(report::tag_of(language)) +
                           "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body;
  const int handle = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const std::string answer = handle >= 0 ? exchanged(handle, port, text) : "";
  if (handle >= 0) close(handle);
  const std::size_t end = answer.find("\r\n\r\n");
  if (!answer.starts_with("HTTP/1.1 ") || answer.size() < 12 || end == std::string::npos)
    return Problem{"not_running", "--port", said("No Redd answers at port {0} of this machine. Start it with: redd serve --on-network. If it has another port, name it with --port.", port)};
  int status = 0;
  for (const char c : answer.substr(9, 3)) status = 10 * status + (c >= '0' && c <= '9' ? c - '0' : 0);
  return ServersAnswer{status, answer.substr(end + 4)};
}

}  // namespace redd::cli
