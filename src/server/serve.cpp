// Callback style on purpose: the coroutines of GCC 12 have known defects, and a request needs only five steps.
// One Connection reads a request, hands it to a worker, writes the answer and starts over. Everything that touches a
// socket runs on the one thread inside Server::run(), so connections need no locks. A Connection is the same over TCP and
// over TLS; how TLS begins and ends stands in its own steps.
#include "server/serve.h"

#include <boost/asio/dispatch.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/ssl.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <boost/beast/ssl.hpp>
#include <csignal>
#include <exception>
#include <list>
#include <optional>
#include <type_traits>

#include "classroom/limits.h"

namespace redd::server {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
namespace ssl = asio::ssl;
using tcp = asio::ip::tcp;
using Error = beast::error_code;

/// Somebody connected, whatever the stream.
class Guest {
 public:
  virtual ~Guest() = default;
  virtual void close() = 0;

 protected:
  Guest() = default;
  Guest(const Guest&) = default;
  Guest& operator=(const Guest&) = default;
};

/// What all connections of the program share. Lives on the socket thread.
struct House {
  ServeOptions options;
  asio::io_context& sockets;
  asio::thread_pool& workers;
  std::size_t open = 0;
  bool stopping = false;
  std::function<void()> when_empty{};
};

/// What the connections of one door share.
struct Hub {
  House& house;
  Handler handler;
  std::size_t body_limit;
  std::list<Guest*> waiting{};  ///< shaking hands, reading or idle, longest first; these may be closed at any time
  std::size_t open = 0;
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

template <class Stream>
class Connection : public Guest, public std::enable_shared_from_this<Connection<Stream>> {
 public:
  /// In      made: makes the stream of its socket. from: see Request.
  template <class... Made>
  Connection(Hub& hub, std::string from, Made&&... made) : stream_(std::forward<Made>(made)...), hub_(hub), from_(std::move(from)) {
    ++hub_.open;
    ++hub_.house.open;
  }
  ~Connection() override {
    leave_waiting();
    --hub_.open;
    House& house = hub_.house;
    if (--house.open == 0 && house.stopping && house.when_empty) house.when_empty();
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void begin() {
    if constexpr (is_tls) shake_hands();
    else read();
  }

  void close() override {
    Error ignored;
    lowest().socket().shutdown(tcp::socket::shutdown_both, ignored);
    lowest().close();
  }

 private:
  static constexpr bool is_tls = !std::is_same_v<Stream, beast::tcp_stream>;
  static constexpr std::size_t most_drained = 4 * 1024 * 1024;

  beast::tcp_stream& lowest() { return beast::get_lowest_layer(stream_); }
  auto self() { return this->shared_from_this(); }
  const ServeOptions& options() const { return hub_.house.options; }

  void wait_in_line() { place_ = hub_.waiting.insert(hub_.waiting.end(), this); }
  void leave_waiting() {
    if (place_) hub_.waiting.erase(*place_);
    place_.reset();
  }

  /// The handshake has the deadline of a message, and its place among those that make room.
  void shake_hands() {
    lowest().expires_after(options().message_deadline);
    wait_in_line();
    beast::async_detect_ssl(lowest(), buffer_, [self = self()](Error error, bool is_hello) {
      if (error) return self->close();
      if (!is_hello) return self->say_https();
      // Callable with one argument too, as this Beast wrongly asks of the handler.
      self->stream_.async_handshake(ssl::stream_base::server, self->buffer_.data(), [self](Error failed, std::size_t used = 0) {
        self->leave_waiting();
        self->buffer_.consume(used);
        // What TLS did not take is no message of ours.
        if (failed || self->buffer_.size() > 0) return self->close();
        self->read();
      });
    });
  }

  /// A browser that was given the address without "https://" would show a riddle instead.
  void say_https() {
    leave_waiting();
    static constexpr std::string_view words = "HTTP/1.1 400 Bad Request\r\nContent-Type: text/plain\r\nConnection: close\r\nContent-Length: 42\r\n\r\nType https:// in front of Redd's address.\n";
    asio::async_write(lowest(), asio::buffer(words), [self = self()](Error error, std::size_t) {
      if (error) return self->close();
      self->see_off();
    });
  }

  void read() {
    if (hub_.house.stopping) return close();
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(options().header_limit));
    parser_->body_limit(hub_.body_limit);
    // Set once a message and not once a byte: a client that sends one byte now and then still has to finish in time.
    lowest().expires_after(options().message_deadline);
    wait_in_line();
    http::async_read(stream_, buffer_, *parser_, [self = self()](Error error, std::size_t) { self->on_read(error); });
  }

