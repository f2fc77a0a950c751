#include "server/app.h"

#include "fixture.h"

namespace redd::server {
namespace {

TEST_F(AppTest, AnEmptyFolderIsAnEmptySeason) {
  const auto answer = get("/api/season");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(json(answer)["state"], "empty");
  EXPECT_TRUE(json(answer)["story"].is_null());
  EXPECT_EQ(get("/api/day").status, 409);
  EXPECT_EQ(get("/api/export").status, 409);
  EXPECT_EQ(json(get("/api/history"))["records"].size(), 0u);
  EXPECT_FALSE(std::filesystem::exists(folder / "season.redd"));
}

TEST_F(AppTest, TheSetUpBeginsTheSeason) {
  const auto answer = post_record("season_setup", setup_body);
  ASSERT_EQ(answer.status, 201) << answer.body;
  EXPECT_EQ(json(answer)["id"], 1);
  EXPECT_EQ(json(answer)["record"]["kind"], "season_setup");
  EXPECT_EQ(json(get("/api/season"))["state"], "ready");
  EXPECT_TRUE(std::filesystem::exists(folder / "season.redd"));
  open();
  EXPECT_EQ(json(get("/api/season"))["state"], "ready");
}

TEST_F(AppTest, NothingElseBeginsASeason) {
  const auto answer = post_record("note", R"({"text":"hello"})");
  EXPECT_EQ(answer.status, 409);
  EXPECT_EQ(code(answer), "no_season");
  EXPECT_FALSE(std::filesystem::exists(folder / "season.redd"));
}

TEST_F(AppTest, AWrongSetUpLeavesNoFile) {
  const auto change = [](const char* from, const char* to) {
    std::string body = setup_body;
    body.replace(body.find(from), std::string(from).size(), to);
    return body;
  };
  const auto species = post_record("season_setup", change("brook_trout", "moon_trout"));
  EXPECT_EQ(species.status, 422);
  EXPECT_EQ(field(species), "/body/species");
  const auto zone = post_record("season_setup", change("America/Denver", "America/Denvr"));
  EXPECT_EQ(zone.status, 422);
  EXPECT_EQ(field(zone), "/body/time_zone");
  EXPECT_NE(json(zone)["problems"][0]["sentence"].get<std::string>().find("Denver"), std::string::npos);
  const auto volume = post_record("season_setup", change("210", "-5"));
  EXPECT_EQ(volume.status, 422);
  EXPECT_EQ(field(volume), "/body/volume_l");
  const auto model =
      post_record("season_setup", change("\"target_c\"", "\"development_model\":\"guess\",\"target_c\""));
  EXPECT_EQ(model.status, 422);
  EXPECT_EQ(field(model), "/body/development_model");
  EXPECT_FALSE(std::filesystem::exists(folder / "season.redd"));
}

TEST_F(AppTest, OneTankHasOneSeason) {
  set_up();
  const auto second = post_record("season_setup", setup_body);
  EXPECT_EQ(second.status, 409);
  EXPECT_EQ(code(second), "second_season");
}

TEST_F(AppTest, AReadingChangesTheDay) {
  set_up();
  const std::string before(get("/api/day").bytes());
  const auto kept =
      post_record("reading", R"({"kit":"card","test":"nitrite","form":"between","value":0.25,"upper_value":0.5})");
  ASSERT_EQ(kept.status, 201) << kept.body;
  EXPECT_EQ(json(kept)["record"]["status"], "current");
  const auto after = get("/api/day");
  EXPECT_EQ(after.status, 200);
  EXPECT_NE(std::string(after.bytes()), before);
  EXPECT_EQ(json(after)["season"]["name"], "Test season");
  EXPECT_EQ(json(after)["today"], "2031-01-20");
}

TEST_F(AppTest, AnAnswerToAdviceIsARecordAndPutsItAside) {
  set_up();
  const auto before = json(get("/api/day"));
  const std::string key = before["actions"][0]["key"];
  const auto kept = post_record("advice_answer", R"({"answer":"not_now","action":")" + key + R"(","until":"2031-01-25"})");
  ASSERT_EQ(kept.status, 201) << kept.body;
  const auto after = json(get("/api/day"));
  ASSERT_EQ(after["put_aside"].size(), 1u);
  EXPECT_EQ(after["put_aside"][0]["key"], key);
  EXPECT_EQ(after["put_aside"][0]["answer"]["back"], "2031-01-25");
  EXPECT_NE(after["headline"]["tone"], "good");
  EXPECT_EQ(post_record("advice_answer", R"({"answer":"done","action":""})").status, 422);
  EXPECT_EQ(post_record("advice_answer", R"({"answer":"done","action":"x","until":"2031-01-25"})").status, 422);
}

TEST_F(AppTest, AReadingWithoutItsKitSaysSo) {
  ASSERT_EQ(post_record("season_setup", setup_body).status, 201);
  const auto answer = post_record("reading", R"({"kit":"card","test":"nitrite","form":"step","value":0.1})");
  EXPECT_EQ(answer.status, 422);
  EXPECT_EQ(field(answer), "/body/kit");
}

TEST_F(AppTest, WrongRecordsAreRefusedWithTheirFields) {
  set_up();
  struct Case {
    const char* kind;
    const char* body;
    const char* field;
  };
  const Case cases[] = {
      {"reading", R"({"kit":"card","test":"ph_meter","form":"number","value":15})", "/body/value"},
      {"reading", R"({"kit":"card","test":"kh","form":"drops","value":-3})", "/body/value"},
      {"reading", R"({"kit":"card","test":"nitrite","form":"step","value":0.17})", "/body/value"},
      {"temperature", R"({"temperature_c":200})", "/body/temperature_c"},
      {"temperature", R"({"temperature_c":"8"})", "/body/temperature_c"},
      {"temperature", R"({"temperature_c":8,"temperature_f":47})", "/body/temperature_f"},
      {"temperature", R"({"temprature_c":8})", "/body/temperature_c"},
      {"water_change", R"({"volume_l":-20})", "/body/volume_l"},
      {"water_change", R"({})", "/body/volume_l"},
      {"water_change", R"({"volume_l":20,"source_water":"moon"})", "/body/source_water"},
      {"count", R"({"what":"dead_eggs","count":1.5})", "/body/count"},
      {"count", R"({"what":"dead_unicorns","count":1})", "/body/what"},
      {"egg_receipt", R"({"count":100,"start":"fertilised_on","fertilised_on":"2031-02-30"})", "/body/fertilised_on"},
  };
  for (const Case& each : cases) {
    const auto answer = post_record(each.kind, each.body);
    EXPECT_EQ(answer.status, 422) << each.body << answer.body;
    EXPECT_EQ(field(answer), each.field) << answer.body;
  }
  EXPECT_EQ(json(get("/api/history"))["records"].size(), 2u) << "nothing of it was kept";
}

TEST_F(AppTest, WrongEnvelopesAreRefused) {
  set_up();
  const auto expect = [&](const std::string& body, int status, const std::string& wrong_field) {
    const auto answer = post("/api/records", body);
    EXPECT_EQ(answer.status, status) << body << answer.body;
    EXPECT_EQ(field(answer), wrong_field) << body << answer.body;
  };
  expect("", 400, "");
  expect("nonsense", 400, "");
  expect("[1,2]", 400, "");
  expect(std::string(5000, '['), 400, "");
  expect(R"({"kind":"note","kind":"note","author":"a","body":{"text":"x"}})", 422, "kind");
  expect(R"({"kind":"poem","author":"a","body":{"text":"x"}})", 422, "/kind");
  expect(R"({"kind":"note","body":{"text":"x"}})", 422, "/author");
  expect(R"({"kind":"note","author":")" + std::string(65, 'a') + R"(","body":{"text":"x"}})", 422, "/author");
  expect(R"({"kind":"note","author":"a","at":"yesterday","body":{"text":"x"}})", 422, "/at");
  expect(R"({"kind":"note","author":"a","at":"2031-03-01T00:00:00Z","body":{"text":"x"}})", 422, "/at");
  expect(R"({"kind":"note","author":"a","at":"2030-12-01T00:00:00Z","body":{"text":"x"}})", 422, "/at");
  expect(R"({"kind":"note","author":"a","supersedes":99,"body":{"text":"x"}})", 422, "/supersedes");
  expect(R"({"kind":"undo","author":"a","body":{"target":1}})", 422, "/kind");
  expect(R"({"kind":"note","author":"a","colour":"red","body":{"text":"x"}})", 422, "/colour");
}

TEST_F(AppTest, AResentRecordIsKeptOnce) {
  set_up();
  const auto first = post_record("note", R"({"text":"once"})", R"("entry_key":"k1",)");
  const auto second = post_record("note", R"({"text":"once"})", R"("entry_key":"k1",)");
  EXPECT_EQ(first.status, 201);
  EXPECT_EQ(second.status, 200);
  EXPECT_EQ(json(first)["id"], json(second)["id"]);
  const auto other = post_record("note", R"({"text":"different"})", R"("entry_key":"k1",)");
  EXPECT_EQ(other.status, 409);
}

TEST_F(AppTest, CorrectionsAndUndoKeepTheOldRecord) {
  set_up();
  const int id = json(post_record("temperature", R"({"temperature_c":9})"))["id"];
  const auto corrected =
      post_record("temperature", R"({"temperature_c":8})", "\"supersedes\":" + std::to_string(id) + ",");
  ASSERT_EQ(corrected.status, 201) << corrected.body;
  const auto rows = json(get("/api/history"))["records"];
  ASSERT_EQ(rows.size(), 4u);
  EXPECT_EQ(rows[1]["status"], "corrected");
  EXPECT_EQ(rows[1]["superseded_by"], rows[0]["id"]);

  const std::string new_id = std::to_string(json(corrected)["id"].get<int>());
  const auto undone = post("/api/records/" + new_id + "/undo", R"({"author":"Team Otter"})");
  ASSERT_EQ(undone.status, 201) << undone.body;
  EXPECT_EQ(json(get("/api/history"))["records"][2]["status"], "current") << "the first one is back";
  EXPECT_EQ(post("/api/records/" + new_id + "/undo", R"({"author":"Team Otter"})").status, 422)
      << "it no longer counts";
}

TEST_F(AppTest, UndoWantsAKnownRecordAndALabel) {
  set_up();
  EXPECT_EQ(post("/api/records/99/undo", R"({"author":"a"})").status, 404);
  EXPECT_EQ(post("/api/records/-1/undo", R"({"author":"a"})").status, 404);
  EXPECT_EQ(post("/api/records/one/undo", R"({"author":"a"})").status, 404);
  EXPECT_EQ(post("/api/records/2/undo", "{}").status, 422);
  EXPECT_EQ(post("/api/records/2/undo", "2").status, 400);
  EXPECT_EQ(field(post("/api/records/2/undo", R"({"author":"a","why":"x"})")), "/why");
  EXPECT_EQ(post("/api/records/2/undo", R"({"author":")" + std::string(65, 'a') + R"("})").status, 422);
}

TEST_F(AppTest, ALookBackKnowsOnlyWhatWasKnown) {
  set_up();
  now += std::chrono::hours(24);
  post_record("note", R"({"text":"a day later"})");
  EXPECT_EQ(json(get("/api/history?as_of=2031-01-20"))["records"].size(), 2u);
  EXPECT_EQ(json(get("/api/day?as_of=2031-01-20"))["today"], "2031-01-20");
  EXPECT_EQ(code(get("/api/day?as_of=2031-01-10")), "before_the_season");
  EXPECT_EQ(code(get("/api/day?as_of=2031-02-10")), "not_yet");
  EXPECT_EQ(code(get("/api/day?as_of=soon")), "not_an_instant");
  EXPECT_EQ(field(get("/api/day?as_of=2031-02-30")), "as_of");
}

TEST_F(AppTest, HistoryComesInPages) {
  set_up();
  for (int i = 0; i < 5; ++i) post_record("note", "{\"text\":\"" + std::to_string(i) + "\"}");
  const auto first = json(get("/api/history?limit=3"));
  EXPECT_EQ(first["records"].size(), 3u);
  EXPECT_EQ(first["more"], true);
  const auto rest =
      json(get("/api/history?limit=100&before_id=" + std::to_string(first["records"][2]["id"].get<int>())));
  EXPECT_EQ(rest["records"].size(), 4u);
  EXPECT_EQ(rest["more"], false);
  for (const char* wrong : {"limit=0", "limit=x", "limit=1e9", "limit=", "before_id=-1", "limits=3", "limit=3&limit=4"})
    EXPECT_EQ(get(std::string("/api/history?") + wrong).status / 100, 4) << wrong;
}

TEST_F(AppTest, KitsAndTemplates) {
  set_up();
  const auto answer = json(get("/api/kits"));
  ASSERT_EQ(answer["kits"].size(), 1u);
  EXPECT_EQ(answer["kits"][0]["tests"].size(), 4u);
  EXPECT_GE(answer["templates"].size(), 1u);
}

TEST_F(AppTest, KindsSpeciesAndDescription) {
  EXPECT_TRUE(json(get("/api/kinds"))["reading"]["properties"].contains("kit"));
  const auto species = json(get("/api/species"))["species"];
  EXPECT_GE(species.size(), 11u);
  EXPECT_EQ(json(get("/api/openapi.json"))["openapi"], "3.1.0");
}

TEST_F(AppTest, FormulasByName) {
  EXPECT_GE(json(get("/api/calc"))["formulas"].size(), 10u);
  const auto answer = get("/api/calc/oxygen_saturation?temperature_c=8");
  ASSERT_EQ(answer.status, 200) << answer.body;
  EXPECT_TRUE(json(answer)["outputs"].contains("saturation_mg_o2_per_l"));
  EXPECT_EQ(get("/api/calc/perpetual_motion").status, 404);
  const auto wrong = get("/api/calc/oxygen_saturation?temperature_c=warm");
  EXPECT_EQ(wrong.status, 422);
  EXPECT_EQ(field(wrong), "temperature_c");
  EXPECT_EQ(get("/api/calc/oxygen_saturation").status, 422);
}

TEST_F(AppTest, TheWholeSeasonGoesOut) {
  set_up();
  const auto answer = get("/api/export");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(json(answer)["resources"][0]["data"].size(), 2u);
}

TEST_F(AppTest, TheSeasonGoesOutAsTables) {
  EXPECT_EQ(get("/api/export.zip").status, 409);
  set_up();
  const auto answer = get("/api/export.zip");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.content_type, "application/zip");
  EXPECT_TRUE(answer.bytes().starts_with("PK"));
  EXPECT_NE(answer.bytes().find("datapackage.json"), std::string::npos);
  EXPECT_EQ(answer.header("content-disposition").value_or(""), "attachment; filename=\"redd-season-tables.zip\"");
}

TEST_F(AppTest, TheTestsGoOutAsALongTable) {
  EXPECT_EQ(get("/api/water-quality.csv").status, 409);
  set_up();
  const auto answer = get("/api/water-quality.csv?organization=ORG%201");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.content_type, "text/csv; charset=utf-8");
  EXPECT_TRUE(answer.bytes().starts_with("OrganizationIdentifier,"));
}

