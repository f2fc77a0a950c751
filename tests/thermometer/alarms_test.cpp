// When the thermometer calls, how often, and when it stops.
#include "thermometer/alarms.h"

#include "properties/generators.h"

namespace redd::thermometer {
namespace {

using namespace std::chrono;
using properties::between;

const Instant start = sys_days{2031y / March / 9};

struct Tank {
  Watch watch{};
  Alarms alarms{{.low_c = 6, .high_c = 10}};
  seconds up{0};
  std::string told{};

  /// A minute each, at this temperature; nothing: the sensor says nothing. Writes down what was told: "B warm", "L warm", "E warm".
  Tank& minutes_at(int n, std::optional<double> c) {
    for (int i = 0; i < n; ++i) {
      up += 60s;
      // A hair to and fro, as a working sensor has it.
      const std::variant<double, Failure> word = c ? std::variant<double, Failure>(*c + (i % 2) * 0.0625) : Failure::no_answer;
      watch.take({start + up, up, word});
      for (const auto& one : alarms.look(watch, up)) told += std::string(1, "BLE"[static_cast<int>(one.what)]) + " " + word_of(one.alarm) + ", ";
    }
    return *this;
  }
};

TEST(Alarms, CallAfterItHasLastedAndEndWhenItIsClearlyOver) {
  Tank tank;
  tank.minutes_at(60, 8).minutes_at(6, 10.5);
  EXPECT_EQ(tank.told, "");
  tank.minutes_at(3, 10.5);
  EXPECT_EQ(tank.told, "B too_warm, ");
  tank.minutes_at(10, 9.8);
  EXPECT_EQ(tank.told, "B too_warm, ") << "within the hysteresis it is not over";
  tank.minutes_at(10, 9.5);
  EXPECT_EQ(tank.told, "B too_warm, E too_warm, ");
  EXPECT_TRUE(tank.alarms.ringing().empty());
}

TEST(Alarms, DoNotCallForAMomentOutside) {
  Tank tank;
  for (int i = 0; i < 20; ++i) tank.minutes_at(3, 10.4).minutes_at(3, 9.4);
  EXPECT_EQ(tank.told, "");
}

TEST(Alarms, RepeatAtGrowingIntervals) {
  Tank tank;
  tank.minutes_at(24 * 60, 4);
  int calls = 0;
  for (std::size_t at = 0; (at = tank.told.find("too_cold", at)) != std::string::npos; ++at) ++calls;
  EXPECT_EQ(calls, 5) << "at once, and after 1, 3, 7 and 15 hours: " << tank.told;
}

TEST(Alarms, AreQuietOnceSomebodyKnowsButShowAndCallAnew) {
  Tank tank;
  tank.minutes_at(10, 4);
  tank.alarms.quiet();
  tank.minutes_at(600, 4);
  EXPECT_EQ(tank.told, "B too_cold, ");
  ASSERT_EQ(tank.alarms.ringing().size(), 1u);
  EXPECT_TRUE(tank.alarms.ringing()[0].quiet);
  tank.minutes_at(10, 8).minutes_at(10, 4);
  EXPECT_EQ(tank.told, "B too_cold, E too_cold, B too_cold, ");
}

TEST(Alarms, ASilentSensorCallsAndNeverCallsTheWaterAllRight) {
  Tank tank;
  tank.minutes_at(10, 12).minutes_at(40, std::nullopt);
  EXPECT_EQ(tank.told, "B too_warm, B silent, ");
  EXPECT_EQ(tank.alarms.ringing().size(), 2u) << "too warm was never over";
  tank.minutes_at(10, 8);
  EXPECT_EQ(tank.told, "B too_warm, B silent, E silent, E too_warm, ");
}

TEST(Alarms, ASensorThatNeverSpokeCalls) {
  Tank tank;
  tank.minutes_at(35, std::nullopt);
  EXPECT_EQ(tank.told, "B silent, ");
  EXPECT_NE(tank.alarms.ringing()[0].sentence.find("yet"), std::string::npos);
}

TEST(Alarms, AStuckSensorCalls) {
  Watch watch;
  Alarms alarms{{.low_c = 6, .high_c = 10}};
  std::string told;
  for (seconds up = 0s; up < 50h; up += 10min) {
    watch.take({start + up, up, 8.0});
    for (const auto& one : alarms.look(watch, up)) told += word_of(one.alarm) + " ";
  }
  EXPECT_EQ(told, "stuck stuck ") << "and once more after an hour";
}

RC_GTEST_PROP(Alarms, NoHoursOutsideGoUntold, ()) {
  Tank tank;
  const double c = *rc::gen::arbitrary<bool>() ? *between(10.2, 20) : *between(0, 5.8);
  tank.minutes_at(*rc::gen::inRange(0, 200), 8).minutes_at(15, c);
  RC_ASSERT(!tank.alarms.ringing().empty());
}

RC_GTEST_PROP(Alarms, EveryEndHasABeginning, ()) {
  Tank tank;
  const int parts = *rc::gen::inRange(1, 12);
  for (int i = 0; i < parts; ++i)
    tank.minutes_at(*rc::gen::inRange(1, 50), *rc::gen::inRange(0, 4) == 0 ? std::nullopt : std::optional<double>(*between(0, 20)));
  for (const char* alarm : {"too_warm", "too_cold", "silent", "stuck"}) {
    int on = 0;
    for (std::size_t at = 0; (at = tank.told.find(alarm, at)) != std::string::npos; ++at) {
      const char what = tank.told[at - 2];
      RC_ASSERT(on == (what == 'B' ? 0 : 1));
      on = what == 'E' ? 0 : 1;
    }
  }
}

}  // namespace
}  // namespace redd::thermometer