  void on_read(Error error) {
    leave_waiting();
    if (error == http::error::body_limit)
      return write_and_end(refusal(
          413, "too_large", "",
          said("The message is larger than Redd takes ({0} KiB).", hub_.body_limit / 1024)));
    if (error == http::error::header_limit || error == http::error::buffer_overflow)
      return write_and_end(refusal(431, "head_too_large", "", "The head of the request is larger than Redd takes."));
    if (error && error.category() == http::make_error_code(http::error::bad_method).category() &&
        error != http::error::end_of_stream && error != http::error::partial_message)
      return write_and_end(refusal(400, "bad_request", "", "This is not a request in HTTP/1.1."));
    if (error) return close();

    auto request = request_from_message(parser_->get());
    if (!request) return write_and_end(refusal(400, request.problems()));
    request.value().from = from_;
    keep_alive_ = parser_->get().keep_alive();
    is_head_ = parser_->get().method() == http::verb::head;
    lowest().expires_never();
    asio::post(hub_.house.workers, [self = self(), request = std::move(request).value()]() mutable {
      auto response = std::make_shared<Response>(answer_safely(self->hub_.handler, request));
      asio::io_context& sockets = self->hub_.house.sockets;
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
    if (hub_.house.stopping) keep_alive_ = false;
    const std::string_view bytes = response_->bytes();
    message_.emplace();
    message_->version(11);
    message_->result(static_cast<unsigned>(response_->status));
    if (!response_->content_type.empty()) message_->set(http::field::content_type, response_->content_type);
    for (const auto& [name, value] : response_->headers) message_->set(name, value);
    message_->keep_alive(keep_alive_);
    if (!is_head_) message_->body() = {bytes.data(), bytes.size()};
    if (response_->status != 304) message_->content_length(bytes.size());
    lowest().expires_after(options().message_deadline);
    http::async_write(stream_, *message_, [self = self()](Error error, std::size_t) { self->on_written(error); });
  }

  void on_written(Error error) {
    message_.reset();
    response_.reset();
    if (error) return close();
    if (keep_alive_ && !hub_.house.stopping) return read();
    if constexpr (is_tls) {
      // Says that this was all; whether the client says so too makes no difference.
      lowest().expires_after(std::chrono::seconds(2));
      stream_.async_shutdown([self = self()](Error) { self->see_off(); });
    } else {
      see_off();
    }
  }

  /// A client still sending would get a reset and might never see the answer: let it finish, for a short while.
  void see_off() {
    Error ignored;
    lowest().socket().shutdown(tcp::socket::shutdown_send, ignored);
    lowest().expires_after(std::chrono::seconds(2));
    drain();
  }

  void drain() {
    lowest().async_read_some(asio::buffer(scrap_), [self = self()](Error error, std::size_t count) {
      self->drained_ += count;
      if (error || self->hub_.house.stopping || self->drained_ > most_drained) return self->close();
      self->drain();
    });
  }

  Stream stream_;
  Hub& hub_;
  std::string from_;
  beast::flat_buffer buffer_{512 * 1024};
  std::optional<http::request_parser<http::string_body>> parser_{};
  std::shared_ptr<Response> response_{};
  std::optional<http::response<http::span_body<const char>>> message_{};
  std::optional<std::list<Guest*>::iterator> place_{};
  bool keep_alive_ = false;
  bool is_head_ = false;
  std::size_t drained_ = 0;
  std::array<char, 4096> scrap_{};
};

using PlainConnection = Connection<beast::tcp_stream>;
using TlsConnection = Connection<beast::ssl_stream<beast::tcp_stream>>;

/// TLS as a school's devices of the last ten years speak it, and nothing older.
Result<std::unique_ptr<ssl::context>> context_of(const NetworkListener& door) {
  auto context = std::make_unique<ssl::context>(ssl::context::tls_server);
  SSL_CTX* raw = context->native_handle();
  Error error;
  context->use_certificate_chain(asio::buffer(door.chain_pem), error);
  if (!error) context->use_private_key(asio::buffer(door.key_pem), ssl::context::pem, error);
  if (error || SSL_CTX_set_min_proto_version(raw, TLS1_2_VERSION) != 1 || SSL_CTX_set_cipher_list(raw, "ECDHE+AESGCM:ECDHE+CHACHA20") != 1)
    return Problem{"bad_certificate", "--certificate", said("The certificate can't be used: {0}.", error ? error.message() : "OpenSSL")};
  SSL_CTX_set_options(raw, SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION | SSL_OP_NO_TICKET | SSL_OP_CIPHER_SERVER_PREFERENCE);
  SSL_CTX_set_session_cache_mode(raw, SSL_SESS_CACHE_OFF);
  SSL_CTX_set_mode(raw, SSL_MODE_RELEASE_BUFFERS);  // idle ones hold little
  return context;
}

/// Accepts at one address for as long as the house is open.
class Door {
 public:
  /// In      receive: makes a Connection of the socket and begins.
  Door(House& house, Hub& hub, std::function<void(tcp::socket)> receive) : house_(house), hub_(hub), receive_(std::move(receive)), acceptor_(house.sockets), pause_(house.sockets) {}

  Error open(const tcp::endpoint& here) {
    Error error;
    acceptor_.open(here.protocol(), error);
    if (!error) acceptor_.set_option(asio::socket_base::reuse_address(true), error);
    if (!error) acceptor_.bind(here, error);
    if (!error) acceptor_.listen(asio::socket_base::max_listen_connections, error);
    return error;
  }

  void accept() {
    acceptor_.async_accept([this](Error error, tcp::socket socket) {
      if (house_.stopping) return;
      if (error) return accept_later();
      // The one that has been silent longest makes room: a crowd of idle clients can't lock the keeper out. Where all are being answered the newcomer
      // goes, or those who never take their answers would use up what both doors have.
      if (hub_.open >= house_.options.connection_limit) {
        if (hub_.waiting.empty()) return accept();
        hub_.waiting.front()->close();
      }
      Error ignored;
      socket.set_option(tcp::no_delay(true), ignored);
      receive_(std::move(socket));
      accept();
    });
  }

  void close() {
    Error ignored;
    acceptor_.close(ignored);
    pause_.cancel();
    for (const auto waiting = hub_.waiting; Guest * guest : waiting) guest->close();
  }

  std::uint16_t port() const {
    Error ignored;
    return acceptor_.local_endpoint(ignored).port();
  }

 private:
  /// Out of file descriptors, most likely: taking a breath beats spinning.
  void accept_later() {
    pause_.expires_after(std::chrono::milliseconds(50));
    pause_.async_wait([this](Error error) {
      if (!error) accept();
    });
  }

  House& house_;
  Hub& hub_;
  std::function<void(tcp::socket)> receive_;
  tcp::acceptor acceptor_;
  asio::steady_timer pause_;
};

Problem not_listening(Error error, std::uint16_t wanted, const char* flag) {
  const std::string port = std::to_string(wanted);
  if (error == asio::error::address_in_use) {
    const std::string other = std::to_string(wanted < 65535 ? wanted + 1 : 7333);
    if (std::string_view(flag) == "--network-port") return {"port_in_use", flag, said("Port {0} is in use by another program. Choose another: --network-port {1}", port, other)};
    return {"port_in_use", flag, said("Port {0} is in use by another program, perhaps by Redd itself: look at http://127.0.0.1:{1} first. Or choose another port: --port {2}", port, port, other)};
  }
  if (error == asio::error::access_denied) return {"port_not_allowed", flag, said("This system does not let you use port {0}. Choose one above 1023: {1} {2}", port, flag, std::string_view(flag) == "--port" ? "7333" : "7443")};
  return {"cannot_listen", flag, said("Redd can't listen on port {0} of this machine: {1}.", port, error.message())};
}

}  // namespace

struct Server::Parts {
  Parts(const ServeOptions& options, Handler handler)
      : house{options, sockets, workers}, here{house, std::move(handler), options.body_limit}, patience(sockets), door(house, here, [this](tcp::socket socket) {
          std::make_shared<PlainConnection>(here, "", std::move(socket))->begin();
        }) {}