TEST_F(AppTest, AddressesAndMethodsNobodyKnows) {
  const auto missing = get("/api/nothing");
  EXPECT_EQ(missing.status, 404);
  EXPECT_EQ(code(missing), "unknown_address");
  EXPECT_EQ(get("/api").status, 404);
  EXPECT_EQ(get("/api/season/").status, 404);
  EXPECT_EQ(get("/no-such-page").status, 404);
  EXPECT_EQ(get("/../../etc/passwd").status, 404);
  auto wrong = request_from_target("DELETE", "/api/records").value();
  const auto answer = send(wrong);
  EXPECT_EQ(answer.status, 405);
  EXPECT_EQ(answer.header("allow"), "POST");
  EXPECT_EQ(code(answer), "wrong_method");
  EXPECT_EQ(send(request_from_target("POST", "/api/day").value()).status, 405);
  EXPECT_EQ(send(request_from_target("OPTIONS", "/").value()).status, 405);
  EXPECT_EQ(send(request_from_target("HEAD", "/api/season").value()).status, 200);
}

TEST_F(AppTest, OnlyJsonIsTaken) {
  auto request = request_from_target("POST", "/api/records").value();
  request.body = R"({"kind":"note","author":"a","body":{"text":"x"}})";
  EXPECT_EQ(send(request).status, 415);
  request.headers.emplace_back("content-type", "text/plain");
  EXPECT_EQ(send(request).status, 415);
  request.headers.back().second = "Application/JSON; charset=utf-8";
  EXPECT_EQ(send(request).status, 409) << "understood, but there is no season";
}

