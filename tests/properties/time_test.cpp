// Days and instants across daylight saving and leap days, in zones built by hand.
#include "properties/generators.h"
#include "quantities/time.h"

namespace redd::properties {
namespace {

using namespace std::chrono;

Instant utc(const char* text) { return *instant_from_rfc3339(text); }

/// A northern zone an hour east, with summer time from the last Sunday of March to that of October, 01:00 UTC.
ZoneOffsets northern() {
  return {"northern",
          {{utc("2029-10-28T01:00:00Z"), hours(1)}, {utc("2030-03-31T01:00:00Z"), hours(2)}, {utc("2030-10-27T01:00:00Z"), hours(1)},
           {utc("2031-03-30T01:00:00Z"), hours(2)}, {utc("2031-10-26T01:00:00Z"), hours(1)}, {utc("2032-03-28T01:00:00Z"), hours(2)},
           {utc("2032-10-31T01:00:00Z"), hours(1)}}};
}
/// A southern zone ten and a half hours east whose summer time adds half an hour, at 02:00 local standard time.
ZoneOffsets southern() {
  const auto winter = minutes(630), summer = minutes(660);
  return {"southern",
          {{utc("2029-10-06T15:30:00Z"), summer}, {utc("2030-04-06T15:00:00Z"), winter}, {utc("2030-10-05T15:30:00Z"), summer},
           {utc("2031-04-05T15:00:00Z"), winter}, {utc("2031-10-04T15:30:00Z"), summer}, {utc("2032-04-03T15:00:00Z"), winter}}};
}
/// A western zone whose summer time begins at midnight, so that the first hour of that day does not exist.
ZoneOffsets midnight_skip() {
  return {"midnight", {{utc("2030-02-17T02:00:00Z"), hours(-4)}, {utc("2030-09-08T04:00:00Z"), hours(-3)}, {utc("2031-04-06T03:00:00Z"), hours(-4)},
                       {utc("2031-09-07T04:00:00Z"), hours(-3)}}};
}

ZoneOffsets any_zone() { return *rc::gen::elementOf(std::vector<ZoneOffsets>{northern(), southern(), midnight_skip(), ZoneOffsets{}}); }
Instant any_instant() { return utc("2029-12-01T00:00:00Z") + seconds(*rc::gen::inRange(0, 3 * 366 * 86400)); }
Date any_day() { return *date_from_iso("2029-12-01") + days(*rc::gen::inRange(0, 3 * 366)); }

RC_GTEST_PROP(Time, AnInstantsLocalTimeLeadsBackToItUnlessItOccursTwice, ()) {
  const auto zone = any_zone();
  const auto at = any_instant();
  const auto local = local_time(zone, at);
  if (!is_ambiguous_or_skipped(zone, local)) RC_ASSERT(instant_of(zone, local) == at);
  RC_ASSERT(local_time(zone, instant_of(zone, local)) == local);
  RC_ASSERT(instant_of(zone, local) <= at);  // the first of two
}

RC_GTEST_PROP(Time, EveryInstantLiesInItsLocalDay, ()) {
  const auto zone = any_zone();
  const auto at = any_instant();
  const auto day = local_day(zone, at);
  RC_ASSERT(start_of_day(zone, day) <= at);
  RC_ASSERT(at < start_of_day(zone, day + days(1)));
}

RC_GTEST_PROP(Time, DaysFollowOneAnotherWithoutGapAndLastAboutADay, ()) {
  const auto zone = any_zone();
  const auto day = any_day();
  const auto start = start_of_day(zone, day);
  RC_ASSERT(local_day(zone, start) == day);
  RC_ASSERT(local_day(zone, start - seconds(1)) == day - days(1));
  const double length = length_of_day(zone, day).count();
  RC_ASSERT(length >= 23.0 / 24.0 && length <= 25.0 / 24.0);
}

RC_GTEST_PROP(Time, LengthsOfDaysAddUpToTheSpan, ()) {
  const auto zone = any_zone();
  const auto first = any_day();
  const int count = *rc::gen::inRange(0, 400);
  double sum = 0.0;
  for (int i = 0; i < count; ++i) sum += length_of_day(zone, first + days(i)).count();
  RC_ASSERT(std::abs(sum - days_between(start_of_day(zone, first), start_of_day(zone, first + days(count))).count()) < 1e-9);
}

RC_GTEST_PROP(Time, DatesRoundTripThroughText, ()) {
  const Date day = *date_from_iso("1900-01-01") + days(*rc::gen::inRange(0, 300 * 365));
  RC_ASSERT(*date_from_iso(iso_from_date(day)) == day);
}

RC_GTEST_PROP(Time, InstantsRoundTripThroughTextInUtcAndInTheZone, ()) {
  const auto zone = any_zone();
  const auto at = any_instant();
  RC_ASSERT(*instant_from_rfc3339(rfc3339_from_instant(at)) == at);
  RC_ASSERT(*instant_from_rfc3339(rfc3339_local(zone, at)) == at);
}

TEST(TimeCases, SpringDayHas23HoursAndAutumnDay25) {
  EXPECT_NEAR(length_of_day(northern(), *date_from_iso("2031-03-30")).count() * 24, 23, 1e-9);
  EXPECT_NEAR(length_of_day(northern(), *date_from_iso("2031-10-26")).count() * 24, 25, 1e-9);
  EXPECT_NEAR(length_of_day(southern(), *date_from_iso("2030-10-06")).count() * 24, 23.5, 1e-9);
  EXPECT_NEAR(length_of_day(southern(), *date_from_iso("2031-04-06")).count() * 24, 24.5, 1e-9);
  EXPECT_NEAR(length_of_day(northern(), *date_from_iso("2031-06-01")).count() * 24, 24, 1e-9);
}

TEST(TimeCases, ASkippedHourIsReadWithTheOffsetBeforeAndADoubledHourIsItsFirst) {
  const auto local = [](const char* day, auto time) { return local_seconds{*date_from_iso(day)} + time; };
  EXPECT_TRUE(is_ambiguous_or_skipped(northern(), local("2031-03-30", hours(2) + minutes(30))));
  EXPECT_EQ(rfc3339_from_instant(instant_of(northern(), local("2031-03-30", hours(2) + minutes(30)))), "2031-03-30T01:30:00Z");
  EXPECT_TRUE(is_ambiguous_or_skipped(northern(), local("2031-10-26", hours(2) + minutes(30))));
  EXPECT_EQ(rfc3339_from_instant(instant_of(northern(), local("2031-10-26", hours(2) + minutes(30)))), "2031-10-26T00:30:00Z");
  EXPECT_FALSE(is_ambiguous_or_skipped(northern(), local("2031-10-26", hours(3))));
}

TEST(TimeCases, WhereMidnightIsSkippedTheDayStartsAtOne) {
  const auto day = *date_from_iso("2030-09-08");
  EXPECT_EQ(rfc3339_local(midnight_skip(), start_of_day(midnight_skip(), day)), "2030-09-08T01:00:00-03:00");
  EXPECT_NEAR(length_of_day(midnight_skip(), day).count() * 24, 23, 1e-9);
  EXPECT_NEAR(length_of_day(midnight_skip(), *date_from_iso("2031-04-05")).count() * 24, 25, 1e-9);  // 24:00 goes back to 23:00
}

TEST(TimeCases, LeapDays) {
  EXPECT_EQ(iso_from_date(*date_from_iso("2032-02-28") + days(1)), "2032-02-29");
  EXPECT_EQ(iso_from_date(*date_from_iso("2032-02-28") + days(2)), "2032-03-01");
  EXPECT_EQ(iso_from_date(*date_from_iso("2031-02-28") + days(1)), "2031-03-01");
  EXPECT_EQ(iso_from_date(*date_from_iso("2100-02-28") + days(1)), "2100-03-01");
  EXPECT_EQ((*date_from_iso("2033-01-01") - *date_from_iso("2032-01-01")).count(), 366);
}

}  // namespace
}  // namespace redd::properties
