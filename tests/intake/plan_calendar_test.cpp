// The plan's calendar file as a foreign program reads it: libical, a general-purpose library for RFC 5545, parses it, checks its
// restrictions (3.6: which properties a component must and may have) and finds every day again. And our own import reads it back.
#include <gtest/gtest.h>
#include <libical/ical.h>

#include <map>
#include <memory>
#include <set>

#include "intake/calendar.h"
#include "report/diary_view.h"
#include "season/season.h"
#include "support/small_season.h"

namespace redd::intake {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using std::chrono::days;

const Instant stamp = *instant_from_rfc3339("2031-01-26T15:00:00Z");
Date day_number(int day) { return local_day({}, on_day(day)); }

SmallSeason school_season() {
  SmallSeason season;
  auto& setup = std::get<records::SeasonSetup>(season.log().front().entry.body);
  setup.name = "Class; of \"trout\", 2031\\32 — ørret";
  setup.release_from = day_number(90);
  setup.release_until = day_number(140);
  setup.permit = "Invented permit 7, pool; north\nbank";
  for (int day = 1; day < 30; ++day) season.temperature(day, 8);
  season.eggs(10, 250);
  season.quiet_tests(18);
  season.add(15, records::Closure{"Invented break, with a comma", day_number(50), day_number(60), {}});
  season.add(15, records::Closure{"Invented staff day", day_number(33), {}, {}});
  season.add(15, records::Closure{"Invented half day", day_number(36), {}, "12:30"});
  season.add(15, records::Duty{"Team Heron", day_number(50), day_number(60)});
  return season;
}

season::Diary diary_of(const SmallSeason& season, int day = 20) {
  auto view = season::look_at_plan({}, season.log(), on_day(day, 15));
  require(view.has_value(), "diary_of", "no plan");
  return std::move(view).value().diary;
}

struct Free {
  void operator()(icalcomponent* c) const { icalcomponent_free(c); }
};
std::unique_ptr<icalcomponent, Free> parsed(const std::string& text) { return std::unique_ptr<icalcomponent, Free>(icalparser_parse_string(text.c_str())); }

int errors_in(icalcomponent* component) {
  int count = icalcomponent_count_errors(component);
  for (icalcomponent* c = icalcomponent_get_first_component(component, ICAL_ANY_COMPONENT); c; c = icalcomponent_get_next_component(component, ICAL_ANY_COMPONENT)) count += errors_in(c);
  return count;
}

/// libical's restriction table dates from RFC 2445 and 5546 and knows no NAME (RFC 7986), which it takes as it is.
void expect_valid(const std::string& text) {
  const auto calendar = parsed(text);
  ASSERT_TRUE(calendar);
  EXPECT_EQ(icalcomponent_isa(calendar.get()), ICAL_VCALENDAR_COMPONENT);
  EXPECT_EQ(icalcomponent_count_components(calendar.get(), ICAL_XROOT_COMPONENT), 0);
  EXPECT_EQ(errors_in(calendar.get()), 0) << icalcomponent_as_ical_string(calendar.get());
  EXPECT_EQ(icalrestriction_check(calendar.get()), 1) << icalcomponent_as_ical_string(calendar.get());
  EXPECT_EQ(errors_in(calendar.get()), 0) << "the check itself writes down what it finds";
  EXPECT_EQ(text.find("X-LIC-ERROR"), std::string::npos);
}

Date date_of(const icaltimetype& t) {
  return Date(std::chrono::local_days(std::chrono::year(t.year) / t.month / t.day));
}

TEST(PlanCalendar, IsValidWithAndWithoutClosures) {
  const auto diary = diary_of(school_season());
  expect_valid(report::diary_ics(diary, stamp));
  expect_valid(report::diary_ics(diary, stamp, {true, false}));
  SmallSeason chilled;
  std::get<records::SeasonSetup>(chilled.log().front().entry.body).egg_day = day_number(60);
  chilled.temperature(10, 22);
  expect_valid(report::diary_ics(diary_of(chilled, 10), stamp));
}

TEST(PlanCalendar, TheCheckItselfFindsWhatIsWrong) {
  const auto twice = parsed("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//EN\r\nBEGIN:VEVENT\r\nUID:1\r\nUID:2\r\nDTSTAMP:20310101T000000Z\r\nDTSTART:20310101T000000Z\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n");
  EXPECT_EQ(icalrestriction_check(twice.get()), 0);
}

TEST(PlanCalendar, AForeignReaderFindsEveryEntryOnItsDays) {
  const auto diary = diary_of(school_season());
  const auto calendar = parsed(report::diary_ics(diary, stamp, {true, true}));
  ASSERT_TRUE(calendar);
  std::multiset<std::string> written, read;
  for (const auto& e : diary.entries) written.insert(iso_from_date(e.first) + ".." + iso_from_date(e.last) + " " + report::text_of(e.title, {}));
  std::set<std::string> uids;
  for (icalcomponent* c = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); c; c = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    const icaltimetype begin = icalcomponent_get_dtstart(c), end = icalcomponent_get_dtend(c);
    EXPECT_TRUE(begin.is_date && end.is_date);
    read.insert(iso_from_date(date_of(begin)) + ".." + iso_from_date(date_of(end) - days(1)) + " " + icalcomponent_get_summary(c));
    EXPECT_TRUE(uids.insert(icalcomponent_get_uid(c)).second);
    EXPECT_EQ(icalcomponent_get_sequence(c), diary.newest);
    EXPECT_NE(std::string(icalcomponent_get_description(c)).find("Permit and supplier come before any plan."), std::string::npos);
    const bool has_alarm = icalcomponent_get_first_component(c, ICAL_VALARM_COMPONENT) != nullptr;
    const bool task = std::string(icalcomponent_get_summary(c)).starts_with("Set the controller") || std::string(icalcomponent_get_summary(c)) == "Weekly water test";
    EXPECT_EQ(has_alarm, task) << icalcomponent_get_summary(c);
  }
  EXPECT_EQ(read, written);
  icalproperty* name = icalcomponent_get_first_property(calendar.get(), ICAL_NAME_PROPERTY);
  ASSERT_TRUE(name);
  EXPECT_EQ(std::string(icalproperty_get_name(name)), diary.season.name) << "escaped and folded on the way";
}

