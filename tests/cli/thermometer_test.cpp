// thermometer: what is said without one, one reading, a test alarm that reaches nobody; and a weekly log brought in at a terminal.
#include "cli/program.h"

namespace redd::cli {
namespace {

struct AtATerminal : Program {
  AtATerminal() { init(); }
  void settings(const std::string& text) {
    const fs::path conf = folder / "data/thermometer.conf";
    std::ofstream(conf) << text;
    fs::permissions(conf, fs::perms::owner_read | fs::perms::owner_write);
  }
};

TEST_F(AtATerminal, SaysHowAThermometerIsSetUp) {
  EXPECT_TRUE(has(redd({"thermometer"}).err, "redd thermometer --settings"));
  EXPECT_TRUE(has(good({"thermometer", "--settings"}).out, "every_seconds = 30"));
  EXPECT_TRUE(has(redd({"thermometer", "--language", "es"}).err, "No hay termómetro"));
  EXPECT_NE(redd({"thermometer", "--find", "--try"}).code, 0);
}

TEST_F(AtATerminal, ReadsASensorOnce) {
  const fs::path sensor = folder / "temperature";
  std::ofstream(sensor) << "8125\n";
  settings("file = " + sensor.string() + "\n");
  EXPECT_TRUE(has(good({"thermometer"}).out, "8.125 °C"));
  EXPECT_TRUE(has(good({"thermometer", "--units", "us"}).out, "46.6"));
  std::ofstream(sensor) << "85000\n";
  EXPECT_TRUE(has(redd({"thermometer"}).err, "has not measured yet"));
  fs::remove(sensor);
  EXPECT_TRUE(has(redd({"thermometer"}).err, "does not answer"));
  EXPECT_TRUE(has(redd({"thermometer", "--try"}).err, "Nobody is told"));
  settings("fiel = x\n");
  EXPECT_TRUE(has(redd({"thermometer"}).err, "Line 1"));
}

TEST_F(AtATerminal, AWeeklyLogAsksWhatItsNumbersAre) {
  const auto day = [](int back) { return iso_from_date(local_day({}, server::system_now()) - std::chrono::days(back)); };
  const std::string log = "day,temp C,nitrate,dead eggs\n" + day(3) + ",8.1,20,1\n" + day(2) + ",8.2,30,3\n";
  std::ofstream(folder / "log.csv") << log;
  const std::string csv = (folder / "log.csv").string();
  const Ran asked = redd({"import", "readings", csv, "--yes"});
  EXPECT_NE(asked.code, 0);
  EXPECT_TRUE(has(asked.err, "--column nitrate=nitrate_as_n or --column nitrate=nitrate_as_no3")) << asked.err;
  EXPECT_TRUE(has(asked.err, "--dead-counts new or --dead-counts total")) << asked.err;
  const std::vector<std::string> told{"import", "readings", csv, "--yes", "--column", "nitrate=nitrate_as_no3", "--dead-counts", "total"};
  EXPECT_TRUE(has(good(told).out, "7 records added"));
  const std::string again = good(told).out;  // the kit for numbers of an unknown one is there now
  EXPECT_TRUE(has(again, "0 records added, 6 were in the log already")) << again;
}

}  // namespace
}  // namespace redd::cli
