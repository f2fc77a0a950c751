// Signing in and out, codes, sessions and what each may do, as the network's door answers; sockets are network_test.cpp's.
#include "server/classroom.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "server/classroom_fixture.h"

namespace redd::server {
namespace {

using namespace std::chrono_literals;

TEST_F(ClassroomTest, NobodyIsToldThatSigningInIsAskedForAndNothingElse) {
  const auto state = json(ask({}, "GET", "/api/classroom"));
  EXPECT_EQ(state["role"], "nobody");
  EXPECT_EQ(state["network"], true);
  EXPECT_TRUE(state["may_log"].empty());
  EXPECT_TRUE(state["addresses"].empty());
  EXPECT_TRUE(state["fingerprint"].is_null());
  EXPECT_EQ(ask({}, "GET", "/").status, ask({}, "GET", "/index.html").status);
  EXPECT_NE(ask({}, "GET", "/").status, 401) << "the page's own files are what signs in";
}

TEST_F(ClassroomTest, ThePassphraseMakesAKeeper) {
  set_up();
  const Device device = keeper();
  const auto state = json(ask(device, "GET", "/api/classroom"));
  EXPECT_EQ(state["role"], "keeper");
  EXPECT_TRUE(state["may_log"].is_null());
  EXPECT_EQ(state["addresses"][0], "https://school-pc.local:7443");
  EXPECT_EQ(state["fingerprint"].get<std::string>().size(), 32 * 3 - 1);
  EXPECT_EQ(ask(device, "POST", "/api/records", record("note", R"({"text":"All well"})", "keeper")).status, 201);
  EXPECT_EQ(ask(device, "GET", "/api/export").status, 200);
}

TEST_F(ClassroomTest, TheCookieIsForThisHostOverTlsAndForNoScript) {
  const auto response = ask({}, "POST", "/api/classroom/sign-in", std::string(R"({"passphrase":")") + invented_passphrase + "\"}");
  const std::string cookie(response.header("set-cookie").value_or(""));
  EXPECT_TRUE(cookie.starts_with("__Host-redd=")) << cookie;
  for (const char* part : {"; Path=/", "; Secure", "; HttpOnly", "; SameSite=Strict", "; Max-Age=36000"}) EXPECT_NE(cookie.find(part), std::string::npos) << part;
  EXPECT_EQ(cookie.find("Domain"), std::string::npos);
  EXPECT_EQ(token_in(response).size(), 43u) << "256 bits";
}

TEST_F(ClassroomTest, NoTwoTokensAreTheSameAndAWrongOneOpensNothing) {
  const Device first = keeper(), second = keeper();
  EXPECT_NE(first.token, second.token);
  for (const std::string& token : {std::string("x"), std::string(43, 'A'), first.token.substr(1), first.token + "A", std::string(5000, 'A')}) EXPECT_EQ(ask({"192.168.7.20", token}, "GET", "/api/day").status, 401) << token;
  EXPECT_NE(ask(first, "GET", "/api/day").status, 401);
}

TEST_F(ClassroomTest, OnlyTheHashOfAPassphraseIsKept) {
  ASSERT_TRUE(set_passphrase(season(), "seven otters walk home", now).empty());
  std::ifstream file(passphrase_file(season()));
  const std::string kept(std::istreambuf_iterator<char>(file), {});
  EXPECT_TRUE(kept.starts_with("$argon2id$v=19$m=65536,t=3,p=1$")) << kept;
  EXPECT_EQ(kept.find("otters"), std::string::npos);
  EXPECT_EQ(std::filesystem::status(passphrase_file(season())).permissions(), std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  EXPECT_TRUE(classroom->sign_in_with_passphrase("seven otters walk home", "192.168.7.20", "").visitor.has_value());
  EXPECT_FALSE(classroom->sign_in_with_passphrase(invented_passphrase, "192.168.7.20", "").visitor.has_value());
}

TEST_F(ClassroomTest, AShortPassphraseIsRefusedWithAWayToABetterOne) {
  for (const char* weak : {"", "otter", "elevenchars", "aaaaaaaaaaaaaaaaaa"}) {
    const auto problems = set_passphrase(season(), weak, now);
    ASSERT_EQ(problems.size(), 1u) << weak;
    EXPECT_NE(problems.front().sentence.find("Four words"), std::string::npos);
  }
}

TEST_F(ClassroomTest, ANewPassphraseEndsTheKeepersSessions) {
  const Device device = keeper(), team = bench();
  ASSERT_TRUE(set_passphrase(season(), "seven otters walk home", now).empty());
  EXPECT_EQ(ask(device, "GET", "/api/history").status, 401);
  EXPECT_EQ(json(ask(team, "GET", "/api/classroom"))["role"], "bench");
  ASSERT_TRUE(remove_passphrase(season(), now).has_value());
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", R"({"passphrase":"seven otters walk home"})").status, 401) << "none set: nobody gets in";
}

TEST_F(ClassroomTest, APassphraseFileOthersCanReadIsNotTrusted) {
  std::filesystem::permissions(passphrase_file(season()), std::filesystem::perms::others_read, std::filesystem::perm_options::add);
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", std::string(R"({"passphrase":")") + invented_passphrase + "\"}").status, 500);
}

TEST_F(ClassroomTest, ABenchCodeMakesABenchThatLogsReadingsOfItsTeam) {
  set_up();
  const Device team = bench();
  const auto state = json(ask(team, "GET", "/api/classroom"));
  EXPECT_EQ(state["role"], "bench");
  EXPECT_EQ(state["label"], "Team Newt");
  EXPECT_EQ(state["may_log"], (wire::Json{"reading", "temperature"}));
  EXPECT_TRUE(state["addresses"].empty());
  EXPECT_EQ(ask(team, "POST", "/api/records", reading()).status, 201);
  EXPECT_EQ(ask(team, "POST", "/api/records", record("temperature", R"({"temperature_c":8.1})")).status, 201);
  EXPECT_EQ(code(ask(team, "POST", "/api/records", reading("Team Heron"))), "not_yours");
  EXPECT_EQ(ask(team, "POST", "/api/records", reading("Team Newt", R"("supersedes":3,)")).status, 403);
  EXPECT_EQ(ask(team, "POST", "/api/records", reading("Team Newt", R"("at":"2031-01-10T20:00:00Z",)")).status, 403);
  EXPECT_EQ(ask(team, "POST", "/api/records/3/undo", R"({"author":"Team Newt"})").status, 403);
  EXPECT_EQ(ask(team, "GET", "/api/day?as_of=2031-01-10").status, 403);
  EXPECT_EQ(records(), 4u);
}

TEST_F(ClassroomTest, ABenchCodeAddsNoOtherKindOfRecord) {
  set_up();
  const Device team = bench();
  const std::size_t before = records();
  const auto example = [&](std::string_view kind) -> std::string {
    if (kind == "note") return R"({"text":"Hello"})";
    if (kind == "season_setup") return setup_body;
    if (kind == "kit") return kit_body;
    if (kind == "set_point") return R"({"temperature_c":9})";
    if (kind == "water_change") return R"({"volume_l":20})";
    return "{}";
  };
  for (const std::string_view kind : records::kind_names()) {
    if (kind == "reading" || kind == "temperature") continue;
    const auto response = ask(team, "POST", "/api/records", record(std::string(kind), example(kind)));
    EXPECT_GE(response.status, 400) << kind;
    if (example(kind) != "{}") EXPECT_EQ(response.status, 403) << kind << response.bytes();
  }
  EXPECT_EQ(records(), before);
}

TEST_F(ClassroomTest, ACodeWithoutATeamIsForAnyTeam) {
  set_up();
  const Device team = signed_in(R"({"code":")" + new_code("{}") + "\"}");
  EXPECT_EQ(ask(team, "POST", "/api/records", reading("Team Heron")).status, 201);
}

TEST_F(ClassroomTest, ACodeEndsAndItsSessionsWithIt) {
  const std::string typed = new_code(R"({"minutes":30})");
  const Device team = signed_in(R"({"code":")" + typed + "\"}");
  now += 29min;
  EXPECT_EQ(json(ask(team, "GET", "/api/classroom"))["role"], "bench");
  now += 1min;
  EXPECT_EQ(json(ask(team, "GET", "/api/classroom"))["role"], "nobody");
  EXPECT_EQ(code(ask({}, "POST", "/api/classroom/sign-in", R"({"code":")" + typed + "\"}")), "unknown_code");
}

