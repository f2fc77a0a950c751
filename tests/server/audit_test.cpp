// Who did what: records and deeds on the network in one list.
#include "server/audit_view.h"

#include "server/classroom_fixture.h"

namespace redd::server {
namespace {

using namespace std::chrono_literals;

struct AuditTest : ClassroomTest {
  wire::Json rows(const std::string& query = "") { return json(at_this_machine("GET", "/api/audit" + query)); }
  void later() { now += 1min; }
};

TEST_F(AuditTest, TellsWhoDidWhatFromWhereNewestFirst) {
  set_up();
  later();
  const Device team = bench();
  later();
  ASSERT_EQ(ask(team, "POST", "/api/records", reading()).status, 201);
  later();
  ASSERT_EQ(ask({"192.168.7.66"}, "POST", "/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})").status, 401);
  const auto list = rows();
  ASSERT_EQ(list["rows"].size(), 6u) << list.dump();
  const auto& row = list["rows"];
  EXPECT_EQ(row[0]["what"], "sign_in_failed");
  EXPECT_EQ(row[0]["role"], "nobody");
  EXPECT_EQ(row[0]["from"], "192.168.7.66");
  EXPECT_EQ(row[1]["what"], "record");
  EXPECT_EQ(row[1]["role"], "bench");
  EXPECT_EQ(row[1]["label"], "Team Newt");
  EXPECT_EQ(row[1]["from"], "192.168.7.21");
  EXPECT_EQ(row[1]["record_id"], 3);
  EXPECT_EQ(row[2]["what"], "sign_in");
  EXPECT_EQ(row[2]["sentence"], "Signed in with bench code 1.");
  EXPECT_EQ(row[3]["what"], "code_made");
  EXPECT_EQ(row[3]["role"], "this_machine");
  EXPECT_EQ(row[3]["sentence"], "Made bench code 1 for Team Newt, for 120 minutes.");
  EXPECT_EQ(row[5]["record_id"], 1);
  EXPECT_EQ(row[5]["role"], "this_machine");
  EXPECT_TRUE(row[5]["from"].is_null());
  EXPECT_EQ(list["more"], false);
  EXPECT_TRUE(list["gaps"].empty());
}

TEST_F(AuditTest, HoldsNoPassphraseCodeOrToken) {
  const std::string typed = new_code();
  const Device team = signed_in(R"({"code":")" + typed + "\"}"), device = keeper();
  (void)ask({}, "POST", "/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})");
  std::ifstream file(audit_file(season()));
  const std::string text(std::istreambuf_iterator<char>(file), {});
  for (const std::string& secret : {typed, typed.substr(0, 4) + typed.substr(5), team.token, device.token, std::string(invented_passphrase), std::string("count newts")}) EXPECT_EQ(text.find(secret), std::string::npos) << secret;
  EXPECT_EQ(std::filesystem::status(audit_file(season())).permissions(), std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
}

TEST_F(AuditTest, GoesOnPageByPage) {
  set_up();
  for (int i = 0; i < 5; ++i) {
    later();
    (void)keeper();
  }
  auto page = rows("?limit=3");
  std::size_t seen = 0;
  for (;;) {
    seen += page["rows"].size();
    if (page["before"].is_null()) break;
    EXPECT_EQ(page["more"], true);
    page = rows("?limit=3&before=" + page["before"].dump());
  }
  EXPECT_EQ(seen, 7u);
  EXPECT_EQ(at_this_machine("GET", "/api/audit?limit=501").status, 422);
}

TEST_F(AuditTest, ARecordOfAnotherSeasonWithTheSameNumberIsNotTheSame) {
  set_up();
  const Device team = bench();
  ASSERT_EQ(ask(team, "POST", "/api/records", reading()).status, 201);
  desk.reset();
  std::filesystem::remove_all(folder / "copies");
  std::filesystem::remove(season());
  open();
  later();
  set_up();
  ASSERT_EQ(at_this_machine("POST", "/api/records", reading()).status, 201);
  const auto list = rows()["rows"];
  const auto& row = list[0];
  EXPECT_EQ(row["record_id"], 3);
  EXPECT_EQ(row["role"], "this_machine");
  bool told = false;
  for (const auto& each : list) told = told || each["sentence"] == "A record was logged that the season no longer holds.";
  EXPECT_TRUE(told) << list.dump();
}

TEST_F(AuditTest, WhatCanNotBeReadOrWrittenIsTold) {
  set_up();
  (void)keeper();
  std::ofstream(audit_file(season()), std::ios::app) << "not JSON\n{\"at\":\"never\"}\n";
  EXPECT_EQ(rows()["gaps"].size(), 1u);
  std::filesystem::remove(audit_file(season()));
  std::filesystem::create_directory(audit_file(season()));
  const auto refused = ask({}, "POST", "/api/classroom/sign-in", std::string(R"({"passphrase":")") + invented_passphrase + "\"}");
  EXPECT_EQ(refused.status, 500) << "nobody comes in of whom the list can't tell";
  EXPECT_FALSE(refused.header("set-cookie").has_value());
  EXPECT_EQ(at_this_machine("POST", "/api/classroom/codes", "{}").status, 500);
  EXPECT_EQ(at_this_machine("GET", "/api/audit").status, 500);
}

TEST_F(AuditTest, IsInTheReadersLanguage) {
  (void)keeper();
  EXPECT_EQ(rows("?language=es")["rows"][0]["sentence"], "Entró con la frase de acceso.");
}

TEST_F(AuditTest, ASeasonTakenInOverTheNetworkIsTold) {
  set_up();
  const std::string file(at_this_machine("GET", "/api/export").bytes());
  desk.reset();
  std::filesystem::remove_all(folder / "copies");
  std::filesystem::remove(season());
  open();
  ASSERT_EQ(ask(keeper(), "POST", "/api/import", file).status, 201);
  const auto list = rows()["rows"];
  EXPECT_EQ(list[0]["what"], "taken_in");
  EXPECT_EQ(list[0]["sentence"], "Took in a saved season: 2 records.");
}

}  // namespace
}  // namespace redd::server
