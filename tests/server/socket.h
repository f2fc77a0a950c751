// A plain client on a real socket.
#pragma once

#include <arpa/inet.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

#include <string>
#include <string_view>
#include <utility>

namespace redd::server {

class Socket {
 public:
  explicit Socket(std::uint16_t port) : handle_(socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = connect(handle_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
    const timeval patience{10, 0};
    setsockopt(handle_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  }
  ~Socket() {
    if (handle_ >= 0) ::close(handle_);
  }
  Socket(Socket&& other) noexcept : handle_(std::exchange(other.handle_, -1)), connected_(other.connected_) {}
  Socket(const Socket&) = delete;
  Socket& operator=(const Socket&) = delete;
  Socket& operator=(Socket&&) = delete;

  bool connected() const { return connected_; }
  int handle() const { return handle_; }
  bool write(std::string_view text) {
    while (!text.empty()) {
      const ssize_t sent = ::send(handle_, text.data(), text.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  /// Everything until the other side closes (or ten seconds are over).
  std::string read_all() {
    std::string text;
    char buffer[4096];
    for (ssize_t count = 0; (count = ::recv(handle_, buffer, sizeof buffer, 0)) > 0;)
      text.append(buffer, static_cast<std::size_t>(count));
    return text;
  }
  /// One answer with a Content-Length; the connection stays open.
  std::string read_one() {
    std::string text;
    char c = 0;
    while (text.find("\r\n\r\n") == std::string::npos && ::recv(handle_, &c, 1, 0) == 1) text += c;
    const std::size_t at = text.find("Content-Length: ");
    std::size_t left = at == std::string::npos ? 0 : std::stoul(text.substr(at + 16));
    while (left-- > 0 && ::recv(handle_, &c, 1, 0) == 1) text += c;
    return text;
  }

 private:
  int handle_;
  bool connected_ = false;
};

inline int status(const std::string& answer) {
  return answer.size() > 12 ? std::stoi(answer.substr(9, 3)) : 0;
}

/// Enough sockets for both ends of a crowd.
inline void allow_many_sockets() {
  rlimit most{};
  getrlimit(RLIMIT_NOFILE, &most);
  most.rlim_cur = most.rlim_max;
  setrlimit(RLIMIT_NOFILE, &most);
}

}  // namespace redd::server
