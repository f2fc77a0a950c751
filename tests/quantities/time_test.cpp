#include "quantities/time.h"

#include <gtest/gtest.h>

namespace redd {
namespace {

using namespace std::chrono;

TEST(DateFromIso, AcceptsExistingDaysInThatFormOnly) {
  EXPECT_EQ(iso_from_date(*date_from_iso("2032-02-29")), "2032-02-29");
  for (const char* text : {"2031-02-29", "2100-02-29", "2031-13-01", "2031-00-10", "2031-1-1", "31-01-01", "2031/01/01", "2031-01-32", "1899-12-31", "2200-01-01", "",
                           "2031-01-01 "})
    EXPECT_FALSE(date_from_iso(text)) << text;
}

TEST(InstantFromRfc3339, NeedsAnOffset) {
  EXPECT_EQ(rfc3339_from_instant(*instant_from_rfc3339("2031-02-28T07:05:00Z")), "2031-02-28T07:05:00Z");
  EXPECT_EQ(rfc3339_from_instant(*instant_from_rfc3339("2031-02-28T07:05:00-07:30")), "2031-02-28T14:35:00Z");
  EXPECT_EQ(rfc3339_from_instant(*instant_from_rfc3339("2031-02-28T23:59:59.999+01:00")), "2031-02-28T22:59:59Z");
  for (const char* text : {"2031-02-28T07:05:00", "2031-02-28T24:00:00Z", "2031-02-28T07:60:00Z", "2031-02-30T07:05:00Z", "2031-02-28T07:05:00.Z", "2031-02-28T07:05:00+7:00",
                           "2031-02-28T07:05Z", "2031-02-28T07:05:00Zx"})
    EXPECT_FALSE(instant_from_rfc3339(text)) << text;
}

TEST(OffsetAt, AnEmptyListIsUtc) {
  EXPECT_EQ(offset_at({}, *instant_from_rfc3339("2031-07-01T00:00:00Z")), seconds(0));
  EXPECT_EQ(rfc3339_local({}, *instant_from_rfc3339("2031-07-01T00:00:00Z")), "2031-07-01T00:00:00+00:00");
}

TEST(AfterDays, RoundsToTheSecond) {
  const auto start = *instant_from_rfc3339("2031-07-01T00:00:00Z");
  EXPECT_EQ(after_days(start, 1.0 / 3.0) - start, hours(8));
  EXPECT_DOUBLE_EQ(days_between(start, start + hours(36)).count(), 1.5);
}

}  // namespace
}  // namespace redd
