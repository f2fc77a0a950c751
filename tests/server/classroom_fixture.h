// A season shared in an invented classroom: a passphrase, a certificate, and requests as devices of the network would send them.
#pragma once

#include <fstream>
#include <iterator>

#include "secrets/passphrase.h"
#include "secrets/private_file.h"
#include "server/classroom.h"
#include "server/fixture.h"
#include "server/own_routes.h"

namespace redd::server {

inline const char* const invented_passphrase = "four herons count trout";

class ClassroomTest : public AppTest {
 protected:
  explicit ClassroomTest() {
    // As cheap as a hash can be: what is tested here is who is let in.
    const auto hash = secrets::hash_of_passphrase(invented_passphrase, {1, 1 << 20});
    EXPECT_TRUE(hash.has_value());
    EXPECT_TRUE(secrets::write_private_file(passphrase_file(season()), *hash).empty());
    share();
  }

  std::filesystem::path season() const { return folder / "season.redd"; }
  /// As after a start of the server: nobody is signed in.
  void share() {
    auto certificate = secrets::own_certificate(folder.path(), {{"school-pc.local", "localhost"}, {"192.168.7.5"}}, now);
    ASSERT_TRUE(certificate.has_value()) << certificate.problems().front().sentence;
    classroom = std::make_unique<Classroom>(season(), [this] { return now; }, Network{{"https://school-pc.local:7443"}, std::move(certificate).value()});
  }

  struct Device {
    std::string from = "192.168.7.20";
    std::string token{};
  };

  Response raw(Request request, const Device& device) {
    request.from = device.from;
    if (!device.token.empty()) request.headers.emplace_back("cookie", "theme=dark; __Host-redd=" + device.token);
    return App(*desk, nullptr, classroom.get()).handle_from_network(request);
  }
  Request request(const std::string& method, const std::string& target, const std::string& body = "") {
    auto made = request_from_target(method, target);
    EXPECT_TRUE(made.has_value()) << target;
    made.value().headers = {{"host", "school-pc.local:7443"}};
    if (method != "GET" && method != "HEAD") made.value().headers.insert(made.value().headers.end(), {{"content-type", "application/json"}, {"redd-page", "1"}, {"origin", "https://school-pc.local:7443"}});
    made.value().body = body;
    return std::move(made).value();
  }
  Response ask(const Device& device, const std::string& method, const std::string& target, const std::string& body = "") { return raw(request(method, target, body), device); }

  /// What the answer's cookie holds.
  static std::string token_in(const Response& response) {
    const std::string cookie(response.header("set-cookie").value_or(""));
    const std::size_t begin = cookie.find('=') + 1;
    return cookie.empty() ? "" : cookie.substr(begin, cookie.find(';') - begin);
  }
  Device signed_in(const std::string& body, const std::string& from = "192.168.7.20") {
    const auto response = ask({from}, "POST", "/api/classroom/sign-in", body);
    EXPECT_EQ(response.status, 200) << response.bytes();
    return {from, token_in(response)};
  }
  Device keeper(const std::string& from = "192.168.7.20") { return signed_in(std::string(R"({"passphrase":")") + invented_passphrase + "\"}", from); }
  /// Made at the keeper's own machine.
  std::string new_code(const std::string& body = R"({"team":"Team Newt"})") {
    const auto response = at_this_machine("POST", "/api/classroom/codes", body);
    EXPECT_EQ(response.status, 201) << response.bytes();
    return json(response)["code"];
  }
  Device bench(const std::string& from = "192.168.7.21") { return signed_in(R"({"code":")" + new_code() + "\"}", from); }
  Response at_this_machine(const std::string& method, const std::string& target, const std::string& body = "") {
    auto made = request_from_target(method, target);
    made.value().headers = {{"host", "127.0.0.1:7333"}, {"content-type", "application/json"}};
    made.value().body = body;
    return App(*desk, nullptr, classroom.get()).handle(made.value());
  }
  static std::string record(const std::string& kind, const std::string& body, const std::string& author = "Team Newt", const std::string& more = "") { return R"({"kind":")" + kind + R"(","author":")" + author + R"(",)" + more + R"("body":)" + body + "}"; }
  static std::string reading(const std::string& author = "Team Newt", const std::string& more = "") { return record("reading", R"({"kit":"card","test":"kh","form":"drops","value":4})", author, more); }
  std::size_t records() { return (*desk->look())->records.size(); }

  static wire::Json description() {
    std::ifstream file(REDD_SOURCE_DIR "/docs/openapi.json");
    auto tree = wire::parsed(std::string(std::istreambuf_iterator<char>(file), {}));
    EXPECT_TRUE(tree.has_value());
    return tree ? std::move(tree).value() : wire::Json();
  }

  std::unique_ptr<Classroom> classroom;
};

}  // namespace redd::server