TEST_F(AppTest, OtherSitesAreKeptOut) {
  const auto with = [&](Pairs headers, const char* method = "GET") {
    auto request = request_from_target(method, "/api/season").value();
    request.headers = std::move(headers);
    return App(*desk).handle(request).status;
  };
  EXPECT_EQ(with({{"host", "localhost:7333"}}), 200);
  EXPECT_EQ(with({{"host", "[::1]:7333"}}), 200);
  EXPECT_EQ(with({{"host", "127.0.0.1"}}), 200);
  EXPECT_EQ(with({{"host", "evil.example"}}), 403);
  EXPECT_EQ(with({{"host", "127.0.0.1.evil.example"}}), 403);
  EXPECT_EQ(with({{"host", "localhost:7333@evil.example"}}), 403);
  EXPECT_EQ(with({}), 403);
  EXPECT_EQ(with({{"host", "127.0.0.1:7333"}, {"origin", "http://127.0.0.1:7333"}}), 200);
  EXPECT_EQ(with({{"host", "127.0.0.1:7333"}, {"origin", "http://127.0.0.1:9999"}}), 403);
  EXPECT_EQ(with({{"host", "127.0.0.1:7333"}, {"origin", "https://evil.example"}}), 403);
  EXPECT_EQ(with({{"host", "127.0.0.1:7333"}, {"origin", "null"}}), 403);
  EXPECT_EQ(with({{"host", "127.0.0.1:7333"}, {"sec-fetch-site", "cross-site"}}, "POST"), 403);
}

