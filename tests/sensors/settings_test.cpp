// The thermometer's settings file: read strictly, and kept from other eyes.
#include "sensors/settings.h"

#include "sensors/sensors_helpers.h"

namespace redd::sensors {
namespace {

std::string code(const std::string& text) {
  const auto settings = settings_from_text(text);
  return settings ? "" : settings.problems().front().code;
}

TEST(ThermometerSettings, AreReadLineByLine) {
  const auto s = settings_from_text(
      "# invented\nfile = /sys/x/temperature\nname=tank-2\nevery_seconds = 20\nlow_c = 5.5\nhigh_c = 9\nsilent_after_minutes = 10\ndesktop = yes\nlanguage = es\n"
      "mail_to = keeper@invented.example\nmail_from=tank@invented.example\nwebhook_url = https://hooks.invented.example/a?b=c=d\nwebhook_token = a b = c\r\n");
  ASSERT_TRUE(s) << s.problems().front().sentence;
  EXPECT_EQ(s->file, "/sys/x/temperature");
  EXPECT_EQ(s->name, "tank-2");
  EXPECT_EQ(s->every, std::chrono::seconds(20));
  EXPECT_EQ(s->low_c, 5.5);
  EXPECT_EQ(s->silent_after, std::chrono::minutes(10));
  EXPECT_TRUE(s->desktop && s->spanish);
  EXPECT_EQ(s->webhook->url, "https://hooks.invented.example/a?b=c=d");
  EXPECT_EQ(s->webhook->token, "a b = c");
}

TEST(ThermometerSettings, SayWhatIsWrong) {
  const std::string file = "file = /sys/x\n";
  EXPECT_EQ(code(""), "missing");
  EXPECT_EQ(code(file + "mqtt_host = a\nmqtt_topic = b\n"), "given_twice");
  EXPECT_EQ(code("mqtt_host = a\n"), "missing");
  EXPECT_EQ(code("mqtt_host = a\nmqtt_topic = tanks/#\n"), "not_allowed") << "two sensors would be one";
  EXPECT_EQ(code(file + "fiel = x\n"), "unknown_name");
  EXPECT_EQ(code(file + "file = /sys/y\n"), "given_twice");
  EXPECT_EQ(code(file + "name\n"), "not_a_setting");
  EXPECT_EQ(code(file + "name = Team Otter\n"), "not_allowed");
  EXPECT_EQ(code(file + "low_c =\n"), "missing");
  EXPECT_EQ(code(file + "low_c = eight\n"), "out_of_range");
  EXPECT_EQ(code(file + "low_c = nan\n"), "out_of_range");
  EXPECT_EQ(code(file + "low_c = 9\nhigh_c = 8\n"), "marks_crossed");
  EXPECT_EQ(code(file + "every_seconds = 600\nsilent_after_minutes = 20\n"), "out_of_range");
  EXPECT_EQ(code(file + "desktop = maybe\n"), "out_of_range");
  EXPECT_EQ(code(file + "webhook_url = http://hooks.invented.example/\n"), "not_allowed");
  EXPECT_EQ(code(file + "webhook_url = file:///etc/hosts\n"), "not_allowed");
  EXPECT_EQ(code(file + "mail_to = -oQ/tmp@x\nmail_from = a@b\n"), "missing") << "no option of a program";
  EXPECT_EQ(code(file + "mail_to = a@b\nmail_from = a@b, c@d\n"), "missing");
  EXPECT_EQ(settings_from_text(file + "fiel = x\n").problems().front().field, "line 2");
}

TEST(ThermometerSettings, NeverRepeatAPasswordInAComplaint) {
  for (const char* text : {"mqtt_password = hunter-secret\nmqtt_password = hunter-secret\n", "webhook_token = hunter-secret\n", "mail_password = hunter-secret\nmqtt_tls = hunter\n"}) {
    const auto settings = settings_from_text(text);
    ASSERT_FALSE(settings);
    for (const Problem& p : settings.problems()) EXPECT_EQ(p.sentence.find("hunter-secret"), std::string::npos) << p.sentence;
  }
}

TEST(ThermometerSettings, MayBeReadByTheirOwnerAlone) {
  const Folder folder;
  EXPECT_FALSE(read_settings(folder / "none.conf").value());
  EXPECT_TRUE(read_settings(folder.write("own.conf", "file = /sys/x\n", 0600)).value());
  for (const int mode : {0640, 0604, 0660, 0666}) EXPECT_EQ(read_settings(folder.write("open.conf", "file = /sys/x\n", mode)).problems().front().code, "readable_by_others");
  EXPECT_EQ(read_settings(folder / ".").problems().front().code, "cannot_read");
}

TEST(ThermometerSettings, TheTemplateNeedsOnlyASource) {
  EXPECT_EQ(code(settings_template()), "missing");
  EXPECT_EQ(code(settings_template() + "file = /sys/x\n"), "");
}

}  // namespace
}  // namespace redd::sensors
