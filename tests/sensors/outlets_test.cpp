// How an alarm goes out: to a little server on this machine, to a program that stands in for sendmail, and what happens when nobody answers.
#include "sensors/outlets.h"

#include <sys/stat.h>

#include <future>
#include <sstream>
#include <thread>

#include "sensors/sensors_helpers.h"
#include "wire/json.h"

namespace redd::sensors {
namespace {

const Message alarm{"Redd, alarm: Tank of room 12", "The water reads 12.5 °C.", "too_warm", "begins", "2031-03-09T08:00:00Z"};

/// Answers one request with a status and gives what came.
class LittleServer {
 public:
  explicit LittleServer(std::string answer) : answer_(std::move(answer)) {
    socket_ = socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    EXPECT_EQ(bind(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
    socklen_t size = sizeof address;
    getsockname(socket_, reinterpret_cast<sockaddr*>(&address), &size);
    port_ = ntohs(address.sin_port);
    listen(socket_, 4);
    came_ = std::async(std::launch::async, [this] { return serve_one(); });
  }
  ~LittleServer() { close(socket_); }
  int port() const { return port_; }
  std::string came() { return came_.get(); }

 private:
  std::string serve_one() {
    const int client = accept(socket_, nullptr, nullptr);
    if (client < 0) return "";
    std::string text;
    char buffer[4096];
    while (true) {
      const std::size_t body = text.find("\r\n\r\n");
      if (body != std::string::npos) {
        const std::size_t at = text.find("Content-Length: ");
        if (at != std::string::npos && text.size() >= body + 4 + std::stoul(text.substr(at + 16))) break;
      }
      const auto got = read(client, buffer, sizeof buffer);
      if (got <= 0) break;
      text.append(buffer, static_cast<std::size_t>(got));
      if (text.front() != 'P') break;  // a greeting of TLS: this server has no certificate to show
    }
    EXPECT_EQ(write(client, answer_.data(), answer_.size()), static_cast<ssize_t>(answer_.size()));
    close(client);
    return text;
  }
  std::string answer_;
  int socket_ = -1, port_ = 0;
  std::future<std::string> came_;
};

Settings to(const std::string& url, std::optional<std::string> token = {}) {
  Settings s;
  s.webhook = WebhookSettings{url, std::move(token)};
  return s;
}

TEST(Webhook, PostsTheAlarmAsJson) {
  LittleServer server("HTTP/1.1 204 No Content\r\nContent-Length: 0\r\n\r\n");
  const auto sent = send_all(to("http://127.0.0.1:" + std::to_string(server.port()) + "/tank", "invented-token"), alarm);
  ASSERT_EQ(sent.size(), 1u);
  EXPECT_FALSE(sent[0].failure) << *sent[0].failure;
  const std::string came = server.came();
  EXPECT_TRUE(came.starts_with("POST /tank HTTP/1.1\r\n")) << came;
  EXPECT_NE(came.find("Authorization: Bearer invented-token\r\n"), std::string::npos);
  const auto body = wire::parsed(came.substr(came.find("\r\n\r\n") + 4));
  ASSERT_TRUE(body);
  EXPECT_EQ((*body)["alarm"], "too_warm");
  EXPECT_EQ((*body)["what"], "begins");
  EXPECT_EQ((*body)["text"], "The water reads 12.5 °C.");
}

TEST(Webhook, SaysWhenItDidNotGoOut) {
  LittleServer server("HTTP/1.1 500 No\r\nContent-Length: 0\r\n\r\n");
  const auto refused = send_all(to("http://127.0.0.1:" + std::to_string(server.port()) + "/", "invented-token"), alarm);
  EXPECT_NE(refused[0].failure.value().find("500"), std::string::npos);
  const auto nobody = send_all(to("http://127.0.0.1:" + std::to_string(free_port()) + "/", "invented-token"), alarm);
  ASSERT_TRUE(nobody[0].failure);
  EXPECT_EQ(nobody[0].failure->find("invented-token"), std::string::npos);
}

TEST(Webhook, IsNotLedElsewhere) {
  LittleServer server("HTTP/1.1 302 Found\r\nLocation: http://127.0.0.1:1/\r\nContent-Length: 0\r\n\r\n");
  EXPECT_NE(send_all(to("http://127.0.0.1:" + std::to_string(server.port()) + "/"), alarm)[0].failure.value().find("302"), std::string::npos);
}

TEST(Webhook, TrustsNoServerWithoutACertificate) {
  LittleServer server("HTTP/1.1 204 No Content\r\nContent-Length: 0\r\n\r\n");
  EXPECT_TRUE(send_all(to("https://127.0.0.1:" + std::to_string(server.port()) + "/"), alarm)[0].failure);
  server.came();
}

TEST(Mail, HasAHeadThatNobodyCanAddTo) {
  const MailSettings settings{"keeper@invented.example", "tank@invented.example"};
  Message odd = alarm;
  odd.title = "Redd: estanque de la señora\r\nBcc: all@invented.example";
  const std::string text = mail_text(settings, odd);
  EXPECT_NE(text.find("To: <keeper@invented.example>\r\n"), std::string::npos);
  EXPECT_EQ(text.find("\r\nBcc"), std::string::npos);
  EXPECT_NE(text.find("Subject: =?UTF-8?Q?Redd=3A_estanque"), std::string::npos) << text;
  EXPECT_NE(text.find("\r\n\r\nThe water reads 12.5 °C.\r\n"), std::string::npos);
}

TEST(Mail, NeedsAMailServerThatAnswers) {
  Settings s;
  s.mail = MailSettings{"keeper@invented.example", "tank@invented.example", "smtp://127.0.0.1:" + std::to_string(free_port()), "redd", "invented-password"};
  const auto sent = send_all(s, alarm);
  ASSERT_EQ(sent.size(), 1u);
  ASSERT_TRUE(sent[0].failure);
  EXPECT_EQ(sent[0].failure->find("invented-password"), std::string::npos);
}

TEST(Desktop, AProgramThatIsNotThereIsSaid) {
  // Run with a PATH that holds only what the test put there.
  const Folder folder;
  const std::string before = getenv("PATH") ? getenv("PATH") : "";
  setenv("PATH", folder.write("empty", "").parent_path().c_str(), 1);
  Settings s;
  s.desktop = true;
  EXPECT_TRUE(send_all(s, alarm)[0].failure);
  folder.write("notify-send", "#!/bin/sh\nfor a; do echo \"$a\"; done > \"${0%/*}/said\"\n", 0700);
  const auto sent = send_all(s, alarm);
  setenv("PATH", before.c_str(), 1);
  ASSERT_FALSE(sent[0].failure) << *sent[0].failure;
  std::stringstream said;
  said << std::ifstream(folder / "said").rdbuf();
  EXPECT_NE(said.str().find("Redd, alarm: Tank of room 12"), std::string::npos);
}

TEST(Outlets, NoWayIsNobodyTold) { EXPECT_TRUE(send_all(Settings{}, alarm).empty()); }

}  // namespace
}  // namespace redd::sensors
