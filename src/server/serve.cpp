// Callback style on purpose: the coroutines of GCC 12 have known defects, and a request needs only five steps.
// One Connection reads a request, hands it to a worker, writes the answer and starts over. Everything that touches a
// socket runs on the one thread inside Server::run(), so connections need no locks.
#include "server/serve.h"

#include <boost/asio/dispatch.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <csignal>
#include <exception>
#include <list>
#include <optional>

namespace redd::server {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using tcp = asio::ip::tcp;
using Error = beast::error_code;

class Connection;

/// What all connections share. Lives on the socket thread.
struct Hub {
  ServeOptions options;
  Handler handler;
  asio::io_context& sockets;
  asio::thread_pool& workers;
  std::list<Connection*> waiting{};  ///< reading or idle, longest first; these may be closed at any time
  std::size_t open = 0;
  bool stopping = false;
  std::function<void()> when_empty{};
};

Response answer_safely(const Handler& handler, const Request& request) {
  try {
    return handler(request);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "redd: %s %s failed: %s\n", request.method.c_str(), request.path.c_str(), error.what());
  } catch (...) {
    std::fprintf(stderr, "redd: %s %s failed\n", request.method.c_str(), request.path.c_str());
  }
  return refusal(500, "internal", "",
                 "Redd failed while answering this. Nothing was saved. The terminal it runs in says more.");
}

std::string view_text(beast::string_view text) {
  return {text.data(), text.size()};
}

Result<Request> request_from_message(const http::request<http::string_body>& message) {
  auto request = request_from_target(view_text(message.method_string()), view_text(message.target()));
  if (!request) return request;
  for (const auto& field : message) {
    std::string name = view_text(field.name_string());
    for (char& c : name)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    request.value().headers.emplace_back(std::move(name), view_text(field.value()));
  }
  request.value().body = message.body();
  return request;
}

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(tcp::socket socket, Hub& hub) : stream_(std::move(socket)), hub_(hub) { ++hub_.open; }
  ~Connection() {
    leave_waiting();
    --hub_.open;
    if (hub_.stopping && hub_.open == 0 && hub_.when_empty) hub_.when_empty();
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void read() {
    if (hub_.stopping) return close();
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(hub_.options.header_limit));
    parser_->body_limit(hub_.options.body_limit);
    // Set once a message and not once a byte: a client that sends one byte now and then still has to finish in time.
    stream_.expires_after(hub_.options.message_deadline);
    place_ = hub_.waiting.insert(hub_.waiting.end(), this);
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](Error error, std::size_t) { self->on_read(error); });
  }

  void close() {
    Error ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_both, ignored);
    stream_.close();
  }

 private:
  void leave_waiting() {
    if (place_) hub_.waiting.erase(*place_);
    place_.reset();
  }

  void on_read(Error error) {
    leave_waiting();
    if (error == http::error::body_limit)
      return write_and_end(refusal(
          413, "too_large", "",
          said("The message is larger than Redd takes ({0} KiB).", hub_.options.body_limit / 1024)));
    if (error == http::error::header_limit || error == http::error::buffer_overflow)
      return write_and_end(refusal(431, "head_too_large", "", "The head of the request is larger than Redd takes."));
    if (error && error.category() == http::make_error_code(http::error::bad_method).category() &&
        error != http::error::end_of_stream && error != http::error::partial_message)
      return write_and_end(refusal(400, "bad_request", "", "This is not a request in HTTP/1.1."));
    if (error) return close();

    auto request = request_from_message(parser_->get());
    if (!request) return write_and_end(refusal(400, request.problems()));
    keep_alive_ = parser_->get().keep_alive();
    is_head_ = parser_->get().method() == http::verb::head;
    stream_.expires_never();
    asio::post(hub_.workers, [self = shared_from_this(), request = std::move(request).value()]() mutable {
      auto response = std::make_shared<Response>(answer_safely(self->hub_.handler, request));
      asio::io_context& sockets = self->hub_.sockets;
      // The connection travels on with the answer, so that it is never released on this thread.
      asio::post(sockets, [self = std::move(self), response = std::move(response)]() mutable {
        self->write(std::move(response));
      });
    });
  }

  void write_and_end(Response response) {
    keep_alive_ = false;
    is_head_ = false;
    write(std::make_shared<Response>(std::move(response)));
  }

  void write(std::shared_ptr<Response> response) {
    response_ = std::move(response);
    if (hub_.stopping) keep_alive_ = false;
    const std::string_view bytes = response_->bytes();
    message_.emplace();
    message_->version(11);
    message_->result(static_cast<unsigned>(response_->status));
    if (!response_->content_type.empty()) message_->set(http::field::content_type, response_->content_type);
    for (const auto& [name, value] : response_->headers) message_->set(name, value);
    message_->keep_alive(keep_alive_);
    if (!is_head_) message_->body() = {bytes.data(), bytes.size()};
    if (response_->status != 304) message_->content_length(bytes.size());
    stream_.expires_after(hub_.options.message_deadline);
    http::async_write(stream_, *message_,
                      [self = shared_from_this()](Error error, std::size_t) { self->on_written(error); });
  }

  void on_written(Error error) {
    message_.reset();
    response_.reset();
    if (error) return close();
    if (keep_alive_ && !hub_.stopping) return read();
    // A client still sending would get a reset and might never see the answer: let it finish, for a short while.
    Error ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    stream_.expires_after(std::chrono::seconds(2));
    drain();
  }

  void drain() {
    stream_.async_read_some(asio::buffer(scrap_), [self = shared_from_this()](Error error, std::size_t count) {
      self->drained_ += count;
      if (error || self->hub_.stopping || self->drained_ > most_drained) return self->close();
      self->drain();
    });
  }

  static constexpr std::size_t most_drained = 4 * 1024 * 1024;

  beast::tcp_stream stream_;
  Hub& hub_;
  beast::flat_buffer buffer_{512 * 1024};
  std::optional<http::request_parser<http::string_body>> parser_{};
  std::shared_ptr<Response> response_{};
  std::optional<http::response<http::span_body<const char>>> message_{};
  std::optional<std::list<Connection*>::iterator> place_{};
  bool keep_alive_ = false;
  bool is_head_ = false;
  std::size_t drained_ = 0;
  std::array<char, 4096> scrap_{};
};

}  // namespace

