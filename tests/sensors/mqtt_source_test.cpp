// A topic of a real broker: numbers, JSON, retained messages, a password, a broker that goes and comes back.
#include <mosquitto.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>

#include <thread>

#include "sensors/sensors_helpers.h"
#include "sensors/source.h"

extern char** environ;

namespace redd::sensors {
namespace {

using namespace std::chrono;
using thermometer::Failure;

class Broker {
 public:
  explicit Broker(std::string more = "allow_anonymous true\n") : port_(free_port()), more_(std::move(more)) { start(); }
  ~Broker() { stop(); }
  Broker(const Broker&) = delete;
  Broker& operator=(const Broker&) = delete;
  int port() const { return port_; }
  const Folder& folder() const { return folder_; }

  void start() {
    const auto file = folder_.write("broker.conf", "listener " + std::to_string(port_) + " 127.0.0.1\nuser root\n" + more_);
    const std::string path = file.string();
    const char* program = std::filesystem::exists("/usr/sbin/mosquitto") ? "/usr/sbin/mosquitto" : "mosquitto";
    const char* arguments[] = {program, "-c", path.c_str(), nullptr};
    posix_spawn_file_actions_t quiet;
    posix_spawn_file_actions_init(&quiet);
    posix_spawn_file_actions_addopen(&quiet, 2, "/dev/null", 1, 0);
    ASSERT_EQ(posix_spawnp(&child_, program, &quiet, nullptr, const_cast<char**>(arguments), environ), 0) << "the package mosquitto is needed";
    posix_spawn_file_actions_destroy(&quiet);
  }
  void stop() {
    if (child_ <= 0) return;
    kill(child_, SIGTERM);
    waitpid(child_, nullptr, 0);
    child_ = 0;
  }