TEST_F(AppTest, EveryAnswerCarriesTheSafetyHeaders) {
  for (const auto& answer : {get("/api/season"), get("/"), get("/api/nothing")}) {
    EXPECT_NE(answer.header("content-security-policy")->find("frame-ancestors 'none'"), std::string::npos);
    EXPECT_EQ(answer.header("x-content-type-options"), "nosniff");
    EXPECT_EQ(answer.header("access-control-allow-origin"), std::nullopt);
  }
  EXPECT_EQ(get("/api/season").header("cache-control"), "no-store");
}

TEST_F(AppTest, RecordsOfAnotherProgramAreSeen) {
  set_up();
  auto other = SeasonDesk::open(folder / "season.redd", [this] { return now; });
  ASSERT_TRUE(other.has_value());
  records::Entry entry{now, "Team Heron", {}, {}, records::Note{"from elsewhere"}};
  ASSERT_TRUE((*other)->add(entry, now).has_value());
  EXPECT_EQ(json(get("/api/history"))["records"][0]["author"], "Team Heron");
}

TEST_F(AppTest, AClockSetBackHidesNothingAndIsSaid) {
  set_up();
  const Instant right = now;
  records::Entry entry{now, "Team Heron", {}, {}, records::Note{"kept before the clock went back"}};
  ASSERT_TRUE(desk->add(entry, now).has_value());
  now = right - std::chrono::hours(24 * 30);
  const auto day = json(get("/api/day"));
  EXPECT_EQ(day["now"], rfc3339_from_instant(right));
  bool said = false;
  for (const auto& gap : day["gaps"]) said = said || gap.get<std::string>().find("clock") != std::string::npos;
  EXPECT_TRUE(said);
}

