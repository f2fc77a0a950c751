// Real sockets: many at once, slow ones, oversized and broken ones, and a clean stop.
#include "server/serve.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>
#include <thread>
#include <vector>

#include "server/socket.h"

namespace redd::server {
namespace {

using namespace std::chrono_literals;

class ServeTest : public ::testing::Test {
 protected:
  void start(ServeOptions options = {}) {
    options.port = 0;
    options.stop_on_signals = false;
    auto opened = Server::open(options, [this](const Request& request) {
      ++handled;
      if (request.path == "/throw") throw std::runtime_error("as asked");
      if (request.path == "/slow") std::this_thread::sleep_for(300ms);
      if (request.path == "/hold") released.get_future().wait_for(10s);
      return json_response("{\"path\":\"" + request.path + "\",\"bytes\":" + std::to_string(request.body.size()) + "}");
    });
    ASSERT_TRUE(opened.has_value());
    server = std::move(opened).value();
    thread = std::thread([this] { server->run(); });
  }
  void TearDown() override {
    if (!server) return;
    server->stop();
    thread.join();
  }
  std::string ask(const std::string& text) {
    Socket socket(server->port());
    socket.write(text);
    return socket.read_all();
  }
  std::string get(const std::string& path) {
    return ask("GET " + path + " HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
  }

  std::unique_ptr<Server> server;
  std::thread thread;
  std::atomic<int> handled{0};
  std::promise<void> released{};
};

TEST_F(ServeTest, AnswersOverOneConnectionAfterAnother) {
  start();
  Socket socket(server->port());
  for (const char* path : {"/a", "/b", "/c"}) {
    ASSERT_TRUE(socket.write("GET " + std::string(path) + " HTTP/1.1\r\nHost: x\r\n\r\n"));
    const auto answer = socket.read_one();
    EXPECT_EQ(status(answer), 200);
    EXPECT_NE(answer.find(path), std::string::npos);
  }
}

TEST_F(ServeTest, RequestsSentAheadAreAnsweredInOrder) {
  start();
  const auto answers = ask("GET /a HTTP/1.1\r\nHost: x\r\n\r\nGET /b HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
  EXPECT_LT(answers.find("/a"), answers.find("/b"));
  EXPECT_NE(answers.find("/b"), std::string::npos);
}

TEST_F(ServeTest, ManyAtOnceAreAllAnswered) {
  start();
  std::atomic<int> good{0};
  std::vector<std::thread> clients;
  for (int c = 0; c < 16; ++c)
    clients.emplace_back([&] {
      for (int i = 0; i < 25; ++i) good += status(get("/x")) == 200 ? 1 : 0;
    });
  for (auto& client : clients) client.join();
  EXPECT_EQ(good, 400);
}

TEST_F(ServeTest, TwoHundredSlowClientsHoldUpNobody) {
  start();
  std::vector<Socket> slow;
  for (int i = 0; i < 200; ++i) {
    slow.emplace_back(server->port());
    ASSERT_TRUE(slow.back().connected());
    slow.back().write(i % 2 == 0 ? "GET / HT" : "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\nhalf");
  }
  const auto begin = std::chrono::steady_clock::now();
  for (int i = 0; i < 10; ++i) EXPECT_EQ(status(get("/quick")), 200);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 2s);
}

TEST_F(ServeTest, AWholeMessageHasADeadline) {
  start({.message_deadline = 400ms});
  Socket socket(server->port());
  // A byte now and then must not keep the connection: the deadline is for the whole of it.
  bool open = true;
  const auto begin = std::chrono::steady_clock::now();
  for (const char c : std::string("GET / HTTP/1.1\r\nHost: xxxxxxxxxxxxxxxxxxxxxxxxxxxx")) {
    open = open && socket.write(std::string(1, c));
    if (!open) break;
    std::this_thread::sleep_for(50ms);
  }
  EXPECT_FALSE(open);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 2s);
  EXPECT_EQ(handled, 0);
}

TEST_F(ServeTest, TheSilentOnesMakeRoomWhenTheHouseIsFull) {
  start({.connection_limit = 20});
  std::vector<Socket> idle;
  for (int i = 0; i < 60; ++i) idle.emplace_back(server->port());
  EXPECT_EQ(status(get("/still")), 200);
}

TEST_F(ServeTest, ANewcomerGoesWhenAllAreBeingAnswered) {
  start({.connection_limit = 1});
  {
    Socket held(server->port());
    held.write("GET /hold HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
    while (handled == 0) std::this_thread::sleep_for(5ms);
    EXPECT_EQ(get("/newcomer"), "");
    released.set_value();
    EXPECT_EQ(status(held.read_all()), 200);
  }
  std::string after;
  for (int i = 0; i < 500 && after.empty(); ++i) after = get("/after");
  EXPECT_EQ(status(after), 200);
}

TEST_F(ServeTest, OversizedBodiesGetTheirAnswer) {
  start({.body_limit = 256 * 1024});
  const std::string body(300 * 1024, 'x');
  const auto announced =
      ask("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
  EXPECT_EQ(status(announced), 413);
  EXPECT_NE(announced.find("too_large"), std::string::npos);
  const auto chunked =
      ask("POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n4b000\r\n" + body + "\r\n0\r\n\r\n");
  EXPECT_EQ(status(chunked), 413);
  const auto absurd = ask("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 18446744073709551615\r\n\r\n");
  EXPECT_TRUE(status(absurd) == 413 || status(absurd) == 400) << absurd;
  EXPECT_EQ(handled, 0);
  const std::string most(256 * 1024, 'x');
  EXPECT_EQ(status(ask("POST / HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: " +
                       std::to_string(most.size()) + "\r\n\r\n" + most)),
            200);
}

TEST_F(ServeTest, OversizedHeadsGetTheirAnswer) {
  start();
  EXPECT_EQ(status(ask("GET / HTTP/1.1\r\nHost: x\r\nX-Long: " + std::string(20 * 1024, 'x') + "\r\n\r\n")), 431);
  EXPECT_EQ(status(ask("GET /" + std::string(20 * 1024, 'x') + " HTTP/1.1\r\nHost: x\r\n\r\n")), 431);
}

TEST_F(ServeTest, GarbageGetsA400AndTheServerLives) {
  start();
  for (const std::string& garbage : {std::string("hello\r\n\r\n"), std::string("\x16\x03\x01\x02\x00\x01\x00", 7),
                                     std::string("GET / HTTP/9.9\r\n\r\n"), std::string("GET  HTTP/1.1\r\n\r\n"),
                                     std::string("GET / HTTP/1.1\r\nno colon\r\n\r\n"), std::string(600, '\0'),
                                     std::string("GET / HTTP/1.1\r\nHost: x\r\nContent-Length: -1\r\n\r\n")}) {
    Socket socket(server->port());
    socket.write(garbage);
    const auto answer = socket.read_all();
    EXPECT_TRUE(answer.empty() || status(answer) == 400 || status(answer) == 431) << answer;
  }
  EXPECT_EQ(handled, 0);
  EXPECT_EQ(status(get("/after")), 200);
}

TEST_F(ServeTest, ABrokenTargetIsA400) {
  start();
  EXPECT_EQ(status(get("/%zz")), 400);
}

TEST_F(ServeTest, AHeadHasNoBody) {
  start();
  const auto answer = ask("HEAD /x HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
  EXPECT_EQ(status(answer), 200);
  EXPECT_TRUE(answer.ends_with("\r\n\r\n"));
  EXPECT_EQ(answer.find("Content-Length: 0"), std::string::npos);
}

TEST_F(ServeTest, AFailingHandlerIsA500AndTheServerLives) {
  start();
  EXPECT_EQ(status(get("/throw")), 500);
  EXPECT_EQ(status(get("/after")), 200);
}

TEST_F(ServeTest, WhatIsBeingAnsweredIsFinishedBeforeStopping) {
  start();
  std::string answer;
  std::thread client([&] { answer = get("/slow"); });
  while (handled == 0) std::this_thread::sleep_for(5ms);
  Socket idle(server->port());
  const auto begin = std::chrono::steady_clock::now();
  server->stop();
  thread.join();
  client.join();
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 2s);
  EXPECT_EQ(status(answer), 200);
  server.reset();
}

TEST_F(ServeTest, OnlyThisMachineIsListenedOn) {
  start();
  Socket here(server->port());
  EXPECT_TRUE(here.connected());
  sockaddr_in other{};
  other.sin_family = AF_INET;
  other.sin_port = htons(server->port());
  inet_pton(AF_INET, "127.0.0.2", &other.sin_addr);  // the same machine under an address that is not 127.0.0.1
  const int handle = socket(AF_INET, SOCK_STREAM, 0);
  EXPECT_NE(connect(handle, reinterpret_cast<sockaddr*>(&other), sizeof other), 0);
  close(handle);
}

TEST_F(ServeTest, APortInUseSaysSoAndOffersAnother) {
  start();
  ServeOptions options;
  options.port = server->port();
  options.stop_on_signals = false;
  const auto second = Server::open(options, [](const Request&) { return Response{}; });
  ASSERT_FALSE(second.has_value());
  EXPECT_EQ(second.problems().front().code, "port_in_use");
  EXPECT_NE(second.problems().front().sentence.find("--port"), std::string::npos);
}

}  // namespace
}  // namespace redd::server
