// When the school is open, against days counted by hand and a day-by-day search.
#include "records/school_calendar.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace redd::records {
namespace {

using std::chrono::days;
using std::chrono::minutes;

Date date(const char* iso) { return *date_from_iso(iso); }

std::vector<Record> log_of(std::vector<Body> bodies) {
  std::vector<Record> log;
  for (Body& body : bodies) log.push_back({static_cast<RecordId>(log.size()) + 1, {}, {{}, "Team Otter", {}, {}, std::move(body)}});
  return log;
}

TEST(SchoolCalendar, WithoutARecordIsMondayToFriday) {
  const SchoolCalendar calendar;
  // 4 January 2031 is a Saturday (ISO 8601; also any printed calendar).
  EXPECT_TRUE(calendar.is_open(date("2031-01-03")));
  EXPECT_FALSE(calendar.is_open(date("2031-01-04")));
  EXPECT_FALSE(calendar.is_open(date("2031-01-05")));
  EXPECT_EQ(calendar.next_open_day(date("2031-01-03")), date("2031-01-06"));
  EXPECT_EQ(calendar.last_open_day_before(date("2031-01-06")), date("2031-01-03"));
  EXPECT_EQ(calendar.closed_days_from(date("2031-01-04")), 2);
  EXPECT_EQ(calendar.closed_days_from(date("2031-01-06")), 0);
  EXPECT_FALSE(calendar.closure_on(date("2031-01-04"))) << "a weekend is no closure";
}

TEST(SchoolCalendar, ClosesFromADayToADayBothIncluded) {
  const SchoolCalendar calendar(log_of({Closure{"Winter break", date("2030-12-23"), date("2031-01-03"), {}}, Closure{"Snow day", date("2031-01-14"), {}, {}}}));
  EXPECT_TRUE(calendar.is_open(date("2030-12-20")));
  EXPECT_FALSE(calendar.is_open(date("2030-12-23")));
  EXPECT_FALSE(calendar.is_open(date("2031-01-03")));
  EXPECT_TRUE(calendar.is_open(date("2031-01-06")));
  EXPECT_EQ(calendar.next_open_day(date("2030-12-20")), date("2031-01-06"));
  EXPECT_EQ(calendar.last_open_day_before(date("2031-01-06")), date("2030-12-20"));
  EXPECT_EQ(calendar.closed_days_from(date("2030-12-21")), 16) << "two weekends and the week between";
  EXPECT_EQ(calendar.closure_on(date("2030-12-28"))->name, "Winter break") << "also on its weekends";
  EXPECT_FALSE(calendar.is_open(date("2031-01-14")));
  EXPECT_EQ(calendar.closed_days_from(date("2031-01-14")), 1);
}

TEST(SchoolCalendar, AnEarlyClosingLeavesTheDayOpen) {
  const Date day = date("2031-02-05");
  const SchoolCalendar calendar(log_of({Closure{"Conferences", day, {}, "13:15"}, Closure{"Storm", day, {}, "11:05"}, Closure{"Weekend works", date("2031-02-08"), {}, "12:00"}}));
  EXPECT_TRUE(calendar.is_open(day));
  EXPECT_FALSE(calendar.closure_on(day));
  EXPECT_EQ(calendar.shut_from(day), minutes(11 * 60 + 5)) << "the earliest";
  EXPECT_FALSE(calendar.shut_from(day + days(1)));
  EXPECT_FALSE(calendar.shut_from(date("2031-02-08"))) << "closed anyway";
}

TEST(SchoolCalendar, KnowsOtherWeeks) {
  SeasonSetup season;
  season.school_weekdays = "sun-thu";
  const SchoolCalendar calendar(log_of({season}));
  EXPECT_TRUE(calendar.is_open(date("2031-01-05")));
  EXPECT_FALSE(calendar.is_open(date("2031-01-03")));
  EXPECT_EQ(calendar.next_open_day(date("2031-01-02")), date("2031-01-05"));
}

TEST(SchoolCalendar, SaysWhoIsOnDuty) {
  const SchoolCalendar calendar(log_of({Duty{"Team Heron", date("2030-12-21"), date("2030-12-28")}, Duty{"Team Otter", date("2030-12-28"), date("2031-01-05")}, Duty{"Team Heron", date("2030-12-24"), {}}}));
  EXPECT_EQ(calendar.on_duty(date("2030-12-24")), std::vector<std::string>{"Team Heron"}) << "named once";
  EXPECT_EQ(calendar.on_duty(date("2030-12-28")), (std::vector<std::string>{"Team Heron", "Team Otter"}));
  EXPECT_TRUE(calendar.on_duty(date("2031-01-06")).empty());
}

TEST(SchoolCalendar, EndsItsSearchWhenNothingIsEverOpen) {
  std::vector<Body> years;
  for (int i = 0; i < 10; ++i) years.push_back(Closure{"Closed", date("2031-01-01") + days(150 * i), date("2031-01-01") + days(150 * i + 149), {}});
  const SchoolCalendar calendar(log_of(std::move(years)));
  EXPECT_FALSE(calendar.next_open_day(date("2031-01-01")));
  EXPECT_EQ(calendar.closed_days_from(date("2031-01-01")), 3 * 366);
}

RC_GTEST_PROP(SchoolCalendar, NeighboursAreOpenAndAllBetweenIsClosed, ()) {
  std::vector<Body> bodies;
  const int closures = *rc::gen::inRange(0, 6);
  for (int i = 0; i < closures; ++i) {
    const Date from = date("2031-01-01") + days(*rc::gen::inRange(0, 60));
    bodies.push_back(Closure{"c", from, from + days(*rc::gen::inRange(0, 20)), {}});
  }
  const SchoolCalendar calendar(log_of(std::move(bodies)));
  const Date day = date("2031-01-01") + days(*rc::gen::inRange(0, 90));
  const auto next = calendar.next_open_day(day), before = calendar.last_open_day_before(day);
  RC_ASSERT(next && before && *before < day && day < *next);
  RC_ASSERT(calendar.is_open(*next));
  RC_ASSERT(calendar.is_open(*before));
  for (Date each = *before + days(1); each < *next; each += days(1)) RC_ASSERT(each == day || !calendar.is_open(each));
  RC_ASSERT(day + days(calendar.closed_days_from(day)) == (calendar.is_open(day) ? day : *next));
}

TEST(WeekdaysFromText, TakesNamesAndSpans) {
  EXPECT_EQ(weekdays_from_text("mon tue wed thu fri"), monday_to_friday);
  EXPECT_EQ(weekdays_from_text("Monday, TUESDAY,wednes thurs fri"), monday_to_friday);
  EXPECT_EQ(weekdays_from_text("mon-fri"), monday_to_friday);
  EXPECT_EQ(weekdays_from_text("sat-mon"), (Weekdays{true, true, false, false, false, false, true}));
  EXPECT_EQ(weekdays_from_text("wed"), (Weekdays{false, false, false, true, false, false, false}));
  for (const char* wrong : {"", " , ", "mo", "mon-", "-fri", "montag", "mon fri x"}) EXPECT_FALSE(weekdays_from_text(wrong)) << wrong;
}

TEST(ClockFromText, TakesTimesOfADayOnly) {
  EXPECT_EQ(clock_from_text("12:30"), minutes(750));
  EXPECT_EQ(clock_from_text("7:05"), minutes(425));
  EXPECT_EQ(clock_from_text("00:00"), minutes(0));
  for (const char* wrong : {"", "24:00", "12:60", "12", "12:3", "123:00", "-1:00", "1a:00", "12:30 pm", "12:+3"}) EXPECT_FALSE(clock_from_text(wrong)) << wrong;
}

RC_GTEST_PROP(ClockFromText, IsTheInverseOfClockText, ()) {
  const minutes time(*rc::gen::inRange(0, 24 * 60));
  RC_ASSERT(clock_from_text(clock_text(time)) == time);
}

}  // namespace
}  // namespace redd::records