TEST_F(ClassroomTest, TheKeeperSeesAndEndsWhatIsOpen) {
  const Device device = keeper();
  const Device one = bench("192.168.7.31"), other = bench("192.168.7.32");
  auto open = json(ask(device, "GET", "/api/classroom/access"));
  ASSERT_EQ(open["sessions"].size(), 3u);
  ASSERT_EQ(open["codes"].size(), 2u);
  EXPECT_EQ(open["sessions"][0]["own"], true);
  EXPECT_EQ(open["sessions"][1]["from"], "192.168.7.31");
  EXPECT_FALSE(open.dump().find(one.token) != std::string::npos || open["codes"][0].contains("code")) << "no word that opens anything";
  open = json(ask(device, "POST", "/api/classroom/codes/1/end", "{}"));
  EXPECT_EQ(open["sessions"].size(), 2u);
  EXPECT_EQ(ask(one, "GET", "/api/day").status, 401);
  EXPECT_EQ(ask(device, "POST", "/api/classroom/codes/1/end", "{}").status, 404);
  EXPECT_EQ(ask(device, "POST", "/api/classroom/sessions/x/end", "{}").status, 404);
  open = json(ask(device, "POST", "/api/classroom/end-all", "{}"));
  EXPECT_EQ(open["sessions"].size(), 1u);
  EXPECT_TRUE(open["codes"].empty());
  EXPECT_EQ(ask(other, "GET", "/api/day").status, 401);
  EXPECT_EQ(json(ask(device, "GET", "/api/classroom"))["role"], "keeper");
}

