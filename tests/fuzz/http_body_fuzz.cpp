// Any bytes as a request: nothing may crash, every refusal must be a 4xx that says why, and a record that is accepted
// must read back as it was written.

// links: server
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "server/app.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace {

using namespace redd;

void promise(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

const Instant now = *instant_from_rfc3339("2031-01-20T20:00:00Z");

/// A season with a kit, so that readings get past the first checks.
const std::vector<records::Record>& log_so_far() {
  static const std::vector<records::Record> records = [] {
    std::vector<records::Record> made;
    for (
        const char* text :
        {R"({"id":1,"logged_at":"2031-01-06T15:00:00Z","at":"2031-01-06T15:00:00Z","kind":"season_setup","author":"a","body":{"name":"T","time_zone":"UTC","first_day":"2031-01-06","volume_l":210,"species":"brook_trout","target_c":8}})",
         R"({"id":2,"logged_at":"2031-01-06T15:01:00Z","at":"2031-01-06T15:01:00Z","kind":"kit","author":"a","body":{"key":"card","name":"Card","tests":[{"key":"nitrite","quantity":"nitrite","method":"colour_steps","unit":"mg_no2_per_l","steps":[0.1,0.25,0.5]},{"key":"kh","quantity":"alkalinity","method":"drop_count","unit":"german_degrees","per_drop":1}]}})"})
      made.push_back(wire::record_from_json(text).value());
    return made;
  }();
  return records;
}

void check_entry(std::string_view body) {
  const auto entry = wire::entry_from_json(body, now);
  if (!entry) {
    for (const Problem& problem : entry.problems())
      promise(!problem.code.empty() && !problem.sentence.empty(), "a problem says nothing");
    return;
  }
  (void)records::problems_of(*entry, log_so_far(), ZoneOffsets{}, now);
  const std::string written = wire::json_from_body(entry->body);
  const auto again = wire::body_from_json(records::kind_name(entry->body), written);
  promise(again.has_value(), "an accepted body does not read back");
  promise(wire::json_from_body(*again) == written, "a body reads back differently");
}

/// A desk whose file can never be made: every path is walked and nothing is written.
server::SeasonDesk& desk() {
  static const auto opened =
      server::SeasonDesk::open("/proc/no-such-folder/season.redd", [] { return now; }).value().release();
  return *opened;
}

void check_request(std::string_view target, std::string_view body) {
  const bool posts = !body.empty();
  auto request = server::request_from_target(posts ? "POST" : "GET", target);
  if (!request) return;
  request.value().headers = {{"host", "127.0.0.1:7333"}, {"content-type", "application/json"}};
  request.value().body = std::string(body);
  const auto response = server::App(desk()).handle(*request);
  const bool is_setup = posts && response.status >= 500 && body.find("season_setup") != std::string_view::npos;
  promise(response.status < 500 || is_setup, "bad input gave a 5xx");
  if (response.status >= 400 && target.starts_with("/api/")) {
    const auto tree = wire::parsed(response.bytes());
    promise(tree.has_value() && tree->contains("problems") && !(*tree)["problems"].empty(),
            "a refusal without problems");
  }
}

}  // namespace

/// In  one line with the address, then the body.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const std::size_t line = text.find('\n');
  const std::string_view body = line == std::string_view::npos ? std::string_view() : text.substr(line + 1);
  check_request(text.substr(0, line), body);
  check_entry(body);
  return 0;
}
