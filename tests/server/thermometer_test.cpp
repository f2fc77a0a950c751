// The live thermometer in a server: a sensor file in a folder, clocks that the test sets, messages caught.
#include "server/thermometer_keeper.h"

#include <fstream>
#include <set>

#include "server/fixture.h"

namespace redd::server {
namespace {

using namespace std::chrono;

class ThermometerTest : public AppTest {
 protected:
  void SetUp() override {
    set_up();
    sensor("8000");
    settings("file = " + (folder / "temperature").string() + "\nevery_seconds = 60\nwebhook_url = https://hooks.invented.example/\n");
    begin();
  }
  void sensor(const std::string& text) { std::ofstream(folder / "temperature") << text; }
  void settings(const std::string& text) {
    std::ofstream(folder / "thermometer.conf") << text;
    std::filesystem::permissions(folder / "thermometer.conf", std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  }
  void begin() {
    keeper = std::make_unique<ThermometerKeeper>(*desk, folder / "thermometer.conf", [this](const sensors::Settings&, const sensors::Message& message) {
      messages.push_back(message);
      return std::vector<sensors::Sent>{{"webhook", fails ? std::optional<Phrase>("the address answered 500") : std::nullopt}};
    });
    desk->watch_by(keeper.get());
  }
  /// A minute each; nothing: the file is gone. A hair to and fro, as a working sensor has it.
  void minutes_at(int n, std::optional<int> thousandths) {
    for (int i = 0; i < n; ++i) {
      if (thousandths) sensor(std::to_string(*thousandths + (i % 2) * 62));
      else std::filesystem::remove(folder / "temperature");
      now += 60s;
      up += 60s;
      keeper->step({now, up});
    }
  }
  std::vector<records::Record> logged() {
    std::vector<records::Record> all;
    for (const auto& record : desk->look().value()->records)
      if (std::holds_alternative<records::TemperatureReading>(record.entry.body)) all.push_back(record);
    return all;
  }
  std::string alarms() {
    std::string text;
    for (const auto& one : keeper->state().ringing) text += thermometer::word_of(one.alarm) + " ";
    return text;
  }

  std::unique_ptr<ThermometerKeeper> keeper;
  std::vector<sensors::Message> messages;
  bool fails = false;
  seconds up{1000};
};

TEST_F(ThermometerTest, LogsOneValueAnHourMarkedAsItsOwn) {
  minutes_at(5 * 60, 8000);
  const auto all = logged();
  ASSERT_GE(all.size(), 4u);
  ASSERT_LE(all.size(), 5u);
  EXPECT_EQ(all[0].entry.author, "Thermometer");
  EXPECT_TRUE(all[0].entry.entry_key->starts_with("thermometer/tank/"));
  EXPECT_NEAR(std::get<records::TemperatureReading>(all[0].entry.body).temperature.c(), 8.03, 0.011);
}

TEST_F(ThermometerTest, HoursOfWildWaterStayWithinTheirBound) {
  for (int i = 0; i < 6 * 12; ++i) minutes_at(5, 6000 + (i % 2) * 3000);
  EXPECT_LE(logged().size(), 3u * 7);
  EXPECT_GE(logged().size(), 5u);
}

TEST_F(ThermometerTest, AnHourIsLoggedOnceAcrossANewStart) {
  minutes_at(100, 8000);
  const auto before = logged().size();
  begin();
  minutes_at(70, 8100);
  begin();
  now -= 2h;  // and the clock is set back
  minutes_at(180, 8200);
  std::set<std::string> keys;
  for (const auto& record : logged()) EXPECT_TRUE(keys.insert(*record.entry.entry_key).second);
  EXPECT_GT(logged().size(), before);
  EXPECT_TRUE(keeper->state().not_logged.empty());
}

TEST_F(ThermometerTest, TakesItsLimitsFromTheSeason) {
  minutes_at(1, 8000);
  const auto limits = keeper->state().limits.value();
  EXPECT_TRUE(limits.from_season);
  EXPECT_DOUBLE_EQ(limits.low_c, 6);
  EXPECT_DOUBLE_EQ(limits.high_c, 10);
  ASSERT_EQ(post_record("set_point", R"({"temperature_c":9})").status, 201);
  minutes_at(1, 8000);
  EXPECT_DOUBLE_EQ(keeper->state().limits->high_c, 11) << "with the chiller's setting";
  ASSERT_EQ(post_record("set_point", R"({"temperature_c":8})", R"("entry_key":"back",)").status, 201);
  settings("file = " + (folder / "temperature").string() + "\nhigh_c = 9\n");
  begin();
  minutes_at(1, 8000);
  EXPECT_DOUBLE_EQ(keeper->state().limits->high_c, 9);
  EXPECT_DOUBLE_EQ(keeper->state().limits->low_c, 6);
}

TEST_F(ThermometerTest, CallsWhenTheWaterIsTooWarmAndShowsIt) {
  minutes_at(30, 8000);
  EXPECT_EQ(json(get("/api/thermometer"))["thermometer"]["standing"], "working");
  minutes_at(10, 10600);
  EXPECT_EQ(alarms(), "too_warm ");
  const auto shown = json(get("/api/thermometer?units=us"))["thermometer"];
  EXPECT_EQ(shown["alarms"][0]["alarm"], "too_warm");
  EXPECT_NE(shown["alarms"][0]["sentence"].get<std::string>().find("°F"), std::string::npos);
  EXPECT_FALSE(shown["alarms"][0]["quiet"]);
  EXPECT_TRUE(json(post("/api/thermometer/quiet", "{}"))["thermometer"]["alarms"][0]["quiet"]);
}

TEST_F(ThermometerTest, CallsWhenTheSensorIsGone) {
  minutes_at(5, 8000);
  minutes_at(31, std::nullopt);
  EXPECT_EQ(alarms(), "silent ");
  EXPECT_EQ(json(get("/api/thermometer"))["thermometer"]["standing"], "silent");
}

TEST_F(ThermometerTest, TakesNoFaultForWater) {
  for (const int fault : {85000, -127000, -62}) {
    sensor(std::to_string(fault));
    now += 60s;
    up += 60s;
    keeper->step({now, up});
    EXPECT_FALSE(keeper->state().last) << fault;
    EXPECT_TRUE(keeper->state().failing) << fault;
  }
}

TEST_F(ThermometerTest, TriesTheAlarmAndSaysWhatFailed) {
  const auto sent = post("/api/thermometer/try", "{}");
  ASSERT_EQ(sent.status, 200) << sent.bytes();
  EXPECT_TRUE(json(sent)["sent"][0]["failure"].is_null());
  EXPECT_EQ(messages.back().what, "test");
  fails = true;
  EXPECT_EQ(json(post("/api/thermometer/try", "{}"))["sent"][0]["failure"], "the address answered 500");
  EXPECT_EQ(json(get("/api/thermometer"))["thermometer"]["sent"][0]["way"], "webhook");
}

TEST_F(ThermometerTest, ASettingsFileThatOthersCanReadRunsNothing) {
  std::filesystem::permissions(folder / "thermometer.conf", std::filesystem::perms::others_read, std::filesystem::perm_options::add);
  begin();
  minutes_at(3, 8000);
  const auto shown = json(get("/api/thermometer"))["thermometer"];
  EXPECT_TRUE(shown["set_up"]);
  EXPECT_NE(shown["problems"][0].get<std::string>().find("chmod 600"), std::string::npos);
  EXPECT_TRUE(shown["last"].is_null());
}

TEST_F(ThermometerTest, WithoutOneEverythingSaysSo) {
  desk->watch_by(nullptr);
  EXPECT_FALSE(json(get("/api/thermometer"))["thermometer"]["set_up"]);
  EXPECT_EQ(code(post("/api/thermometer/try", "{}")), "no_thermometer");
  EXPECT_EQ(code(post("/api/thermometer/quiet", "{}")), "no_thermometer");
}

TEST_F(ThermometerTest, SaysNothingSecret) {
  settings("file = " + (folder / "temperature").string() + "\nwebhook_url = https://hooks.invented.example/\nwebhook_token = invented-secret\nmail_to = a@invented.example\nmail_from = b@invented.example\nmail_password = invented-secret\n");
  begin();
  minutes_at(200, 12000);
  for (const char* path : {"/api/thermometer", "/api/export", "/api/history"}) EXPECT_EQ(get(path).bytes().find("invented-secret"), std::string::npos) << path;
}

}  // namespace
}  // namespace redd::server