 private:
  Folder folder_;
  int port_;
  std::string more_;
  pid_t child_ = 0;
};

/// Publishes by the library's own plain calls, trying until the broker stands.
void publish(int port, const std::string& topic, const std::string& payload, bool retain = false, const char* user = nullptr, const char* password = nullptr) {
  mosquitto_lib_init();
  mosquitto* client = mosquitto_new(nullptr, true, nullptr);
  ASSERT_NE(client, nullptr);
  if (user) mosquitto_username_pw_set(client, user, password);
  int rc = MOSQ_ERR_CONN_REFUSED;
  for (int i = 0; i < 200 && rc != MOSQ_ERR_SUCCESS; ++i) {
    rc = mosquitto_connect(client, "127.0.0.1", port, 10);
    if (rc != MOSQ_ERR_SUCCESS) std::this_thread::sleep_for(milliseconds(25));
  }
  ASSERT_EQ(rc, MOSQ_ERR_SUCCESS);
  bool out = false;
  mosquitto_user_data_set(client, &out);
  mosquitto_publish_callback_set(client, [](mosquitto*, void* object, int) { *static_cast<bool*>(object) = true; });
  mosquitto_connect_callback_set(client, nullptr);
  ASSERT_EQ(mosquitto_loop(client, 100, 1), MOSQ_ERR_SUCCESS);
  ASSERT_EQ(mosquitto_publish(client, nullptr, topic.c_str(), static_cast<int>(payload.size()), payload.data(), 1, retain), MOSQ_ERR_SUCCESS);
  for (int i = 0; i < 100 && !out; ++i) mosquitto_loop(client, 50, 1);
  EXPECT_TRUE(out);
  mosquitto_disconnect(client);
  mosquitto_destroy(client);
  mosquitto_lib_cleanup();
}

MqttSettings settings(int port, std::optional<std::string> field = {}) {
  MqttSettings s;
  s.host = "127.0.0.1";
  s.port = port;
  s.topic = "school/tank";
  s.field = std::move(field);
  return s;
}

bool connected(const Source& source) {
  for (int i = 0; i < 400 && !source.trouble().empty(); ++i) std::this_thread::sleep_for(milliseconds(25));
  return source.trouble().empty();
}

/// What comes within ten seconds; publishes again meanwhile, as a sensor does.
std::optional<std::variant<double, Failure>> awaited(Source& source, int port, const std::string& payload, const char* user = nullptr, const char* password = nullptr) {
  for (int i = 0; i < 40; ++i) {
    publish(port, "school/tank", payload, false, user, password);
    for (int k = 0; k < 10; ++k) {
      if (auto value = source.read(); value && (std::holds_alternative<double>(*value) || std::get<Failure>(*value) != Failure::no_answer)) return value;
      std::this_thread::sleep_for(milliseconds(25));
    }
  }
  return std::nullopt;
}

TEST(MqttSource, ReadsNumbersAndFieldsOfJson) {
  const Broker broker;
  auto plain = mqtt_source(settings(broker.port())).value();
  auto json = mqtt_source(settings(broker.port(), "temperature")).value();
  ASSERT_TRUE(connected(*plain) && connected(*json));
  const auto number = awaited(*plain, broker.port(), "8.125");
  ASSERT_TRUE(number);
  EXPECT_EQ(std::get<double>(*number), 8.125);
  EXPECT_EQ(std::get<Failure>(json->read().value()), Failure::not_a_number) << "a number is no object";
  EXPECT_EQ(std::get<double>(awaited(*json, broker.port(), R"({"temperature": 7.5, "battery": 2.9})").value()), 7.5);
}

TEST(MqttSource, LeavesRetainedMessagesOut) {
  const Broker broker;
  publish(broker.port(), "school/tank", "4.0", true);
  auto source = mqtt_source(settings(broker.port())).value();
  ASSERT_TRUE(connected(*source));
  std::this_thread::sleep_for(milliseconds(300));
  EXPECT_FALSE(source->read()) << "nobody knows how old it is";
  EXPECT_EQ(std::get<double>(awaited(*source, broker.port(), "8.0").value()), 8.0);
}

TEST(MqttSource, SaysWhyTheLineDoesNotStand) {
  const Broker broker("allow_anonymous false\n");
  auto source = mqtt_source(settings(broker.port())).value();
  std::string trouble;
  for (int i = 0; i < 400 && trouble.find("uthori") == std::string::npos; ++i) {
    trouble = source->trouble();
    std::this_thread::sleep_for(milliseconds(25));
  }
  EXPECT_NE(trouble.find("uthori"), std::string::npos) << trouble;
  EXPECT_EQ(std::get<Failure>(source->read().value()), Failure::no_answer);
}

TEST(MqttSource, ConnectsAgainByItself) {
  Broker broker;
  auto source = mqtt_source(settings(broker.port())).value();
  ASSERT_TRUE(connected(*source));
  broker.stop();
  for (int i = 0; i < 400 && source->trouble().empty(); ++i) std::this_thread::sleep_for(milliseconds(25));
  EXPECT_FALSE(source->trouble().empty());
  EXPECT_EQ(std::get<Failure>(source->read().value()), Failure::no_answer);
  broker.start();
  ASSERT_TRUE(connected(*source));
  EXPECT_EQ(std::get<double>(awaited(*source, broker.port(), "8.5").value()), 8.5);
}

TEST(MqttPayload, IsANumberOrRefused) {
  const auto why = [](const std::string& text, std::optional<std::string> field = {}) { return std::get<Failure>(c_from_payload(text, field)); };
  EXPECT_EQ(std::get<double>(c_from_payload(R"({"t":"8.5"})", "t")), 8.5);
  EXPECT_EQ(why("warm"), Failure::not_a_number);
  EXPECT_EQ(why(""), Failure::not_a_number);
  EXPECT_EQ(why("{\"t\":", "t"), Failure::not_a_number);
  EXPECT_EQ(why("{\"u\":8}", "t"), Failure::not_a_number);
  EXPECT_EQ(why("{\"t\":true}", "t"), Failure::not_a_number);
  EXPECT_EQ(why("{\"t\":1e300}", "t"), Failure::out_of_range);
  EXPECT_EQ(why(std::string(100000, '8')), Failure::not_a_number);
}

}  // namespace
}  // namespace redd::sensors
