// Every address of docs/openapi.json, asked by everybody: what is allowed is written here by hand, all else must be refused.
#include <algorithm>
#include <set>

#include "server/classroom_fixture.h"

namespace redd::server {
namespace {

const std::set<std::string> of_anybody{"GET /api/classroom", "POST /api/classroom/sign-in", "POST /api/classroom/sign-out"};
const std::set<std::string> of_the_bench{"GET /api/season", "GET /api/day", "GET /api/kits", "GET /api/thermometer", "POST /api/bench", "POST /api/records"};

std::string filled(std::string path) {
  for (const auto& [part, value] : {std::pair<std::string, std::string>{"{id}", "1"}, {"{key}", "power_cut"}, {"{name}", "oxygen_saturation"}, {"{file}", "ph.svg"}})
    if (const auto at = path.find(part); at != std::string::npos) path.replace(at, part.size(), value);
  EXPECT_EQ(path.find('{'), std::string::npos) << path;
  return path;
}

struct Walk : ClassroomTest {
  /// Calls back with "GET /api/day" and its answer. Who is signed in stays so: signing out is left for others.
  template <class Each>
  int walk(const Device& device, const Each& each) {
    int count = 0;
    const auto paths = description()["paths"];
    for (const auto& [path, methods] : paths.items())
      for (const auto& [method, operation] : methods.items()) {
        std::string upper(method);
        std::ranges::transform(upper, upper.begin(), [](char c) { return static_cast<char>(std::toupper(c)); });
        ++count;
        if (!device.token.empty() && path == "/api/classroom/sign-out") continue;
        const auto response = ask(device, upper, filled(path), upper == "POST" ? "{}" : "");
        each(upper + " " + path, response);
      }
    return count;
  }
};

TEST_F(Walk, WithoutASessionEveryAddressIsRefused) {
  set_up();
  const std::size_t before = records();
  const int count = walk({}, [](const std::string& what, const Response& response) {
    if (of_anybody.contains(what)) EXPECT_NE(response.status, 401) << what;
    else EXPECT_EQ(response.status, 401) << what;
  });
  EXPECT_EQ(count, static_cast<int>(routes().size()));
  EXPECT_EQ(records(), before);
}

TEST_F(Walk, WithABenchCodeEveryAddressButTheBenchsIsRefused) {
  set_up();
  const Device team = bench();
  const std::size_t before = records();
  walk(team, [](const std::string& what, const Response& response) {
    if (of_anybody.contains(what) || of_the_bench.contains(what)) EXPECT_TRUE(response.status != 401 && response.status != 403) << what << response.bytes();
    else EXPECT_EQ(response.status, 403) << what;
    if (of_the_bench.contains(what) && what.starts_with("GET")) EXPECT_EQ(response.status, 200) << what << response.bytes();
  });
  EXPECT_EQ(json(ask(team, "GET", "/api/classroom"))["role"], "bench");
  EXPECT_EQ(records(), before);
}

TEST_F(Walk, WithThePassphraseNoAddressIsRefused) {
  set_up();
  (void)bench();  // code 1 and session 1, which the walk ends
  const Device device = keeper();
  walk(device, [&](const std::string& what, const Response& response) { EXPECT_TRUE(response.status != 403 && (response.status != 401 || what.ends_with("sign-in"))) << what << response.bytes(); });
}

TEST_F(Walk, NoOtherMethodOpensAnything) {
  set_up();
  const Device team = bench();
  const std::size_t before = records();
  for (const char* method : {"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get", "post"})
    for (const Route& route : routes()) {
      EXPECT_GE(ask({}, method, filled(std::string(route.path)), "{}").status, 400) << method << " " << route.path;
      EXPECT_GE(ask(team, method, filled(std::string(route.path)), reading()).status, 400) << method << " " << route.path;
      now += std::chrono::seconds(1);  // or the walk itself would be too much
    }
  EXPECT_EQ(records(), before);
}

TEST_F(Walk, NoOtherSpellingOfAnAddressOpensIt) {
  set_up();
  for (const char* path : {"/api/history/", "//api/history", "/api//history", "/api/./history", "/api/x/../history", "/API/history", "/api/history%00", "/api%2fhistory", "/api/history;x", "/api/classroom/../history", "/api/history%20"}) {
    auto made = request_from_target("GET", path);
    if (!made) continue;  // refused before it is a request
    made.value().headers = {{"host", "school-pc.local:7443"}};
    const auto response = raw(std::move(made).value(), {});
    EXPECT_TRUE(response.status >= 400) << path << " " << response.status;
  }
}

}  // namespace
}  // namespace redd::server