struct Server::Parts {
  Parts(const ServeOptions& options, Handler handler)
      : hub{options, std::move(handler), sockets, workers}, acceptor(sockets), pause(sockets), patience(sockets) {}

  void accept() {
    acceptor.async_accept([this](Error error, tcp::socket socket) {
      if (hub.stopping) return;
      if (error) return accept_later();
      // The one that has been silent longest makes room: a crowd of idle clients can't lock the keeper out.
      if (hub.open >= hub.options.connection_limit && !hub.waiting.empty()) hub.waiting.front()->close();
      Error ignored;
      socket.set_option(tcp::no_delay(true), ignored);
      std::make_shared<Connection>(std::move(socket), hub)->read();
      accept();
    });
  }

  /// Out of file descriptors, most likely: taking a breath beats spinning.
  void accept_later() {
    pause.expires_after(std::chrono::milliseconds(50));
    pause.async_wait([this](Error error) {
      if (!error) accept();
    });
  }

  void stop() {
    if (hub.stopping) return sockets.stop();  // asked twice: leave at once
    hub.stopping = true;
    Error ignored;
    acceptor.close(ignored);
    pause.cancel();
    hub.when_empty = [this] { sockets.stop(); };
    for (const auto waiting = hub.waiting; Connection * connection : waiting) connection->close();
    if (hub.open == 0) return sockets.stop();
    patience.expires_after(std::chrono::seconds(3));
    patience.async_wait([this](Error error) {
      if (!error) sockets.stop();
    });
  }

  Hub hub;  // first, so that it outlives the connections that unfinished work still holds
  asio::io_context sockets{1};
  asio::thread_pool workers{2};
  tcp::acceptor acceptor;
  asio::steady_timer pause;
  asio::steady_timer patience;
  std::optional<asio::signal_set> signals{};
};

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

Server::~Server() {
  parts_->workers.join();
  parts_->hub.when_empty = nullptr;
}

Result<std::unique_ptr<Server>> Server::open(const ServeOptions& options, Handler handler) {
  auto parts = std::make_unique<Parts>(options, std::move(handler));
  const tcp::endpoint here(asio::ip::address_v4::loopback(), options.port);
  const std::string port = std::to_string(options.port);
  Error error;
  parts->acceptor.open(here.protocol(), error);
  if (!error) parts->acceptor.set_option(asio::socket_base::reuse_address(true), error);
  if (!error) parts->acceptor.bind(here, error);
  if (!error) parts->acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error == asio::error::address_in_use) {
    const std::string other = std::to_string(options.port < 65535 ? options.port + 1 : 7333);
    return Problem{"port_in_use", "--port",
                   said("Port {0} is in use by another program, perhaps by Redd itself: look at http://127.0.0.1:{1} first. Or choose another port: --port {2}", port, port, other)};
  }
  if (error == asio::error::access_denied)
    return Problem{"port_not_allowed", "--port",
                   said("This system does not let you use port {0}. Choose one above 1023: --port 7333", port)};
  if (error)
    return Problem{"cannot_listen", "--port",
                   said("Redd can't listen on port {0} of this machine: {1}.", port, error.message())};

  if (options.stop_on_signals) {
    parts->signals.emplace(parts->sockets, SIGINT, SIGTERM);
    parts->signals->async_wait([raw = parts.get()](Error failed, int) {
      if (!failed) raw->stop();
    });
  }
  parts->accept();
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

std::uint16_t Server::port() const {
  Error ignored;
  return parts_->acceptor.local_endpoint(ignored).port();
}

void Server::run() {
  parts_->sockets.run();
  parts_->workers.join();
}

void Server::stop() {
  asio::post(parts_->sockets, [parts = parts_.get()] { parts->stop(); });
}

}  // namespace redd::server
