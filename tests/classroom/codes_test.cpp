#include "classroom/codes.h"

#include <gtest/gtest.h>

#include <set>

namespace redd::classroom {
namespace {

using namespace std::chrono_literals;

Digest digest(unsigned char first) {
  Digest made{};
  made.front() = first;
  return made;
}

const Instant now = *instant_from_rfc3339("2031-02-04T10:00:00Z");

TEST(CodeFromTyped, TakesItAsPeopleTypeIt) {
  EXPECT_EQ(code_from_typed("CDFG-HJKM"), "CDFGHJKM");
  EXPECT_EQ(code_from_typed(" cdfg hjkm\t"), "CDFGHJKM");
  EXPECT_EQ(code_from_typed(code_as_shown("2346789X")), "2346789X");
  for (const char* none : {"", "CDFGHJK", "CDFGHJKMN", "CDFG_HJKM", "ADFGHJKM", "CDFGHJK0"}) EXPECT_FALSE(code_from_typed(none).has_value()) << none;
}

TEST(CodeSigns, AreNotTakenForOneAnother) {
  EXPECT_EQ(std::set<char>(code_signs.begin(), code_signs.end()).size(), code_signs.size());
  for (const char c : std::string("0O1IL5S8B2Z")) EXPECT_FALSE(c != '2' && c != '8' && code_signs.find(c) != std::string_view::npos) << c;
}

TEST(BenchCodes, LastAsLongAsTheyWereMadeFor) {
  BenchCodes codes;
  ASSERT_TRUE(codes.add(digest(1), "Team Newt", 120min, now).has_value());
  ASSERT_NE(codes.find(digest(1), now + 119min), nullptr);
  EXPECT_EQ(codes.find(digest(1), now + 119min)->label, "Team Newt");
  EXPECT_EQ(codes.find(digest(2), now), nullptr);
  EXPECT_EQ(codes.find(digest(1), now + 120min), nullptr);
  EXPECT_TRUE(codes.open(now + 120min).empty());
  EXPECT_EQ(codes.find(digest(1), now), nullptr) << "what ended stays ended when a clock goes back";
}

TEST(BenchCodes, EndWhenTheClockIsSetBack) {
  BenchCodes codes;
  ASSERT_TRUE(codes.add(digest(1), "", 120min, now).has_value());
  EXPECT_EQ(codes.find(digest(1), now - 5min), nullptr);
}

TEST(BenchCodes, LastASchoolDayAtMost) {
  BenchCodes codes;
  EXPECT_FALSE(codes.add(digest(1), "", 601min, now).has_value());
  EXPECT_FALSE(codes.add(digest(1), "", 4min, now).has_value());
  EXPECT_TRUE(codes.add(digest(1), "", 600min, now).has_value());
}

TEST(BenchCodes, AreNotWithoutEnd) {
  BenchCodes codes;
  for (std::size_t i = 0; i < most_codes; ++i) ASSERT_TRUE(codes.add(digest(static_cast<unsigned char>(i)), "", 10min, now).has_value());
  EXPECT_EQ(codes.add(digest(200), "", 10min, now).problems().front().code, "too_many");
  EXPECT_TRUE(codes.end(1, now));
  EXPECT_FALSE(codes.end(1, now));
  EXPECT_TRUE(codes.add(digest(200), "", 10min, now).has_value());
  codes.end_all();
  EXPECT_TRUE(codes.open(now).empty());
}

TEST(SameDigest, LooksAtEveryByte) {
  for (std::size_t i = 0; i < Digest{}.size(); ++i) {
    Digest other{};
    other[i] = 1;
    EXPECT_FALSE(same_digest({}, other)) << i;
  }
  EXPECT_TRUE(same_digest({}, {}));
}

}  // namespace
}  // namespace redd::classroom