  Result<bool> open_network() {
    const NetworkListener& wanted = *house.options.network;
    auto made = context_of(wanted);
    if (!made) return made.problems();
    context = std::move(made).value();
    network.emplace(Hub{house, wanted.handler, wanted.body_limit});
    network_door.emplace(house, *network, [this](tcp::socket socket) { receive_guest(std::move(socket)); });
    const auto address = wanted.loopback_only ? asio::ip::address_v4::loopback() : asio::ip::address_v4::any();
    if (const Error error = network_door->open({address, wanted.port})) return not_listening(error, wanted.port, "--network-port");
    return true;
  }

  /// Whoever comes from the open internet is not answered at all.
  void receive_guest(tcp::socket socket) {
    Error gone;
    const auto address = socket.remote_endpoint(gone).address();
    if (gone || !address.is_v4() || !classroom::is_local_address(address.to_v4().to_uint())) return;
    std::make_shared<TlsConnection>(*network, address.to_string(), std::move(socket), *context)->begin();
  }

  void accept() {
    door.accept();
    if (network_door) network_door->accept();
  }

  void stop() {
    if (house.stopping) return sockets.stop();  // asked twice: leave at once
    house.stopping = true;
    house.when_empty = [this] { sockets.stop(); };
    door.close();
    if (network_door) network_door->close();
    if (house.open == 0) return sockets.stop();
    patience.expires_after(std::chrono::seconds(3));
    patience.async_wait([this](Error error) {
      if (!error) sockets.stop();
    });
  }

