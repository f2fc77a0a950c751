// The only file that knows libmosquitto.
#include <mosquitto.h>

#include <algorithm>
#include <cerrno>
#include <condition_variable>
#include <cstring>
#include <mutex>
#include <thread>
#include <utility>

#include "quantities/verbatim.h"
#include "sensors/source.h"
#include "wire/json.h"

namespace redd::sensors {
namespace {

using thermometer::Failure;

/// The library counts its own users; safe from several threads.
struct Library {
  Library() { mosquitto_lib_init(); }
  ~Library() { mosquitto_lib_cleanup(); }
};

struct Free {
  void operator()(mosquitto* client) const { mosquitto_destroy(client); }
};

/// Assumed: soon enough after a broker's new start, and seldom enough for one that is away for a weekend.
constexpr std::chrono::seconds first_wait{1}, longest_wait{30};

/// One thread of its own keeps the line: the library's own gives up for good where a name can't be looked up for a moment.
class MqttSource final : public Source {
 public:
  explicit MqttSource(MqttSettings settings) : settings_(std::move(settings)) {}
  Problems begin() {
    client_.reset(mosquitto_new(nullptr, true, this));
    if (!client_) return refused("no memory");
    mosquitto* c = client_.get();
    mosquitto_connect_callback_set(c, on_connect);
    mosquitto_message_callback_set(c, on_message);
    mosquitto_subscribe_callback_set(c, on_subscribe);
    if (settings_.user)
      if (const int rc = mosquitto_username_pw_set(c, settings_.user->c_str(), settings_.password ? settings_.password->c_str() : nullptr)) return refused(mosquitto_strerror(rc));
    if (settings_.tls)
      if (const int rc = mosquitto_tls_set(c, settings_.ca_file ? settings_.ca_file->c_str() : nullptr, settings_.ca_file ? nullptr : "/etc/ssl/certs", nullptr, nullptr, nullptr)) return refused(mosquitto_strerror(rc));
    thread_ = std::jthread([this](const std::stop_token& stop) { keep_line(stop); });
    return {};
  }

  std::optional<std::variant<double, Failure>> read() override {
    const std::lock_guard lock(mutex_);
    auto newest = std::exchange(newest_, std::nullopt);
    if (!newest && !trouble_.empty()) return Failure::no_answer;
    return newest;
  }
  Phrase trouble() const override {
    const std::lock_guard lock(mutex_);
    return trouble_;
  }

 private:
  static MqttSource& self(void* object) { return *static_cast<MqttSource*>(object); }
  static Problems refused(const char* why) { return {{"cannot_connect", "", said("The MQTT library refuses the settings: {0}.", verbatim(why))}}; }

  void keep_line(const std::stop_token& stop) {
    constexpr int keep_alive_s = 30, look_ms = 200;
    std::chrono::seconds wait = first_wait;
    std::mutex unused;
    std::condition_variable_any pause;
    while (!stop.stop_requested()) {
      int rc = mosquitto_connect(client_.get(), settings_.host.c_str(), settings_.port, keep_alive_s);
      while (rc == MOSQ_ERR_SUCCESS && !stop.stop_requested()) {
        rc = mosquitto_loop(client_.get(), look_ms, 1);
        if (trouble().empty()) wait = first_wait;
      }
      if (stop.stop_requested()) break;
      // What the broker itself said, such as a wrong password, tells more than that the line broke.
      if (trouble().empty() || rc != MOSQ_ERR_CONN_REFUSED) set_trouble(verbatim(rc == MOSQ_ERR_ERRNO ? std::strerror(errno) : mosquitto_strerror(rc)));
      std::unique_lock lock(unused);
      pause.wait_for(lock, stop, wait, [] { return false; });
      wait = std::min(wait * 2, longest_wait);
    }
    mosquitto_disconnect(client_.get());
  }

  void set_trouble(Phrase words) {
    const std::lock_guard lock(mutex_);
    trouble_ = std::move(words);
  }
  static void on_connect(mosquitto* client, void* object, int rc) {
    if (rc != 0) return self(object).set_trouble(verbatim(mosquitto_connack_string(rc)));
    const int asked = mosquitto_subscribe(client, nullptr, self(object).settings_.topic.c_str(), 1);
    self(object).set_trouble(asked == 0 ? Phrase() : verbatim(mosquitto_strerror(asked)));
  }
  static void on_subscribe(mosquitto*, void* object, int, int count, const int* granted) {
    if (count > 0 && granted[0] == 128) self(object).set_trouble("the broker does not let us read this topic");
  }
  static void on_message(mosquitto*, void* object, const mosquitto_message* message) {
    if (message->retain) return;
    MqttSource& source = self(object);
    const std::string_view payload(static_cast<const char*>(message->payload), message->payload ? static_cast<std::size_t>(message->payloadlen) : 0);
    auto c = c_from_payload(payload, source.settings_.field);
    const std::lock_guard lock(source.mutex_);
    source.newest_ = c;
  }

  Library library_;
  MqttSettings settings_;
  mutable std::mutex mutex_;
  std::optional<std::variant<double, Failure>> newest_{};
  Phrase trouble_ = "not connected yet";
  std::unique_ptr<mosquitto, Free> client_{};
  std::jthread thread_;  ///< last, so that it ends before the rest goes
};

}  // namespace

Result<std::unique_ptr<Source>> mqtt_source(const MqttSettings& settings) {
  auto source = std::make_unique<MqttSource>(settings);
  if (const Problems problems = source->begin(); !problems.empty()) return problems;
  return std::unique_ptr<Source>(std::move(source));
}

std::variant<double, Failure> c_from_payload(std::string_view payload, const std::optional<std::string>& field) {
  constexpr std::size_t largest_payload = 4096;
  if (payload.size() > largest_payload) return Failure::not_a_number;
  if (!field) return thermometer::c_from_number(payload);
  const auto tree = wire::parsed(payload);
  if (!tree || !tree->is_object() || !tree->contains(*field)) return Failure::not_a_number;
  const auto& value = (*tree)[*field];
  if (value.is_number()) return thermometer::checked(value.get<double>(), thermometer::Source::other);
  if (value.is_string()) return thermometer::c_from_number(value.get<std::string>());
  return Failure::not_a_number;
}

}  // namespace redd::sensors
