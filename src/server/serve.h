// server/serve.h
// The socket side of the server: bytes in, a Request to the handler, a Response out. The only file behind it that knows
// Boost is serve.cpp, so another HTTP library would touch nothing else. Start at Server::open().
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>

#include "quantities/result.h"
#include "server/http.h"

namespace redd::server {

/// Answers one request. Called from several threads at once.
using Handler = std::function<Response(const Request&)>;

struct ServeOptions {
  std::uint16_t port = 7333;             ///< 0 takes any free port
  std::size_t body_limit = 8 << 20;      ///< longer bodies get 413; a saved season of some ten thousand records must pass
  std::size_t header_limit = 16 * 1024;  ///< longer heads get 431
  std::size_t connection_limit = 700;    ///< beyond it the connection that has been silent longest is closed
  std::chrono::milliseconds message_deadline = std::chrono::seconds(15);  ///< for a whole request, and for idling
  bool stop_on_signals = true;                                            ///< SIGINT and SIGTERM end run()
};

/// Listens on 127.0.0.1 and nowhere else. All sockets share one thread that never waits, so a slow client holds up
/// nobody; handlers run on two others.
class Server {
 public:
  /// Errors  port_in_use, port_not_allowed, cannot_listen; the sentence names the port and the mend.
  static Result<std::unique_ptr<Server>> open(const ServeOptions& options, Handler handler);
  ~Server();

  std::uint16_t port() const;
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