  // First, so that they outlive the connections that unfinished work still holds.
  House house;
  Hub here;
  std::optional<Hub> network{};
  std::unique_ptr<ssl::context> context{};
  asio::io_context sockets{1};
  asio::thread_pool workers{2};
  asio::steady_timer patience;
  Door door;
  std::optional<Door> network_door{};
  std::optional<asio::signal_set> signals{};
};

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

Server::~Server() {
  parts_->workers.join();
  parts_->house.when_empty = nullptr;
}

Result<std::unique_ptr<Server>> Server::open(const ServeOptions& options, Handler handler) {
  auto parts = std::make_unique<Parts>(options, std::move(handler));
  if (const Error error = parts->door.open({asio::ip::address_v4::loopback(), options.port})) return not_listening(error, options.port, "--port");
  if (options.network)
    if (const auto opened = parts->open_network(); !opened) return opened.problems();
  if (options.stop_on_signals) {
    parts->signals.emplace(parts->sockets, SIGINT, SIGTERM);
    parts->signals->async_wait([raw = parts.get()](Error failed, int) {
      if (!failed) raw->stop();
    });
  }
  parts->accept();
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

std::uint16_t Server::port() const { return parts_->door.port(); }
std::uint16_t Server::network_port() const { return parts_->network_door ? parts_->network_door->port() : 0; }

void Server::run() {
  parts_->sockets.run();
  parts_->workers.join();
}

void Server::stop() {
  asio::post(parts_->sockets, [parts = parts_.get()] { parts->stop(); });
}

}  // namespace redd::server
