// What of a trace goes into the log.
#include "thermometer/hourly.h"

#include <map>
#include <set>

#include "properties/generators.h"

namespace redd::thermometer {
namespace {

using namespace std::chrono;
using properties::between;

const Instant start = sys_days{2031y / March / 9} + hours(8);

Taken::Believed value(seconds after, double c) { return {start + after, after, c}; }

std::vector<ToLog> fed(Hourly& hourly, seconds from, seconds to, double c) {
  std::vector<ToLog> all;
  for (seconds t = from; t < to; t += 60s)
    for (const auto& one : hourly.take(value(t, c), false)) all.push_back(one);
  return all;
}

TEST(Hourly, GivesTheMeanOfAnHourOnceItIsOver) {
  Hourly hourly;
  EXPECT_TRUE(fed(hourly, 0s, 1h, 8.004).empty());
  const auto done = hourly.take(value(1h, 9), false);
  ASSERT_EQ(done.size(), 1u);
  EXPECT_EQ(done[0].at, start + minutes(30));
  EXPECT_DOUBLE_EQ(done[0].c, 8.0);
  EXPECT_EQ(done[0].samples, 60);
}

TEST(Hourly, AddsTheExtremesThatStandAway) {
  Hourly hourly;
  for (int i = 0; i < 59; ++i) hourly.take(value(minutes(i), 8), false);
  hourly.take(value(59min, 9.5), false);
  const auto done = hourly.take(value(1h, 8), false);
  ASSERT_EQ(done.size(), 2u);
  EXPECT_EQ(done[1].what, ToLog::What::warmest);
  EXPECT_EQ(done[1].at, start + 59min);
  EXPECT_DOUBLE_EQ(done[1].c, 9.5);
}

TEST(Hourly, SaysNothingOfAnHourWithTooFewValues) {
  Hourly hourly;
  hourly.take(value(0s, 8), false);
  hourly.take(value(1min, 8), false);
  EXPECT_TRUE(hourly.take(value(1h, 8), false).empty());
}

TEST(Hourly, AnHourThatComesAgainHasTheSameKey) {
  Hourly hourly;
  fed(hourly, 0s, 40min, 8);
  // The clock is set back by half an hour: what was gathered is given, and the hour lived again gives the same key.
  const auto first = hourly.take({start + minutes(10), 41min, 8.5}, true);
  for (int i = 0; i < 30; ++i) hourly.take({start + minutes(11 + i), minutes(42 + i), 8.5}, false);
  const auto again = hourly.take({start + hours(1), 3h, 8}, false);
  ASSERT_EQ(first.size(), 1u);
  ASSERT_EQ(again.size(), 1u);
  EXPECT_EQ(first[0].key("tank"), again[0].key("tank"));
  EXPECT_NE(first[0].key("tank"), first[0].key("room"));
}

TEST(Hourly, TheNightOfAClockChangeHasEveryHourOnce) {
  // Hours are counted in UTC: in spring and in autumn a local day brings 23 and 25 of them, none twice.
  for (const Instant night : {Instant{sys_days{2031y / March / 9}}, Instant{sys_days{2031y / November / 2}}}) {
    Hourly hourly;
    std::set<std::string> keys;
    std::size_t logged = 0;
    for (seconds t = 0s; t <= 26h; t += 5min)
      for (const auto& one : hourly.take({night + t, t, 8}, false)) {
        ++logged;
        keys.insert(one.key("tank"));
      }
    EXPECT_EQ(logged, 26u);
    EXPECT_EQ(keys.size(), logged);
  }
}

RC_GTEST_PROP(Hourly, NeverMoreThanThreeAnHourAndInsideWhatWasMeasured, ()) {
  Hourly hourly;
  std::map<long long, int> in_hour;
  std::set<std::string> keys;
  double low = 99, high = -99;
  const int n = *rc::gen::inRange(1, 300);
  seconds t{0};
  const auto look = [&](const std::vector<ToLog>& done) {
    for (const auto& one : done) {
      RC_ASSERT(++in_hour[one.hour.time_since_epoch().count()] <= 3);
      RC_ASSERT(keys.insert(one.key("tank")).second);
      RC_ASSERT(one.c >= low - 0.006 && one.c <= high + 0.006);
      RC_ASSERT(one.at >= one.hour && one.at < one.hour + hours(1));
      RC_ASSERT(one.samples >= Hourly::fewest_samples);
    }
  };
  for (int i = 0; i < n; ++i) {
    t += seconds(*rc::gen::inRange(1, 1200));
    const double c = *between(0, 20);
    const auto done = hourly.take(value(t, c), false);
    look(done);
    low = std::min(low, c);
    high = std::max(high, c);
  }
  look(hourly.finish());
}

}  // namespace
}  // namespace redd::thermometer