TEST_F(ClassroomTest, SessionsEndBySigningOutByIdlingAndAfterASchoolDay) {
  Device device = keeper();
  EXPECT_EQ(json(ask(device, "POST", "/api/classroom/sign-out", "{}"))["role"], "nobody");
  EXPECT_EQ(ask(device, "GET", "/api/history").status, 401);
  EXPECT_EQ(ask(device, "POST", "/api/classroom/sign-out", "{}").status, 200) << "twice does no harm";
  device = keeper();
  now += 60min;
  EXPECT_EQ(ask(device, "GET", "/api/history").status, 401);
  device = keeper();
  for (int i = 0; i < 19; ++i) {
    now += 30min;
    EXPECT_EQ(ask(device, "GET", "/api/history").status, 200);
  }
  now += 30min;
  EXPECT_EQ(ask(device, "GET", "/api/history").status, 401) << "ten hours";
}

TEST_F(ClassroomTest, SigningInAgainEndsTheSessionBefore) {
  const Device first = keeper();
  const auto response = ask(first, "POST", "/api/classroom/sign-in", R"({"code":")" + new_code() + "\"}");
  EXPECT_EQ(response.status, 200);
  EXPECT_NE(token_in(response), first.token);
  EXPECT_EQ(ask(first, "GET", "/api/history").status, 401);
}

TEST_F(ClassroomTest, WrongPassphrasesAndCodesWaitLongerAndLonger) {
  const std::string wrong = R"({"passphrase":"four herons count newts"})", right = std::string(R"({"passphrase":")") + invented_passphrase + "\"}";
  for (int i = 0; i < 5; ++i) EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", i % 2 == 0 ? wrong : R"({"code":"CDFG-HJKM"})").status, 401) << i;
  auto locked = ask({}, "POST", "/api/classroom/sign-in", right);
  EXPECT_EQ(locked.status, 429) << "even the right one waits";
  EXPECT_EQ(locked.header("retry-after"), "10");
  EXPECT_EQ(ask({"192.168.7.99"}, "POST", "/api/classroom/sign-in", right).status, 200) << "another device does not";
  EXPECT_EQ(at_this_machine("GET", "/api/classroom").status, 200) << "and the keeper's own machine never";
  now += 10s;
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", wrong).status, 401);
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", right).header("retry-after"), "20");
  now += 20s;
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", right).status, 200);
}

TEST_F(ClassroomTest, ARightCodeForgetsNoWrongPassphrase) {
  const std::string typed = new_code();
  for (int i = 0; i < 4; ++i) EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})").status, 401);
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", R"({"code":")" + typed + "\"}").status, 200);
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})").status, 401);
  EXPECT_EQ(ask({}, "POST", "/api/classroom/sign-in", R"({"passphrase":"four herons count newts"})").status, 429);
}