std::map<std::string, std::string> uid_by_title(const std::string& text) {
  std::map<std::string, std::string> uids;
  const auto calendar = parsed(text);
  for (icalcomponent* c = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); c; c = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT))
    uids[std::string(icalcomponent_get_summary(c)) + (std::string(icalcomponent_get_summary(c)).starts_with("Weekly") ? icaltime_as_ical_string(icalcomponent_get_dtstart(c)) : "")] =
        icalcomponent_get_uid(c);
  return uids;
}

TEST(PlanCalendar, TheSamePlanHasTheSameUidsAndAMovedStageKeepsItsOwn) {
  SmallSeason season = school_season();
  const std::string first = report::diary_ics(diary_of(season), stamp);
  const std::string again = report::diary_ics(diary_of(season), stamp + std::chrono::hours(5));
  EXPECT_EQ(uid_by_title(first), uid_by_title(again));
  const auto before = diary_of(season);
  for (int day = 20; day < 27; ++day) season.temperature(day, 11);  // a warm week: everything comes sooner
  const auto after = diary_of(season, 27);
  EXPECT_GT(after.newest, before.newest);
  const auto old_uids = uid_by_title(first), new_uids = uid_by_title(report::diary_ics(after, stamp));
  const std::string hatch = "Hatch: half of the eggs";
  ASSERT_TRUE(old_uids.contains(hatch) && new_uids.contains(hatch));
  EXPECT_EQ(old_uids.at(hatch), new_uids.at(hatch));
  const auto window = [&](const season::Diary& d) { return std::ranges::find(d.entries, "hatch", &season::DiaryEntry::key)->first; };
  EXPECT_NE(window(before), window(after)) << "it did move";
}

CalendarContext context_of(const SmallSeason& season, bool with_log) {
  CalendarContext context;
  context.first_day = day_number(0);
  context.last_day = day_number(360);
  context.now = on_day(20, 15);
  if (with_log) context.records = season.log();
  return context;
}

TEST(PlanCalendar, ItsClosuresComeBackThroughOurOwnImportAndNothingElseDoes) {
  const SmallSeason season = school_season();
  const auto file = report::diary_ics(diary_of(season), stamp, {true, true});
  const auto back = preview_calendar(file, {}, context_of(season, false));
  ASSERT_TRUE(back);
  EXPECT_TRUE(back->bad.empty());
  std::set<std::string> days_back;
  for (const ClosureRow& row : back->closures)
    days_back.insert(iso_from_date(row.closure.from) + ".." + iso_from_date(records::last_day_of(row.closure)) + row.closure.shut_from.value_or(""));
  EXPECT_EQ(days_back, (std::set<std::string>{iso_from_date(day_number(33)) + ".." + iso_from_date(day_number(33)), iso_from_date(day_number(36)) + ".." + iso_from_date(day_number(36)) + "12:30",
                                              iso_from_date(day_number(50)) + ".." + iso_from_date(day_number(60))}));
  const auto without = preview_calendar(report::diary_ics(diary_of(season), stamp), {}, context_of(season, false));
  ASSERT_TRUE(without);
  EXPECT_TRUE(without->closures.empty()) << "no task and no stage sounds like a closed school";
}

TEST(PlanCalendar, IntoItsOwnLogItBringsNothingNew) {
  const SmallSeason season = school_season();
  const auto again = preview_calendar(report::diary_ics(diary_of(season), stamp, {true, true}), {}, context_of(season, true));
  ASSERT_TRUE(again);
  EXPECT_EQ(again->closures.size(), 3u);
  for (const ClosureRow& row : again->closures) EXPECT_EQ(row.standing, RowStanding::known) << row.closure.name;
  EXPECT_TRUE(again->entries.empty());
}

TEST(PlanCalendar, AnInventedSeasonSaysSoOnEveryEvent) {
  SmallSeason season = school_season();
  std::get<records::SeasonSetup>(season.log().front().entry.body).invented = true;
  const auto calendar = parsed(report::diary_ics(diary_of(season), stamp));
  for (icalcomponent* c = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); c; c = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT))
    EXPECT_TRUE(std::string(icalcomponent_get_summary(c)).ends_with("(invented)"));
}

}  // namespace
}  // namespace redd::intake
