// The second door on real sockets, with a real certificate: TLS, limits, slow ones, and a whole visit of a team.
#include <chrono>
#include <thread>
#include <vector>

#include "server/classroom_fixture.h"
#include "server/serve.h"
#include "server/tls_socket.h"

namespace redd::server {
namespace {

using namespace std::chrono_literals;

class NetworkTest : public ClassroomTest {
 protected:
  NetworkTest() {
    now = system_now();  // a client looks at its own clock
    share();
    app = std::make_unique<App>(*desk, nullptr, classroom.get());
  }
  ~NetworkTest() override { stop(); }

  /// A season of these days: readings of today belong to it.
  void set_up() {
    const auto day = [&](int from_today) { return iso_from_date(Date{std::chrono::floor<std::chrono::days>(now).time_since_epoch()} + std::chrono::days(from_today)); };
    ASSERT_EQ(post_record("season_setup", R"({"name":"Test season","time_zone":"America/Denver","first_day":")" + day(-14) + R"(","volume_l":210,"elevation_m":640,"species":"brook_trout","egg_day":")" + day(21) + R"(","egg_count":100,"target_c":8})").status, 201);
    ASSERT_EQ(post_record("kit", kit_body).status, 201);
  }

  void start(ServeOptions options = {}) {
    options.port = 0;
    options.stop_on_signals = false;
    options.network = NetworkListener{.port = 0, .chain_pem = pem(), .key_pem = classroom->network()->certificate.key_pem, .handler = [this](const Request& request) { return app->handle_from_network(request); }, .loopback_only = true};
    auto opened = Server::open(options, [this](const Request& request) { return app->handle(request); });
    ASSERT_TRUE(opened.has_value()) << opened.problems().front().sentence;
    server = std::move(opened).value();
    thread = std::thread([this] { server->run(); });
  }
  void stop() {
    if (!server) return;
    server->stop();
    thread.join();
    server.reset();
  }

  std::string pem() const { return classroom->network()->certificate.chain_pem; }
  std::string host() const { return "localhost:" + std::to_string(server->network_port()); }
  std::string ask(const std::string& text) {
    TlsSocket socket(server->network_port(), pem());
    EXPECT_TRUE(socket.connected());
    socket.write(text);
    return socket.read_all();
  }
  std::string get(const std::string& path, const std::string& more = "") { return ask("GET " + path + " HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\n" + more + "\r\n"); }
  std::string post(const std::string& path, const std::string& body, const std::string& more = "") {
    return ask("POST " + path + " HTTP/1.1\r\nHost: " + host() + "\r\nOrigin: https://" + host() + "\r\nRedd-Page: 1\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" + more + "\r\n" + body);
  }
  std::string plainly(std::uint16_t port, const std::string& text) {
    Socket socket(port);
    socket.write(text);
    return socket.read_all();
  }