TEST_F(ClassroomTest, OnePassphraseIsHashedAtATime) {
  ASSERT_TRUE(set_passphrase(season(), "seven otters walk home", now).empty());  // at its full cost, so that they meet
  std::atomic<int> waited{0}, wrong{0};
  std::vector<std::thread> crowd;
  for (int i = 0; i < 8; ++i)
    crowd.emplace_back([&, i] {
      const auto tried = classroom->sign_in_with_passphrase("four herons count newts", "192.168.8." + std::to_string(i), "");
      if (tried.wait > 0s) ++waited;
      else ++wrong;
    });
  for (auto& each : crowd) each.join();
  EXPECT_EQ(waited + wrong, 8);
  EXPECT_GE(wrong, 1);
  EXPECT_GE(waited, 1);
}

TEST_F(ClassroomTest, TooManyQuestionsWaitAndOthersDoNot) {
  const Device device = keeper();
  int good = 0;
  Response last;
  for (int i = 0; i < 700; ++i) {
    last = ask(device, "GET", "/api/classroom");
    good += last.status == 200;
  }
  EXPECT_EQ(good, 599) << "six hundred, signing in among them";
  EXPECT_EQ(last.status, 429);
  EXPECT_EQ(last.header("retry-after"), "2");
  EXPECT_EQ(ask({"192.168.7.77"}, "GET", "/api/classroom").status, 200);
  now += 10s;
  EXPECT_EQ(ask(device, "GET", "/api/classroom").status, 200);
}

TEST_F(ClassroomTest, AChangeNeedsThePagesHeaderAndItsOwnOrigin) {
  set_up();
  const Device device = keeper();
  const std::string note = record("note", R"({"text":"Hello"})", "keeper");
  const auto changed = [&](const auto& change) {
    Request made = request("POST", "/api/records", note);
    change(made.headers);
    return raw(std::move(made), device);
  };
  EXPECT_EQ(changed([](Pairs& headers) { std::erase_if(headers, [](const auto& each) { return each.first == "redd-page"; }); }).status, 403);
  EXPECT_EQ(changed([](Pairs& headers) { for (auto& each : headers) if (each.first == "origin") each.second = "https://other.example"; }).status, 403);
  EXPECT_EQ(changed([](Pairs& headers) { for (auto& each : headers) if (each.first == "origin") each.second = "http://school-pc.local:7443"; }).status, 403) << "the same name without TLS";
  EXPECT_EQ(changed([](Pairs& headers) { for (auto& each : headers) if (each.first == "origin") each.second = "null"; }).status, 403);
  EXPECT_EQ(changed([](Pairs& headers) { headers.emplace_back("sec-fetch-site", "cross-site"); }).status, 403);
  EXPECT_EQ(changed([](Pairs& headers) { headers.emplace_back("sec-fetch-site", "same-site"); }).status, 403);
  EXPECT_EQ(changed([](Pairs& headers) { for (auto& each : headers) if (each.first == "content-type") each.second = "text/plain"; }).status, 415);
  EXPECT_EQ(records(), 2u);
  EXPECT_EQ(changed([](Pairs& headers) { headers.emplace_back("sec-fetch-site", "same-origin"); }).status, 201);
  Request signing_in = request("POST", "/api/classroom/sign-in", std::string(R"({"passphrase":")") + invented_passphrase + "\"}");
  std::erase_if(signing_in.headers, [](const auto& each) { return each.first == "redd-page"; });
  EXPECT_EQ(raw(std::move(signing_in), {}).status, 403) << "nor can another page sign somebody in";
}

TEST_F(ClassroomTest, OnlyNamesOfTheCertificateAreAnswered) {
  const Device device = keeper();
  const auto with_host = [&](const std::string& host) {
    Request made = request("GET", "/api/classroom");
    made.headers = {{"host", host}};
    if (host.empty()) made.headers.clear();
    return raw(std::move(made), device);
  };
  for (const char* host : {"school-pc.local", "school-pc.local:7443", "SCHOOL-PC.local:1", "localhost:7443", "192.168.7.5:7443", "127.0.0.1:7443"}) EXPECT_EQ(with_host(host).status, 200) << host;
  for (const char* host : {"", "evil.example", "school-pc.local.evil.example", "evil.example:7443", "192.168.7.6", "school-pc.local:", "school-pc.local:7443x", "x school-pc.local", "[::1]", "school-pc"}) EXPECT_EQ(code(with_host(host)), "wrong_host") << host;
}

