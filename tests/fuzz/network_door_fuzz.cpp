// Any request over the local network, from nobody and from a bench: nothing may crash, and only what the table of roles opens may succeed.

// links: server
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>

#include "secrets/certificate.h"
#include "server/app.h"

namespace {

using namespace redd;

void promise(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

struct School {
  School() {
    std::string name = (std::filesystem::temp_directory_path() / "redd-fuzz-XXXXXX").string();
    promise(mkdtemp(name.data()) != nullptr, "no folder to work in");
    folder = name;
    desk = server::SeasonDesk::open(folder / "season.redd", [this] { return now; }).value().release();
    certificate = secrets::own_certificate(folder, {{"school-pc.local"}, {}}, now).value();
    open();
  }
  /// As after a start of the server, with one team signed in.
  void open() {
    classroom = std::make_unique<server::Classroom>(folder / "season.redd", [this] { return now; }, server::Network{{}, certificate});
    const auto code = classroom->make_code("Team Newt", std::chrono::minutes(600), {classroom::Role::this_machine});
    token = classroom->sign_in_with_code(code->code, "192.168.7.21", "").token;
    promise(!token.empty(), "a new code does not hold");
  }

  Instant now = *instant_from_rfc3339("2031-01-20T20:00:00Z");
  std::filesystem::path folder;
  server::SeasonDesk* desk = nullptr;
  secrets::Certificate certificate;
  std::unique_ptr<server::Classroom> classroom;
  std::string token;
  int asked = 0;
};

std::string_view next_line(std::string_view& text) {
  const std::size_t end = text.find('\n');
  const std::string_view line = text.substr(0, end);
  text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  return line;
}

const std::set<std::string> of_nobody{"/api/classroom", "/api/classroom/sign-out"};
const std::set<std::string> of_the_bench{"/api/season", "/api/day", "/api/kits", "/api/bench", "/api/records"};

}  // namespace

/// In  "METHOD target", lines "name: value" up to an empty one, then the body. A value BENCH is the team's cookie.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static School school;
  std::string_view text(reinterpret_cast<const char*>(data), size);
  const std::string_view first = next_line(text);
  const std::size_t blank = first.find(' ');
  if (blank == std::string_view::npos) return 0;
  auto request = server::request_from_target(first.substr(0, blank), first.substr(blank + 1));
  // Signing in writes to the disk each time: it has tests of its own.
  if (!request || request->path == "/api/classroom/sign-in") return 0;
  bool is_bench = false;
  for (std::string_view line = next_line(text); !line.empty(); line = next_line(text)) {
    const std::size_t colon = line.find(": ");
    if (colon == std::string_view::npos) continue;
    std::string value(line.substr(colon + 2));
    if (value == "BENCH") value = "__Host-redd=" + school.token;
    is_bench = is_bench || value.find(school.token) != std::string::npos;
    request.value().headers.emplace_back(std::string(line.substr(0, colon)), std::move(value));
  }
  request.value().body = std::string(text);
  request.value().from = "192.168.7.21";
  school.now += std::chrono::seconds(1);
  const auto response = server::App(*school.desk, nullptr, school.classroom.get()).handle_from_network(*request);

  const std::string& path = request->path;
  const bool is_api = path == "/api" || path.starts_with("/api/");
  if (response.status < 300 && is_api) promise(of_nobody.contains(path) || (is_bench && of_the_bench.contains(path)), "an address is open that should not be");
  if (response.status < 300 && !is_api) promise(path != "/redd.html" && (request->method == "GET" || request->method == "HEAD"), "a change outside the interface");
  promise(response.status < 500, "bad input gave a 5xx");
  promise(school.desk->look().value()->records.empty(), "a bench set up a season");
  if (++school.asked % 20000 == 0 || school.classroom->visitor(school.token, "192.168.7.21").role != classroom::Role::bench) school.open();
  return 0;
}
