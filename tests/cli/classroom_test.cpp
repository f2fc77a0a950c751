// passphrase, serve --on-network, code, audit: a lesson with a shared season, from the terminal.
#include <openssl/ssl.h>
#include <sys/stat.h>

#include "cli/program.h"
#include "server/tls_socket.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

struct SharedClassroom : Program {
  SharedClassroom() {
    init();
    use_kit();
  }
  ~SharedClassroom() override {
    if (child > 0) {
      kill(child, SIGKILL);
      waitpid(child, nullptr, 0);
    }
  }

  fs::path in_data(const char* name) const { return folder / "data" / name; }
  void set_passphrase(const std::string& words = "four herons count trout") { good({"passphrase", "--from-file", "-"}, words + "\n"); }
  /// A port that was free a moment ago.
  static int free_port() {
    const int handle = socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    EXPECT_EQ(bind(handle, reinterpret_cast<sockaddr*>(&address), size), 0);
    getsockname(handle, reinterpret_cast<sockaddr*>(&address), &size);
    close(handle);
    return ntohs(address.sin_port);
  }
  /// Starts sharing and waits until both doors answer.
  void share(const std::vector<std::string>& more = {}) {
    port = free_port();
    do network_port = free_port();
    while (network_port == port);
    std::vector<std::string> words{"serve", "--no-browser", "--on-network", "--port", std::to_string(port), "--network-port", std::to_string(network_port)};
    words.insert(words.end(), more.begin(), more.end());
    std::ofstream(folder / "in.txt") << "";
    fs::remove(folder / "serve-out.txt");  // of the time before
    child = start(words, "serve-");
    for (int i = 0; i < 500 && !has(text_of(folder / "serve-out.txt"), "Stop it with Ctrl+C"); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    ASSERT_TRUE(has(text_of(folder / "serve-out.txt"), "Stop it with Ctrl+C")) << text_of(folder / "serve-out.txt") << text_of(folder / "serve-err.txt");
  }
  Ran stopped() {
    kill(child, SIGTERM);
    const Ran ran = finished(child, "serve-");
    child = 0;
    return ran;
  }
  std::string post(const std::string& path, const std::string& body, const std::string& cookie = "") {
    server::TlsSocket socket(static_cast<std::uint16_t>(network_port), text_of(in_data("network-certificate.pem")));
    EXPECT_TRUE(socket.connected());
    socket.write("POST " + path + " HTTP/1.1\r\nHost: localhost:" + std::to_string(network_port) + "\r\nRedd-Page: 1\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" + cookie + "\r\n" + body);
    return socket.read_all();
  }

  pid_t child = 0;
  int port = 0, network_port = 0;
};

TEST_F(SharedClassroom, WithoutAPassphraseThereIsNoSharing) {
  bad({"serve", "--no-browser", "--on-network"}, "redd passphrase");
  EXPECT_FALSE(fs::exists(in_data("network-key.pem")));
  bad({"passphrase"}, "--from-file");
  bad({"passphrase", "--from-file", "-"}, "at least 12", 1, "otter\n");
  bad({"passphrase", "--from-file", file("none")}, "none");
  EXPECT_FALSE(fs::exists(in_data("season.redd.classroom")));
  set_passphrase();
  EXPECT_TRUE(has(good({"passphrase", "--remove"}).out, "removed"));
  EXPECT_TRUE(has(good({"passphrase", "--remove"}).out, "no passphrase"));
  bad({"serve", "--no-browser", "--on-network"}, "redd passphrase");
}

TEST_F(SharedClassroom, FlagsThatMakeNoSenseAreRefused) {
  set_passphrase();
  bad({"serve", "--certificate", file("x.pem")}, "--on-network", 2);
  bad({"serve", "--no-browser", "--on-network", "--certificate", file("x.pem")}, "go together");
  bad({"serve", "--no-browser", "--on-network", "--certificate", file("x.pem"), "--key", file("y.pem")}, "x.pem");
  bad({"serve", "--no-browser", "--on-network", "--port", "7501", "--network-port", "7501"}, "--network-port");
  bad({"code", "--port", std::to_string(free_port())}, "redd serve --on-network");
}

TEST_F(SharedClassroom, AWholeLessonFromPassphraseToAudit) {
  set_passphrase();
  share();
  const std::string told = text_of(folder / "serve-out.txt");
  EXPECT_TRUE(has(told, "WARNING")) << told;
  EXPECT_TRUE(has(told, "never names of pupils")) << told;
  EXPECT_TRUE(has(told, "fingerprint")) << told;

  const Ran made = good({"code", "--team", "Team Newt", "--minutes", "45", "--port", std::to_string(port)});
  EXPECT_TRUE(has(made.out, "45 minutes")) << made.out;
  const std::size_t at = made.out.find("Bench code: ");
  ASSERT_NE(at, std::string::npos) << made.out;
  const std::string code = made.out.substr(at + 12, 9);
  bad({"code", "--team", "newt@example.org", "--port", std::to_string(port)}, "e-mail");
  bad({"code", "--minutes", "601", "--port", std::to_string(port)}, "600");

  const std::string answer = post("/api/classroom/sign-in", "{\"code\":\"" + code + "\"}");
  ASSERT_EQ(server::status(answer), 200) << answer;
  const std::size_t begin = answer.find("Set-Cookie: ") + 12;
  const std::string cookie = "Cookie: " + answer.substr(begin, answer.find(';', begin) - begin) + "\r\n";
  EXPECT_EQ(server::status(post("/api/records", R"({"kind":"temperature","author":"Team Newt","body":{"temperature_c":8.3}})", cookie)), 201);
  EXPECT_EQ(server::status(post("/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})")), 401);
  EXPECT_EQ(server::status(post("/api/classroom/sign-in", R"({"passphrase":"four herons count trout"})")), 200);
  const Ran open = good({"code", "--list", "--port", std::to_string(port)});
  for (const char* part : {"bench code 1", "Team Newt", "keeper", "127.0.0.1"}) EXPECT_TRUE(has(open.out, part)) << part << open.out;
  EXPECT_FALSE(has(open.out, code)) << "not shown again";
  EXPECT_TRUE(has(good({"code", "--end-all", "--port", std::to_string(port)}).out, "No code and no session"));
  EXPECT_EQ(server::status(post("/api/records", R"({"kind":"temperature","author":"Team Newt","body":{"temperature_c":8.3}})", cookie)), 401);
  EXPECT_EQ(stopped().code, 0);

  const Ran audit = good({"audit"});
  for (const char* part : {"Team Newt", "bench", "127.0.0.1", "8.3", "Gave a wrong passphrase.", "not signed in", "Signed in with the passphrase.", "Made bench code 1 for Team Newt, for 45 minutes.", "Set the passphrase.", "began to listen"}) EXPECT_TRUE(has(audit.out, part)) << part << "\n" << audit.out;
  EXPECT_FALSE(has(audit.out, code));
  const auto json = wire::parsed(good({"audit", "--json", "--limit", "2"}).out);
  ASSERT_TRUE(json.has_value());
  EXPECT_EQ((*json)["rows"].size(), 2u);
  EXPECT_EQ((*json)["more"], true);
  EXPECT_TRUE(has(good({"audit", "--language", "es"}).out, "Entró con la frase de acceso."));
}

TEST_F(SharedClassroom, TheSchoolsCertificateIsUsedWhenGiven) {
  set_passphrase();
  share();
  stopped();
  fs::rename(in_data("network-certificate.pem"), folder / "school.pem");
  fs::rename(in_data("network-key.pem"), folder / "school-key.pem");
  share({"--certificate", file("school.pem"), "--key", file("school-key.pem")});
  EXPECT_FALSE(fs::exists(in_data("network-key.pem")));
  server::TlsSocket socket(static_cast<std::uint16_t>(network_port), text_of(folder / "school.pem"));
  EXPECT_TRUE(socket.connected());
  EXPECT_EQ(stopped().code, 0);
}

TEST_F(SharedClassroom, TheSecretsAreInNoExportAndGoWithTheSeason) {
  set_passphrase();
  struct stat about {};
  for (const char* name : {"season.redd.classroom", "season.redd.audit"}) {
    ASSERT_EQ(::stat(in_data(name).c_str(), &about), 0) << name;
    EXPECT_EQ(about.st_mode & 0777, 0600u) << name;
  }
  good({"copies", "--make"});
  const std::string hash = text_of(in_data("season.redd.classroom"));
  EXPECT_TRUE(hash.starts_with("$argon2id$"));
  EXPECT_FALSE(has(good({"export"}).out, "argon2id"));
  EXPECT_FALSE(has(text_of(in_data("season.redd")), "argon2id"));
  for (const auto& copy : fs::directory_iterator(in_data("copies"))) EXPECT_FALSE(has(text_of(copy.path()), "argon2id"));
  std::ofstream(in_data(".season.redd.classroom.unfinished-1")) << "left by a killed program";
  good({"delete-season", "--name", "Test season"});
  for (const auto& left : fs::directory_iterator(in_data("")))
    EXPECT_FALSE(has(left.path().filename().string(), "season.redd")) << left.path();
}

TEST_F(SharedClassroom, LabelsAreScreenedAtTheTerminalToo) {
  bad({"log", "temperature", "8.4C", "--author", "newt@example.org"}, "e-mail");
  bad({"log", "duty", "555-0123", "--from", day(0)}, "telephone");
  bad({"undo", "2", "--author", "+1 (202) 555-0123"}, "telephone");
  good({"log", "temperature", "8.4C", "--author", "Room 12-14, period 3"});
}

}  // namespace
}  // namespace redd::cli
