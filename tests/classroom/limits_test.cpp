#include "classroom/limits.h"

#include <gtest/gtest.h>

namespace redd::classroom {
namespace {

using namespace std::chrono_literals;

const Instant now = *instant_from_rfc3339("2031-02-04T08:00:00Z");

TEST(Bucket, GivesWhatItHoldsAndFillsAgain) {
  Bucket bucket(3, 1);
  for (int i = 0; i < 3; ++i) EXPECT_TRUE(bucket.take(now));
  EXPECT_FALSE(bucket.take(now));
  EXPECT_TRUE(bucket.take(now + 1s));
  EXPECT_FALSE(bucket.take(now + 1s));
  EXPECT_FALSE(bucket.take(now - 1h)) << "a clock that goes back fills nothing";
  EXPECT_TRUE(bucket.take(now - 1h + 1s));
  EXPECT_TRUE(bucket.is_full(now + 1h));
}

int asked(Questions& questions, const std::string& address, Instant at, int times) {
  int good = 0;
  for (int i = 0; i < times; ++i) good += questions.wait(address, at) == 0s;
  return good;
}

TEST(Questions, OfOneAddressHaveAnEndAndLeaveTheOthersAlone) {
  Questions questions;
  EXPECT_EQ(asked(questions, "192.168.1.2", now, 5000), 600);
  EXPECT_EQ(asked(questions, "192.168.1.3", now, 20), 20);
  EXPECT_EQ(asked(questions, "192.168.1.2", now + 10s, 5000), 200);
}

TEST(Questions, OfAllTogetherHaveAnEnd) {
  Questions questions;
  int good = 0;
  for (int i = 0; i < 50; ++i) good += asked(questions, "192.168.1." + std::to_string(i), now, 500);
  EXPECT_EQ(good, 2000);
  EXPECT_EQ(asked(questions, "192.168.2.1", now + 2s, 100), 100);
}

TEST(Tries, AreFreeFiveTimesAndThenWaitLongerAndLonger) {
  Tries tries;
  for (int i = 0; i < 4; ++i) {
    EXPECT_EQ(tries.wait("a", now), 0s);
    EXPECT_FALSE(tries.failed("a", now));
  }
  EXPECT_TRUE(tries.failed("a", now));
  EXPECT_EQ(tries.wait("a", now), 10s);
  EXPECT_EQ(tries.wait("a", now + 9s), 1s);
  EXPECT_EQ(tries.wait("b", now), 0s) << "another device";
  Instant at = now;
  std::chrono::seconds last = 10s;
  for (int i = 0; i < 10; ++i) {
    at += tries.wait("a", at);
    EXPECT_EQ(tries.wait("a", at), 0s);
    tries.failed("a", at);
    EXPECT_EQ(tries.wait("a", at), std::min<std::chrono::seconds>(2 * last, 900s));
    last = tries.wait("a", at);
  }
  EXPECT_EQ(last, 900s);
}

TEST(Tries, AreForgottenAfterAnHour) {
  Tries tries;
  for (int i = 0; i < 12; ++i) tries.failed("a", now);
  EXPECT_GT(tries.wait("a", now), 0s);
  EXPECT_EQ(tries.wait("a", now + 1h), 0s);
  EXPECT_FALSE(tries.failed("a", now + 1h));
}

TEST(Tries, OfAllAddressesTogetherHaveAnEnd) {
  Tries tries;
  for (int i = 0; i < 60; ++i) {
    EXPECT_EQ(tries.wait("device " + std::to_string(i), now), 0s) << i;
    tries.failed("device " + std::to_string(i), now);
  }
  EXPECT_EQ(tries.wait("another", now), 600s);
  EXPECT_EQ(tries.wait("another", now + 10min), 0s);
}

TEST(Tries, NeverWaitLongerThanTheySayWhenTheClockIsSetBack) {
  Tries tries;
  for (int i = 0; i < 6; ++i) tries.failed("a", now);
  EXPECT_LE(tries.wait("a", now - 24h), Tries::longest_wait);
}

TEST(IsLocalAddress, KnowsTheRangesThatStayInside) {
  const auto ip = [](std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) { return a << 24 | b << 16 | c << 8 | d; };
  for (const auto address : {ip(10, 0, 0, 1), ip(10, 255, 255, 255), ip(172, 16, 0, 1), ip(172, 31, 255, 255), ip(192, 168, 0, 9), ip(169, 254, 3, 3), ip(127, 0, 0, 1)}) EXPECT_TRUE(is_local_address(address)) << address;
  for (const auto address : {ip(9, 255, 255, 255), ip(11, 0, 0, 0), ip(172, 15, 255, 255), ip(172, 32, 0, 0), ip(192, 167, 1, 1), ip(192, 169, 0, 0), ip(203, 0, 113, 5), ip(0, 0, 0, 0), ip(255, 255, 255, 255)})
    EXPECT_FALSE(is_local_address(address)) << address;
}

}  // namespace
}  // namespace redd::classroom