class DemoTest : public AppTest {
 protected:
  DemoTest() {
    auto opened = SeasonDesk::open_demo(folder / "demo.redd", [this] { return now; });
    EXPECT_TRUE(opened.has_value()) << opened.problems().front().sentence;
    if (opened) desk = std::move(opened).value();
  }
};

TEST_F(DemoTest, TheInventedSeasonTellsItsOwnTime) {
  const auto state = json(get("/api/season"));
  EXPECT_EQ(state["state"], "ready");
  EXPECT_EQ(state["invented"], true);
  const std::string today = state["story"]["today"];
  EXPECT_LE(state["story"]["first_day"].get<std::string>(), today);
  EXPECT_LE(today, state["story"]["last_day"].get<std::string>());
  EXPECT_EQ(json(get("/api/day"))["today"], today);
  for (const char* end : {"first_day", "last_day"})
    EXPECT_EQ(get("/api/day?as_of=" + state["story"][end].get<std::string>()).status, 200) << end;
}

TEST_F(DemoTest, ARecordCountsAsWrittenOnTheDayOfTheStory) {
  const std::string day = json(get("/api/season"))["story"]["today"];
  const auto kept = post_record("note", R"({"text":"on this day"})", "", "?as_of=" + day);
  ASSERT_EQ(kept.status, 201) << kept.body;
  const auto rows = json(get("/api/history?limit=1&as_of=" + day))["records"];
  EXPECT_EQ(rows[0]["id"], json(kept)["id"]);
  const auto before = iso_from_date(*date_from_iso(day) - std::chrono::days(1));
  EXPECT_NE(json(get("/api/history?limit=1&as_of=" + before))["records"][0]["id"], json(kept)["id"]);
}

