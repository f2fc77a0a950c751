// Times as people type them, with the school's clock in mind. Clock changes of 2031 in Denver: 9 March 02:00 -> 03:00,
// 2 November 02:00 -> 01:00 (US rules in force since 2007: second Sunday of March, first of November; 15 U.S.C. 260a).
#include "cli/place.h"

#include <gtest/gtest.h>

#include "zones/zones.h"

namespace redd::cli {
namespace {

class InstantFromTyped : public ::testing::Test {
 protected:
  std::string read(const std::string& text) const {
    const auto at = instant_from_typed(text, zone, now);
    return at ? rfc3339_from_instant(*at) : at.problems().front().code;
  }
  ZoneOffsets zone =
      zones::zone_offsets("America/Denver", *date_from_iso("2031-01-01"), *date_from_iso("2031-12-31")).value();
  Instant now = *instant_from_rfc3339("2031-03-05T20:00:00Z");
};

TEST_F(InstantFromTyped, ReadsTheSchoolsClock) {
  EXPECT_EQ(read("07:50"), "2031-03-05T14:50:00Z");
  EXPECT_EQ(read("7:50"), "2031-03-05T14:50:00Z");
  EXPECT_EQ(read("2031-02-14 07:50"), "2031-02-14T14:50:00Z");
  EXPECT_EQ(read("2031-07-14T07:50"), "2031-07-14T13:50:00Z");
  EXPECT_EQ(read("2031-02-14"), "2031-02-14T19:00:00Z") << "noon";
  EXPECT_EQ(read("2031-03-05"), "2031-03-05T20:00:00Z") << "today is now";
  EXPECT_EQ(read("2031-02-14T07:50:00-07:00"), "2031-02-14T14:50:00Z");
}

TEST_F(InstantFromTyped, RefusesWhatIsNoTime) {
  for (const char* text :
       {"", "soon", "25:00", "07:60", "7.50", "2031-02-30", "2031-02-14 7h", "14/02/2031", "2031-02-14x07:50"})
    EXPECT_EQ(read(text), "not_a_time") << text;
}

TEST_F(InstantFromTyped, AsksWhereTheClocksChange) {
  const auto skipped = instant_from_typed("2031-03-09 02:30", zone, now);
  ASSERT_FALSE(skipped.has_value());
  EXPECT_EQ(skipped.problems().front().code, "skipped_or_twice");
  const auto twice = instant_from_typed("2031-11-02 01:30", zone, now);
  ASSERT_FALSE(twice.has_value());
  const std::string& sentence = twice.problems().front().sentence;
  EXPECT_NE(sentence.find("2031-11-02T01:30:00-06:00"), std::string::npos) << sentence;
  EXPECT_NE(sentence.find("2031-11-02T01:30:00-07:00"), std::string::npos) << sentence;
  EXPECT_EQ(read("2031-11-02T01:30:00-06:00"), "2031-11-02T07:30:00Z");
  EXPECT_EQ(read("2031-11-02T01:30:00-07:00"), "2031-11-02T08:30:00Z");
  EXPECT_EQ(read("2031-03-09 03:30"), "2031-03-09T09:30:00Z");
}

}  // namespace
}  // namespace redd::cli