  std::unique_ptr<App> app;
  std::unique_ptr<Server> server;
  std::thread thread;
};

TEST_F(NetworkTest, AnswersOverTlsToWhoTrustsItsCertificateOnly) {
  start();
  TlsSocket socket(server->network_port(), pem());
  ASSERT_TRUE(socket.connected());
  EXPECT_EQ(socket.version(), "TLSv1.3");
  EXPECT_EQ(status(get("/api/classroom")), 200);
  const auto another = secrets::own_certificate(folder / "elsewhere", {{"localhost"}, {}}, now);
  EXPECT_FALSE(another.has_value()) << "there is no such folder";
  std::filesystem::create_directories(folder / "elsewhere");
  const auto foreign = secrets::own_certificate(folder / "elsewhere", {{"localhost"}, {}}, now);
  ASSERT_TRUE(foreign.has_value());
  EXPECT_FALSE(TlsSocket(server->network_port(), foreign->chain_pem).connected());
  EXPECT_FALSE(TlsSocket(server->network_port(), pem(), "other.example").connected()) << "another name";
}

TEST_F(NetworkTest, SpeaksTls12ButNothingOlder) {
  start();
  TlsSocket older(server->network_port(), pem(), "localhost", TLS1_2_VERSION);
  EXPECT_TRUE(older.connected());
  EXPECT_EQ(older.version(), "TLSv1.2");
  EXPECT_FALSE(TlsSocket(server->network_port(), pem(), "localhost", TLS1_1_VERSION).connected());
  EXPECT_FALSE(TlsSocket(server->network_port(), pem(), "localhost", TLS1_VERSION).connected());
}

TEST_F(NetworkTest, PlainHttpOnTheTlsPortIsToldWhatToType) {
  start();
  const auto answer = plainly(server->network_port(), "GET /api/classroom HTTP/1.1\r\nHost: " + host() + "\r\n\r\n");
  EXPECT_EQ(status(answer), 400);
  EXPECT_TRUE(answer.ends_with("Type https:// in front of Redd's address.\n")) << answer;
  EXPECT_EQ(status(get("/api/classroom")), 200);
}

TEST_F(NetworkTest, GarbageInsteadOfAHandshakeLeavesItServing) {
  start({.message_deadline = 2s});
  for (const std::string& garbage : {std::string("\x16\x03\x01\xff\xff", 5) + std::string(70000, 'x'), std::string(600, '\0'), std::string("\x16\x03\x01\x00\x05hello", 10), std::string("\x80\x2e\x01\x00\x02", 5)}) {
    Socket socket(server->network_port());
    socket.write(garbage);
    (void)socket.read_all();
  }
  EXPECT_EQ(status(get("/api/classroom")), 200);
}

TEST_F(NetworkTest, AWholeVisitOfATeam) {
  start();
  set_up();
  EXPECT_EQ(status(get("/api/day")), 401);
  EXPECT_EQ(status(post("/api/classroom/sign-in", R"({"code":"CDFG-HJKM"})")), 401);
  const auto signed_in = post("/api/classroom/sign-in", R"({"code":")" + new_code() + "\"}");
  ASSERT_EQ(status(signed_in), 200) << signed_in;
  const std::size_t at = signed_in.find("Set-Cookie: __Host-redd=") + 12;
  const std::string cookie = "Cookie: " + signed_in.substr(at, signed_in.find(';', at) - at) + "\r\n";
  EXPECT_EQ(status(get("/api/day", cookie)), 200);
  EXPECT_EQ(status(post("/api/records", reading(), cookie)), 201);
  EXPECT_EQ(status(post("/api/records", record("note", R"({"text":"Hello"})"), cookie)), 403);
  EXPECT_EQ(status(get("/api/export", cookie)), 403);
  EXPECT_EQ(status(post("/api/classroom/sign-out", "{}", cookie)), 200);
  EXPECT_EQ(status(get("/api/day", cookie)), 401);
  EXPECT_EQ(records(), 3u);
}

TEST_F(NetworkTest, TheDoorOfThisMachineAsksNobodyToSignInAndStaysThere) {
  start();
  set_up();
  const std::string here = "127.0.0.1:" + std::to_string(server->port());
  EXPECT_EQ(status(plainly(server->port(), "GET /api/day HTTP/1.1\r\nHost: " + here + "\r\nConnection: close\r\n\r\n")), 200);
  EXPECT_EQ(status(plainly(server->port(), "GET /api/day HTTP/1.1\r\nHost: school-pc.local:7443\r\nConnection: close\r\n\r\n")), 403);
  sockaddr_in other{};
  other.sin_family = AF_INET;
  other.sin_port = htons(server->port());
  inet_pton(AF_INET, "127.0.0.2", &other.sin_addr);
  const int handle = socket(AF_INET, SOCK_STREAM, 0);
  EXPECT_NE(connect(handle, reinterpret_cast<sockaddr*>(&other), sizeof other), 0);
  close(handle);
}

TEST_F(NetworkTest, AForeignHostOrOriginIsRefused) {
  start();
  EXPECT_EQ(status(ask("GET /api/classroom HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n")), 403);
  EXPECT_EQ(status(ask("GET /api/classroom HTTP/1.1\r\nConnection: close\r\n\r\n")), 403);
  EXPECT_EQ(status(get("/api/classroom", "Origin: https://evil.example\r\n")), 403);
}

TEST_F(NetworkTest, NoPathLeadsToAFile) {
  start();
  for (const char* path : {"/%2e%2e/season.redd", "/%2e%2e%2fseason.redd", "/../season.redd", "/assets/%2e%2e/%2e%2e/season.redd", "/..%5cseason.redd", "/season.redd", "/season.redd.classroom", "/season.redd.audit", "/network-key.pem", "//etc/passwd",
                           "/%2fetc%2fpasswd", "/..%2f..%2f..%2f..%2fetc/passwd", "/assets/..%00/index.js", "/.%2e/.%2e/etc/passwd", "/file:///etc/passwd"}) {
    const auto answer = get(path);
    EXPECT_TRUE(status(answer) == 404 || status(answer) == 400) << path << "\n" << answer.substr(0, 200);
    EXPECT_EQ(answer.find("root:"), std::string::npos) << path;
    EXPECT_EQ(answer.find("PRIVATE KEY"), std::string::npos) << path;
    EXPECT_EQ(answer.find("argon2"), std::string::npos) << path;
  }
  EXPECT_EQ(status(ask("GET http://" + host() + "/season.redd HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\n\r\n")), 400);
}

TEST_F(NetworkTest, BodiesAndHeadsHaveTheirLimits) {
  start();
  const auto large = post("/api/classroom/sign-in", std::string(129 * 1024, 'x'));
  EXPECT_EQ(status(large), 413) << large.substr(0, 200);
  EXPECT_EQ(status(post("/api/classroom/sign-in", std::string(127 * 1024, 'x'))), 400) << "read, and not JSON";
  EXPECT_EQ(status(get("/api/classroom", "X-Long: " + std::string(20 * 1024, 'x') + "\r\n")), 431);
  EXPECT_EQ(status(get("/" + std::string(20 * 1024, 'x'))), 431);
}

TEST_F(NetworkTest, AHandshakeHasADeadline) {
  start({.message_deadline = 400ms});
  const auto begin = std::chrono::steady_clock::now();
  Socket silent(server->network_port()), half(server->network_port());
  half.write(std::string_view("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 11));
  EXPECT_EQ(silent.read_all(), "");
  EXPECT_EQ(half.read_all(), "");
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 8s);
}

TEST_F(NetworkTest, AMessageHasADeadlineOverTlsToo) {
  start({.message_deadline = 1s});
  TlsSocket socket(server->network_port(), pem());
  ASSERT_TRUE(socket.connected());
  const auto begin = std::chrono::steady_clock::now();
  socket.write("GET / HT");
  EXPECT_EQ(socket.read_all(), "");
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 8s);
}

TEST_F(NetworkTest, UnfinishedHandshakesMakeRoomWhenTheHouseIsFull) {
  start({.connection_limit = 20});
  std::vector<Socket> silent;
  for (int i = 0; i < 60; ++i) silent.emplace_back(server->network_port());
  EXPECT_EQ(status(get("/api/classroom")), 200);
}

TEST_F(NetworkTest, FiveHundredSlowOnesStopNobodyAtEitherDoor) {
  allow_many_sockets();
  start();
  set_up();
  std::vector<Socket> slow;
  for (int i = 0; i < 500; ++i) {
    slow.emplace_back(i % 5 == 4 ? server->port() : server->network_port());
    ASSERT_TRUE(slow.back().connected()) << i;
    slow.back().write(i % 5 == 4 ? "POST /api/records HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\nhalf" : i % 2 == 0 ? std::string_view("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 11) : "");
  }
  const std::string here = "127.0.0.1:" + std::to_string(server->port());
  for (int i = 0; i < 10; ++i) {
    EXPECT_EQ(status(get("/api/classroom")), 200);
    EXPECT_EQ(status(plainly(server->port(), "GET /api/season HTTP/1.1\r\nHost: " + here + "\r\nConnection: close\r\n\r\n")), 200);
  }
}

TEST_F(NetworkTest, TwoHundredThatShookHandsAndFellSilentStopNobody) {
  allow_many_sockets();
  start();
  std::vector<std::unique_ptr<TlsSocket>> idle;
  for (int i = 0; i < 200; ++i) {
    idle.push_back(std::make_unique<TlsSocket>(server->network_port(), pem()));
    ASSERT_TRUE(idle.back()->connected()) << i;
    idle.back()->write("GET / HT");
  }
  for (int i = 0; i < 5; ++i) EXPECT_EQ(status(get("/api/classroom")), 200);
}

TEST_F(NetworkTest, ACertificateThatIsNoneOpensNoDoor) {
  ServeOptions options{.port = 0, .stop_on_signals = false, .network = NetworkListener{.port = 0, .chain_pem = "none", .key_pem = "none", .loopback_only = true}};
  const auto opened = Server::open(options, [](const Request&) { return Response{}; });
  ASSERT_FALSE(opened.has_value());
  EXPECT_EQ(opened.problems().front().code, "bad_certificate");
}

TEST_F(NetworkTest, APortInUseNamesItsOwnFlag) {
  start();
  ServeOptions options{.port = 0, .stop_on_signals = false, .network = NetworkListener{.port = server->network_port(), .chain_pem = pem(), .key_pem = classroom->network()->certificate.key_pem, .loopback_only = true}};
  const auto opened = Server::open(options, [](const Request&) { return Response{}; });
  ASSERT_FALSE(opened.has_value());
  EXPECT_EQ(opened.problems().front().field, "--network-port");
}

}  // namespace
}  // namespace redd::server