TEST_F(DemoTest, ALookAtOneDayDoesNotChangeWithWhatCameLater) {
  const std::string day = json(get("/api/season"))["story"]["today"];
  const std::string before(get("/api/day?as_of=" + day).bytes());
  const auto next = iso_from_date(*date_from_iso(day) + std::chrono::days(1));
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":12})", "", "?as_of=" + next).status, 201);
  EXPECT_EQ(std::string(get("/api/day?as_of=" + day).bytes()), before);
}

TEST_F(AppTest, WordsAnswersForTheReader) {
  ASSERT_EQ(post_record("season_setup", setup_body).status, 201);
  const auto day = get("/api/day?language=es&units=us");
  EXPECT_EQ(day.header("content-language"), "es");
  const auto view = json(day);
  EXPECT_EQ(view["season"]["target_text"], "46,4 °F");
  EXPECT_EQ(view["season"]["target_c"], 8.0) << "exact numbers do not change with the reader";
  EXPECT_EQ(view["season"]["species_name"], "trucha de arroyo");
  EXPECT_EQ(view["stage"]["sentence"], "No se han recibido huevos.");
  const auto english = get("/api/day");
  EXPECT_EQ(english.header("content-language"), "en");
  EXPECT_EQ(json(english)["season"]["target_text"], "8.0 °C");
}

TEST_F(AppTest, WordsRefusalsForTheReader) {
  EXPECT_EQ(json(get("/api/day?language=es"))["problems"][0]["sentence"], "Todavía no hay temporada. Configure una primero.");
  EXPECT_EQ(json(get("/api/day"))["problems"][0]["sentence"], "There is no season yet. Set one up first.");
  EXPECT_EQ(get("/api/day?language=de").status, 400);
}

TEST_F(AppTest, ReaderParametersAreNoInputsOfAFormula) {
  const auto answer = get("/api/calc/oxygen_saturation?temperature_c=8&elevation_m=640&language=es");
  EXPECT_EQ(answer.status, 200) << answer.body;
}

}  // namespace
}  // namespace redd::server
