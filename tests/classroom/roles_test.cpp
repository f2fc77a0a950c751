#include "classroom/roles.h"

#include <gtest/gtest.h>

#include <fstream>

namespace redd::classroom {
namespace {

using std::chrono::hours;

TEST(LowestRole, IsTheKeeperForWhatNoTableNames) {
  for (const char* path : {"/api", "/api/", "/api/audit", "/api/history", "/api/export", "/api/records/3/undo", "/api/classroom/access", "/api/something/new", "/redd.html"}) {
    EXPECT_EQ(lowest_role("GET", path), Role::keeper) << path;
    EXPECT_EQ(lowest_role("POST", path), Role::keeper) << path;
  }
}

TEST(LowestRole, IsTheTablesForItsMethodOnly) {
  EXPECT_EQ(lowest_role("GET", "/api/day"), Role::bench);
  EXPECT_EQ(lowest_role("HEAD", "/api/day"), Role::bench);
  EXPECT_EQ(lowest_role("POST", "/api/day"), Role::keeper);
  EXPECT_EQ(lowest_role("DELETE", "/api/records"), Role::keeper);
  EXPECT_EQ(lowest_role("POST", "/api/records"), Role::bench);
  EXPECT_EQ(lowest_role("GET", "/api/day/"), Role::keeper) << "only the address as it is routed";
  EXPECT_EQ(lowest_role("GET", "/API/day"), Role::nobody) << "not an address of the interface, so a file that is not there";
}

TEST(LowestRole, LetsAnybodyHaveThePagesOwnFiles) {
  for (const char* path : {"/", "/index.html", "/assets/index.js", "/favicon.svg"}) EXPECT_EQ(lowest_role("GET", path), Role::nobody) << path;
}

TEST(Roles, HaveNamesThatReadBack) {
  for (const Role role : {Role::nobody, Role::bench, Role::keeper, Role::this_machine}) EXPECT_EQ(role_of(name_of(role)), role);
  EXPECT_FALSE(role_of("teacher").has_value());
}

TEST(OpenAddresses, AreThoseOfTheGuide) {
  std::ifstream file(REDD_SOURCE_DIR "/docs/guide/classroom.md");
  std::vector<std::string> in_guide, in_table;
  for (std::string line; std::getline(file, line);)
    if (line.starts_with("| `")) in_guide.push_back(line);
  for (const OpenAddress& each : open_addresses()) in_table.push_back("| `" + std::string(each.method) + " " + std::string(each.path) + "` | " + std::string(name_of(each.lowest)) + " | " + std::string(each.why) + " |");
  EXPECT_EQ(in_guide, in_table);
}

struct BenchEntry : ::testing::Test {
  Instant now = *instant_from_rfc3339("2031-02-04T10:00:00Z");
  records::Entry entry{.at = now, .author = "Team Newt", .body = records::Reading{.kit = "card", .test = "kh", .form = records::Reading::Form::drops, .value = 4}};
  std::string field(std::string_view label = "") {
    const auto problems = problems_of_bench_entry(entry, label, now);
    return problems.empty() ? "" : problems.front().field;
  }
};

TEST_F(BenchEntry, MayBeAReadingOrATemperature) {
  EXPECT_EQ(field(), "");
  entry.body = records::TemperatureReading{};
  EXPECT_EQ(field(), "");
}

TEST_F(BenchEntry, MayBeNoOtherKind) {
  int refused = 0;
  for (const std::string_view kind : records::kind_names()) {
    entry.body = *records::body_of_kind(kind);
    if (kind != "reading" && kind != "temperature") refused += field() == "/kind";
  }
  EXPECT_EQ(refused, static_cast<int>(records::kind_names().size()) - 2);
}

TEST_F(BenchEntry, CorrectsNothing) {
  entry.supersedes = 3;
  EXPECT_EQ(field(), "/supersedes");
}

TEST_F(BenchEntry, CarriesTheLabelOfItsCode) {
  EXPECT_EQ(field("Team Newt"), "");
  EXPECT_EQ(field("Team Heron"), "/author");
  entry.author = "Team Heron";
  std::get<records::Reading>(entry.body).team = "Team Newt";
  EXPECT_EQ(field("Team Heron"), "/body/team");
  EXPECT_EQ(field(), "");
}

TEST_F(BenchEntry, IsAboutNow) {
  entry.at = now - hours(24);
  EXPECT_EQ(field(), "");
  entry.at = now - hours(24) - std::chrono::seconds(1);
  EXPECT_EQ(field(), "/at");
  entry.at = now + std::chrono::minutes(11);
  EXPECT_EQ(field(), "/at");
}

}  // namespace
}  // namespace redd::classroom
