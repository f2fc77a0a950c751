#include "classroom/sessions.h"

#include <gtest/gtest.h>

namespace redd::classroom {
namespace {

using namespace std::chrono_literals;

const Instant now = *instant_from_rfc3339("2031-02-04T08:00:00Z");

Session session(Role role, int number, long long code = 0, Instant ends_at = now + 10h) {
  Session made{.role = role, .code = code, .word_mark = "first", .ends_at = ends_at};
  made.token[0] = static_cast<unsigned char>(number);
  made.token[1] = static_cast<unsigned char>(number >> 8);
  return made;
}
Digest token(int number) { return session(Role::bench, number).token; }

TEST(Sessions, AreFoundByTheirTokenOnly) {
  Sessions sessions;
  ASSERT_NE(sessions.begin(session(Role::keeper, 1), now), nullptr);
  ASSERT_NE(sessions.find(token(1), now), nullptr);
  EXPECT_EQ(sessions.find(token(1), now)->role, Role::keeper);
  EXPECT_EQ(sessions.find(token(2), now), nullptr);
  EXPECT_EQ(sessions.find({}, now), nullptr);
}

TEST(Sessions, EndAfterAnHourOfSilence) {
  Sessions sessions;
  sessions.begin(session(Role::keeper, 1), now);
  EXPECT_NE(sessions.find(token(1), now + 59min), nullptr);
  EXPECT_NE(sessions.find(token(1), now + 118min), nullptr) << "each question begins the hour anew";
  EXPECT_EQ(sessions.find(token(1), now + 178min), nullptr);
}

TEST(Sessions, EndAtTheLatestWhenTheySaid) {
  Sessions sessions;
  sessions.begin(session(Role::bench, 1, 7, now + 90min), now);
  EXPECT_NE(sessions.find(token(1), now + 50min), nullptr);
  EXPECT_NE(sessions.find(token(1), now + 89min), nullptr);
  EXPECT_EQ(sessions.find(token(1), now + 90min), nullptr);
}

TEST(Sessions, EndWhenTheClockIsSetBack) {
  Sessions sessions;
  sessions.begin(session(Role::keeper, 1), now);
  EXPECT_EQ(sessions.find(token(1), now - 2min), nullptr);
}

TEST(Sessions, EndWithTheirCodeOrByNumberOrAllTogether) {
  Sessions sessions;
  const long long keeper = sessions.begin(session(Role::keeper, 1), now)->id;
  sessions.begin(session(Role::bench, 2, 7), now);
  sessions.begin(session(Role::bench, 3, 8), now);
  sessions.begin(session(Role::bench, 4, 8), now);
  sessions.end_of_code(7);
  EXPECT_EQ(sessions.find(token(2), now), nullptr);
  EXPECT_NE(sessions.find(token(3), now), nullptr);
  EXPECT_TRUE(sessions.end(sessions.find(token(3), now)->id));
  EXPECT_EQ(sessions.find(token(3), now), nullptr);
  sessions.end_of_code(0);
  EXPECT_NE(sessions.find(token(1), now), nullptr) << "the keeper's began with no code";
  sessions.end_all(keeper);
  EXPECT_EQ(sessions.open(now).size(), 1u);
  sessions.end_all(0);
  EXPECT_TRUE(sessions.open(now).empty());
}

TEST(Sessions, OfTheKeeperEndWithTheirPassphrase) {
  Sessions sessions;
  sessions.begin(session(Role::keeper, 1), now);
  sessions.begin(session(Role::bench, 2, 7), now);
  sessions.end_of_other_words("first");
  EXPECT_NE(sessions.find(token(1), now), nullptr);
  sessions.end_of_other_words("second");
  EXPECT_EQ(sessions.find(token(1), now), nullptr);
  EXPECT_NE(sessions.find(token(2), now), nullptr);
}

TEST(Sessions, OfOneCodeAreNotWithoutEnd) {
  Sessions sessions;
  for (std::size_t i = 0; i < most_sessions_of_a_code; ++i) ASSERT_NE(sessions.begin(session(Role::bench, static_cast<int>(i), 7), now), nullptr);
  EXPECT_EQ(sessions.begin(session(Role::bench, 900, 7), now), nullptr);
  EXPECT_NE(sessions.begin(session(Role::bench, 901, 8), now), nullptr);
}

TEST(Sessions, OfAFullHouseMakeRoomForTheKeeper) {
  Sessions sessions;
  for (std::size_t i = 0; i < most_sessions; ++i) ASSERT_NE(sessions.begin(session(Role::bench, static_cast<int>(i), static_cast<long long>(i / 30 + 1)), now + std::chrono::seconds(i)), nullptr);
  const Instant later = now + 10min;
  EXPECT_EQ(sessions.begin(session(Role::bench, 900, 90), later), nullptr);
  EXPECT_NE(sessions.begin(session(Role::keeper, 901), later), nullptr);
  EXPECT_EQ(sessions.open(later).size(), most_sessions);
  EXPECT_EQ(sessions.find(token(0), later), nullptr) << "idle longest";
  EXPECT_NE(sessions.find(token(1), later), nullptr);
}

}  // namespace
}  // namespace redd::classroom
