// A stream of samples: spikes, jumps, silence, a stuck sensor, clocks that are set.
#include "thermometer/watch.h"

#include "properties/generators.h"

namespace redd::thermometer {
namespace {

using namespace std::chrono;
using properties::between;

const Instant start = sys_days{2031y / March / 9} + hours(8);

Sample at(seconds up, std::variant<double, Failure> c) { return {start + up, up, c}; }

std::vector<double> values(const Taken& taken) {
  std::vector<double> all;
  for (const auto& one : taken.believed) all.push_back(one.c);
  return all;
}

TEST(Watch, BelievesAStreamAndLeavesASpikeOut) {
  Watch watch;
  EXPECT_EQ(values(watch.take(at(0s, 8.0))), std::vector<double>{8.0});
  const auto spike = watch.take(at(30s, 14.0));
  EXPECT_TRUE(spike.waits);
  EXPECT_TRUE(spike.believed.empty());
  const auto back = watch.take(at(60s, 8.1));
  EXPECT_EQ(values(back), std::vector<double>{8.1});
  EXPECT_EQ(back.refused, Failure::jump);
  EXPECT_DOUBLE_EQ(watch.last()->c, 8.1);
}

TEST(Watch, BelievesAJumpThatIsConfirmedWithAllItsSamples) {
  Watch watch;
  watch.take(at(0s, 8.0));
  EXPECT_TRUE(watch.take(at(30s, 14.0)).waits);
  EXPECT_TRUE(watch.take(at(60s, 14.1)).waits);
  EXPECT_EQ(values(watch.take(at(90s, 14.1))), (std::vector<double>{14.0, 14.1, 14.1}));
}

TEST(Watch, DoesNotBelieveLeapsThatDisagree) {
  Watch watch;
  watch.take(at(0s, 8.0));
  for (int i = 1; i < 20; ++i) EXPECT_TRUE(watch.take(at(seconds(30 * i), i % 2 ? 20.0 : 30.0)).believed.empty());
  EXPECT_DOUBLE_EQ(watch.last()->c, 8.0);
  EXPECT_EQ(watch.failing(), Failure::jump);
}

TEST(Watch, IsSilentWithoutABelievableWord) {
  Watch watch;
  EXPECT_EQ(watch.standing(0s), Standing::no_word_yet);
  watch.take(at(0s, Failure::no_answer));
  EXPECT_EQ(watch.standing(29min), Standing::no_word_yet);
  EXPECT_EQ(watch.standing(30min), Standing::silent) << "one that never spoke, too";
  watch.take(at(31min, 8.0));
  EXPECT_EQ(watch.standing(31min), Standing::working);
  for (auto t = 32min; t < 61min; ++t) watch.take(at(t, Failure::bad_check_sum));
  EXPECT_EQ(watch.standing(60min), Standing::working);
  EXPECT_EQ(watch.standing(61min), Standing::silent);
  EXPECT_EQ(watch.failing(), Failure::bad_check_sum);
}

TEST(Watch, TellsAStuckSensorFromASteadyTank) {
  Watch fine;
  fine.take(at(0s, 8.0));
  fine.take(at(1min, 8.0625));
  for (auto t = 2min; t <= 13h; t += 10min) fine.take(at(t, 8.0625));
  EXPECT_EQ(fine.standing(11h), Standing::working);
  EXPECT_EQ(fine.standing(12h + 2min), Standing::stuck);

  WatchSettings known;
  known.resolution_c = 1.0;
  Watch coarse(known);
  for (auto t = 0min; t <= 24h * 5; t += 10min) coarse.take(at(t, 8.0));
  EXPECT_EQ(coarse.standing(24h * 5), Standing::working) << "one degree may stand for days";

  Watch never_moved;
  for (auto t = 0min; t <= 49h; t += 10min) never_moved.take(at(t, 8.0));
  EXPECT_EQ(never_moved.standing(47h), Standing::working);
  EXPECT_EQ(never_moved.standing(49h), Standing::stuck);
}

TEST(Watch, SeesAClockThatWasSet) {
  Watch watch;
  watch.take(at(0s, 8.0));
  EXPECT_FALSE(watch.take(at(30s, 8.0)).clock_set);
  EXPECT_TRUE(watch.take({start + hours(1), 60s, 8.0}).clock_set);
  EXPECT_FALSE(watch.take({start + hours(1) + seconds(30), 90s, 8.0}).clock_set);
  EXPECT_TRUE(watch.take({start - hours(24), 120s, 8.0}).clock_set);
  EXPECT_EQ(watch.standing(121s), Standing::working) << "silence is told by the clock that only goes forward";
}

TEST(Watch, LeavesASampleOutThatGoesBack) {
  Watch watch;
  watch.take(at(60s, 8.0));
  EXPECT_TRUE(watch.take(at(30s, 9.0)).believed.empty());
}

RC_GTEST_PROP(Watch, NothingIsBelievedThatWasNotSaid, ()) {
  Watch watch;
  std::vector<double> said;
  std::size_t believed = 0;
  const int n = *rc::gen::inRange(1, 60);
  seconds up{0};
  for (int i = 0; i < n; ++i) {
    up += seconds(*rc::gen::inRange(1, 4000));
    if (*rc::gen::inRange(0, 5) == 0) {
      watch.take(at(up, Failure::no_answer));
      continue;
    }
    said.push_back(*between(-2, 45));
    for (const auto& one : watch.take(at(up, said.back())).believed) {
      RC_ASSERT(std::ranges::find(said, one.c) != said.end());
      ++believed;
    }
  }
  RC_ASSERT(believed <= said.size());
  if (!said.empty()) RC_ASSERT(watch.last().has_value());
}

RC_GTEST_PROP(Watch, ALoneSpikeInACalmStreamIsNeverBelieved, ()) {
  Watch watch;
  const int n = *rc::gen::inRange(3, 40), spike = *rc::gen::inRange(1, n - 1);
  const double away = *between(3, 30) * (*rc::gen::arbitrary<bool>() ? 1 : -1);
  for (int i = 0; i < n; ++i) {
    const double c = i == spike ? 8 + away : 8 + 0.0625 * (i % 2);
    for (const auto& one : watch.take(at(seconds(30 * i), c)).believed) RC_ASSERT(std::abs(one.c - 8) < 1);
  }
}

RC_GTEST_PROP(Watch, ASensorThatNeverChangesIsStuckInTheEnd, ()) {
  Watch watch;
  const double c = *between(1, 15);
  const auto step = seconds(*rc::gen::inRange(10, 1700));
  seconds up{0};
  for (; up < 50h; up += step) watch.take(at(up, c));
  RC_ASSERT(watch.standing(up) == Standing::stuck);
}

}  // namespace
}  // namespace redd::thermometer