TEST_F(ClassroomTest, EveryAnswerCarriesTheStrictPolicy) {
  const Device device = keeper();
  for (const auto& response : {ask({}, "GET", "/"), ask({}, "GET", "/nothing/here"), ask({}, "GET", "/api/day"), ask(device, "GET", "/api/history"), ask(device, "DELETE", "/")}) {
    const std::string policy(response.header("content-security-policy").value_or(""));
    EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
    EXPECT_NE(policy.find("frame-ancestors 'none'"), std::string::npos);
    EXPECT_EQ(policy.find("unsafe-inline"), std::string::npos);
    EXPECT_EQ(response.header("x-content-type-options"), "nosniff");
  }
}

TEST_F(ClassroomTest, NoFieldComesBackAsMarkup) {
  set_up();
  const Device device = keeper();
  const std::string evil = "<img src=x onerror=alert(1)>";
  ASSERT_EQ(ask(device, "POST", "/api/records", record("note", R"({"text":")" + evil + "\"}", evil)).status, 201);
  for (const char* path : {"/api/history", "/api/day", "/api/audit", "/api/report"}) {
    const auto response = ask(device, "GET", path);
    EXPECT_EQ(response.content_type, "application/json") << path;
    EXPECT_TRUE(wire::parsed(response.bytes()).has_value()) << path;
  }
  EXPECT_EQ(std::string(ask(device, "GET", "/%3Cimg%20src=x%20onerror=alert(1)%3E").bytes()).find("onerror"), std::string::npos);
  EXPECT_NE(ask(device, "GET", "/api/day?as_of=%3Cscript%3E").content_type, "text/html");
}

TEST_F(ClassroomTest, LabelsThatLookLikePersonalDataAreRefusedEverywhere) {
  set_up();
  const Device device = keeper();
  const auto refused = ask(device, "POST", "/api/records", record("note", R"({"text":"Hello"})", "newt@example.org"));
  EXPECT_EQ(refused.status, 422);
  EXPECT_EQ(code(refused), "personal_data");
  EXPECT_EQ(field(refused), "/author");
  EXPECT_EQ(ask(device, "POST", "/api/classroom/codes", R"({"team":"555-0123"})").status, 422);
  EXPECT_EQ(field(at_this_machine("POST", "/api/records", record("duty", R"({"label":"newt@example.org","from":"2031-02-01"})"))), "/body/label");
  EXPECT_EQ(at_this_machine("POST", "/api/records/2/undo", R"({"author":"+1 (202) 555-0123"})").status, 422);
  EXPECT_EQ(records(), 2u);
}

TEST_F(ClassroomTest, AnOldSeasonKeepsItsLabelsAndSaysSo) {
  set_up();
  ASSERT_EQ(at_this_machine("POST", "/api/records", record("note", R"({"text":"Hello"})")).status, 201);
  std::string file(at_this_machine("GET", "/api/export").bytes());
  for (std::size_t at = 0; (at = file.find("Team Newt", at)) != std::string::npos;) file.replace(at, 9, "newt@example.org");
  desk.reset();
  std::filesystem::remove_all(folder / "copies");
  std::filesystem::remove(season());
  open();
  const auto taken = at_this_machine("POST", "/api/import", file);
  ASSERT_EQ(taken.status, 201) << taken.bytes();
  EXPECT_EQ(json(taken)["warnings"].size(), 1u) << taken.bytes();
  EXPECT_EQ((*desk->look())->records.back().entry.author, "newt@example.org");
}

TEST_F(ClassroomTest, NothingIsSharedWithoutANetwork) {
  Classroom alone(season(), [this] { return now; }, std::nullopt);
  const App app(*desk, nullptr, &alone);
  EXPECT_EQ(app.handle_from_network(request("GET", "/")).status, 403);
  Request code_wanted = request("POST", "/api/classroom/codes", "{}");
  code_wanted.headers = {{"host", "127.0.0.1:7333"}, {"content-type", "application/json"}};
  EXPECT_EQ(app.handle(code_wanted).status, 409);
  EXPECT_EQ(App(*desk).handle_from_network(request("GET", "/")).status, 403);
}

}  // namespace
}  // namespace redd::server
