// server/serve.h
// The socket side of the server: bytes in, a Request to the handler, a Response out. The only file behind it that knows
// Boost is serve.cpp, so another HTTP library would touch nothing else. Start at Server::open().
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "quantities/result.h"
#include "server/http.h"

namespace redd::server {

/// Answers one request. Called from several threads at once.
using Handler = std::function<Response(const Request&)>;

/// A second door: TLS, on the machine's IPv4 addresses, for those of its own network.
struct NetworkListener {
  std::uint16_t port = 7443;             ///< 0 takes any free port
  std::string chain_pem{}, key_pem{};    ///< the certificate, and its key
  Handler handler{};                     ///< gets requests with `from`
  std::size_t body_limit = 128 * 1024;   ///< strangers may send before they are known: all connections together stay below 100 MiB
  bool loopback_only = false;            ///< for tests
};

struct ServeOptions {
  std::uint16_t port = 7333;             ///< 0 takes any free port
  std::size_t body_limit = 8 << 20;      ///< longer bodies get 413; a saved season of some ten thousand records must pass
  std::size_t header_limit = 16 * 1024;  ///< longer heads get 431
  std::size_t connection_limit = 700;    ///< of one door; beyond it the connection that has been silent longest is closed
  std::chrono::milliseconds message_deadline = std::chrono::seconds(15);  ///< for a whole request, and for idling
  bool stop_on_signals = true;                                            ///< SIGINT and SIGTERM end run()
  std::optional<NetworkListener> network{};                                   ///< nothing: 127.0.0.1 and nowhere else
};

/// Listens on 127.0.0.1 and, if it is told to, on the local network with TLS 1.2 or newer, where it answers private addresses only. All sockets share one thread that never waits, so a slow client holds up
/// nobody; handlers run on two others.
class Server {
 public:
  /// Errors  port_in_use, port_not_allowed, cannot_listen, bad_certificate; the sentence names the port and the mend.
  static Result<std::unique_ptr<Server>> open(const ServeOptions& options, Handler handler);
  ~Server();

  std::uint16_t port() const;
  std::uint16_t network_port() const;  ///< 0 where it does not listen on the network
  /// Serves until a signal or stop(). Requests being answered are finished first.
  void run();
  /// May be called from any thread.
  void stop();

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace redd::server
