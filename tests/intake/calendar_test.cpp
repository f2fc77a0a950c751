// A school's calendar as closures, one hand-made calendar a feature (an invented school); weekdays and changes of clocks as any printed
// calendar has them, the wording of features as RFC 5545 has them.
#include "intake/calendar.h"

#include <gtest/gtest.h>

#include "zones/zones.h"

namespace redd::intake {
namespace {

using std::chrono::days;
using std::chrono::hours;

Date date(const char* iso) { return *date_from_iso(iso); }

CalendarContext denver() {
  CalendarContext context;
  context.zone = zones::zone_offsets("America/Denver", date("2029-09-01"), date("2032-09-01")).value();
  context.first_day = date("2030-09-02");
  context.last_day = date("2031-08-31");
  context.now = *instant_from_rfc3339("2030-09-03T15:00:00Z");
  return context;
}

std::string calendar(const std::string& inside) { return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Invented school//EN\r\n" + inside + "END:VCALENDAR\r\n"; }
std::string event(const std::string& inside, const std::string& uid = "1@invented.example") { return "BEGIN:VEVENT\r\nUID:" + uid + "\r\n" + inside + "END:VEVENT\r\n"; }

CalendarPreview preview(const std::string& text, bool all = false, const CalendarContext& context = denver()) {
  auto result = preview_calendar(text, {all, "import"}, context);
  if (!result) throw std::runtime_error(result.problems().front().sentence);
  return std::move(result).value();
}

/// "2030-12-23..2031-01-03 Winter break; …"
std::string closures(const CalendarPreview& p) {
  std::string text;
  for (const ClosureRow& row : p.closures)
    text += (text.empty() ? "" : "; ") + iso_from_date(row.closure.from) + (row.closure.to ? ".." + iso_from_date(*row.closure.to) : "") +
            (row.closure.shut_from ? " shut " + *row.closure.shut_from : "") + " " + row.closure.name;
  return text;
}
std::string closures(const std::string& text, bool all = false) { return closures(preview(text, all)); }

std::string refusal(const std::string& text) {
  const auto result = preview_calendar(text, {}, denver());
  return result ? "" : result.problems().front().code;
}

std::string left_out(const CalendarPreview& p) {
  std::string text;
  for (const LeftOut& row : p.left_out) text += (text.empty() ? "" : "; ") + row.summary + " x" + std::to_string(row.times);
  return text;
}

TEST(Calendar, AWholeDayEventEndsTheDayBeforeItsEnd) {
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20301223\r\nDTEND;VALUE=DATE:20310104\r\nSUMMARY:Winter break\r\n"))), "2030-12-23..2031-01-03 Winter break");
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20301111\r\nDTEND;VALUE=DATE:20301112\r\nSUMMARY:No school\r\n"))), "2030-11-11 No school");
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20301111\r\nSUMMARY:No school\r\n"))), "2030-11-11 No school") << "without an end: one day (RFC 5545, 3.6.1)";
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20301111\r\nDTEND;VALUE=DATE:20301111\r\nSUMMARY:No school\r\n"))), "2030-11-11 No school");
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20301111\r\nDURATION:P3D\r\nSUMMARY:No school\r\n"))), "2030-11-11..2030-11-13 No school");
}

TEST(Calendar, ATimedEventIsTakenInTheSchoolsDays) {
  // 07:00 UTC is midnight in Denver in winter, 06:00 UTC in summer.
  EXPECT_EQ(closures(calendar(event("DTSTART:20301111T070000Z\r\nDTEND:20301112T070000Z\r\nSUMMARY:Holiday\r\n"))), "2030-11-11 Holiday");
  EXPECT_EQ(closures(calendar(event("DTSTART:20310526T060000Z\r\nDURATION:PT24H\r\nSUMMARY:Holiday\r\n"))), "2031-05-26 Holiday");
  EXPECT_EQ(closures(calendar(event("DTSTART:20301111T080000\r\nDTEND:20301111T150000\r\nSUMMARY:School closed\r\n"))), "2030-11-11 School closed") << "no zone: the school's clock";
  // From the last bell on Friday the 20th to the first on Monday the 6th.
  EXPECT_EQ(closures(calendar(event("DTSTART:20301220T153000\r\nDTEND:20310106T080000\r\nSUMMARY:Winter break\r\n"))), "2030-12-21..2031-01-05 Winter break");
}

TEST(Calendar, KnowsZonesByNameAndAsTheFileDescribesThem) {
  // 22:00 in New York is 20:00 in Denver, the same day; 01:00 in Berlin is the evening before.
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=America/New_York:20301111T020000\r\nDTEND;TZID=America/New_York:20301112T020000\r\nSUMMARY:Holiday\r\n"))), "2030-11-11 Holiday");
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=/example.org/2030/America/New_York:20301111T020000\r\nDTEND;TZID=/example.org/2030/America/New_York:20301112T020000\r\nSUMMARY:Holiday\r\n"))), "2030-11-11 Holiday");
  // A zone of the file's own, three hours ahead of Denver all year round; its name is no zone of the machine.
  const std::string zone = "BEGIN:VTIMEZONE\r\nTZID:Invented time\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:-0400\r\nTZOFFSETTO:-0400\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n";
  EXPECT_EQ(closures(calendar(zone + event("DTSTART;TZID=Invented time:20301111T163000\r\nDTEND;TZID=Invented time:20301111T183000\r\nSUMMARY:Early dismissal\r\n"))), "2030-11-11 shut 13:30 Early dismissal");
  const auto unknown = preview(calendar(event("DTSTART;TZID=Nowhere:20301111T123000\r\nDTEND;TZID=Nowhere:20301111T153000\r\nSUMMARY:Early dismissal\r\n")));
  EXPECT_EQ(closures(unknown), "2030-11-11 shut 12:30 Early dismissal");
  ASSERT_EQ(unknown.notes.size(), 1u);
  EXPECT_NE(unknown.notes.front().find("Nowhere"), std::string::npos);
}

TEST(Calendar, AZoneOfTheFileFollowsItsYearlyRules) {
  // The rules of the United States since 2007, as the file of any calendar program spells them.
  const std::string zone =
      "BEGIN:VTIMEZONE\r\nTZID:Own mountain time\r\nBEGIN:DAYLIGHT\r\nDTSTART:20070311T020000\r\nRRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU\r\nTZOFFSETFROM:-0700\r\nTZOFFSETTO:-0600\r\nEND:DAYLIGHT\r\n"
      "BEGIN:STANDARD\r\nDTSTART:20071104T020000\r\nRRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU\r\nTZOFFSETFROM:-0600\r\nTZOFFSETTO:-0700\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n";
  for (const char* day : {"20301028", "20301104", "20310307", "20310310"}) {
    const std::string when = std::string(day) + "T131500";
    const auto p = preview(calendar(zone + event("DTSTART;TZID=Own mountain time:" + when + "\r\nDURATION:PT2H\r\nSUMMARY:Early release\r\n")));
    ASSERT_EQ(p.closures.size(), 1u) << day;
    EXPECT_EQ(p.closures.front().closure.shut_from, "13:15") << day;
  }
}

TEST(Calendar, RepeatsWithinTheSeasonWithItsExceptions) {
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20300902\r\nRRULE:FREQ=YEARLY;BYMONTH=9;BYDAY=1MO\r\nSUMMARY:Labor Day holiday\r\n"))), "2030-09-02 Labor Day holiday");
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20200101\r\nRRULE:FREQ=YEARLY\r\nSUMMARY:New Year holiday\r\n"))), "2031-01-01 New Year holiday") << "begun long before";
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20310103\r\nRRULE:FREQ=WEEKLY;COUNT=5\r\nEXDATE;VALUE=DATE:20310110,20310124\r\nSUMMARY:No school\r\n"))),
            "2031-01-03 No school; 2031-01-17 No school; 2031-01-31 No school");
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20310103\r\nRDATE;VALUE=DATE:20310214,20310314\r\nSUMMARY:No school\r\n"))), "2031-01-03 No school; 2031-02-14 No school; 2031-03-14 No school");
}

TEST(Calendar, ATimedRepetitionKeepsItsLocalTimeAcrossAChangeOfClocks) {
  // Clocks in Denver go forward on 9 March 2031.
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=America/Denver:20310305T131500\r\nDTEND;TZID=America/Denver:20310305T153000\r\nRRULE:FREQ=WEEKLY;BYDAY=WE;UNTIL=20310319T191500Z\r\nSUMMARY:Early release\r\n"))),
            "2031-03-05 shut 13:15 Early release; 2031-03-12 shut 13:15 Early release; 2031-03-19 shut 13:15 Early release")
      << "UNTIL is 13:15 in Denver and included";
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=America/Denver:20310305T131500\r\nDTEND;TZID=America/Denver:20310305T153000\r\nRRULE:FREQ=WEEKLY;COUNT=2\r\nEXDATE:20310312T191500Z\r\nSUMMARY:Early release\r\n"))),
            "2031-03-05 shut 13:15 Early release")
      << "an exception may be written in UTC";
}

TEST(Calendar, AMovedRepetitionReplacesItsOriginal) {
  const std::string series = event("DTSTART;VALUE=DATE:20310103\r\nRRULE:FREQ=WEEKLY;COUNT=3\r\nSUMMARY:No school\r\n");
  EXPECT_EQ(closures(calendar(series + event("RECURRENCE-ID;VALUE=DATE:20310110\r\nDTSTART;VALUE=DATE:20310113\r\nSUMMARY:No school (moved)\r\n"))),
            "2031-01-03 No school; 2031-01-13 No school (moved); 2031-01-17 No school");
  EXPECT_EQ(closures(calendar(series + event("RECURRENCE-ID;VALUE=DATE:20310110\r\nDTSTART;VALUE=DATE:20310110\r\nSTATUS:CANCELLED\r\nSUMMARY:No school\r\n"))), "2031-01-03 No school; 2031-01-17 No school");
}

TEST(Calendar, ReadsFoldedLinesAndEscapes) {
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:2030\r\n 1111\r\nSUMMARY:No school\\, building closed\\; back\\non Tuesday \xC3\r\n \xA9t\xC3\xA9\r\n"))), "2030-11-11 No school, building closed; back on Tuesday été")
      << "a fold may even split a character";
  EXPECT_EQ(closures("begin:vcalendar\nBegin:VEvent\nuid:1\ndtstart;value=date:20301111\nSummary:No school\nend:vevent\nEnd:VCalendar\n"), "2030-11-11 No school") << "names in any case, single line feeds";
}

TEST(Calendar, LooksOnlyAtEventsNotAtTheirAlarmsOrTasks) {
  EXPECT_EQ(closures(calendar("BEGIN:VTODO\r\nUID:9\r\nDTSTART;VALUE=DATE:20301112\r\nSUMMARY:No school\r\nEND:VTODO\r\n" +
                              event("DTSTART;VALUE=DATE:20301111\r\nSUMMARY:No school\r\nBEGIN:VALARM\r\nTRIGGER:-PT15M\r\nDURATION:P30D\r\nSUMMARY:Wrong\r\nEND:VALARM\r\n"))),
            "2030-11-11 No school");
}

TEST(Calendar, ProposesWhatSoundsLikeAClosureAndListsTheRest) {
  const std::string text = calendar(event("DTSTART;VALUE=DATE:20301011\r\nSUMMARY:Herbstferien\r\n", "1") + event("DTSTART;VALUE=DATE:20301012\r\nSUMMARY:Picture day\r\n", "2") +
                                    event("DTSTART:20301219T180000\r\nDTEND:20301219T200000\r\nSUMMARY:Holiday singing\r\n", "3") +
                                    event("DTSTART;VALUE=DATE:20301220\r\nSUMMARY:Last day before winter break\r\n", "4") +
                                    event("DTSTART:20301007T150000\r\nDTEND:20301007T160000\r\nRRULE:FREQ=WEEKLY;COUNT=4\r\nSUMMARY:Staff meeting\r\n", "5"));
  const auto p = preview(text);
  EXPECT_EQ(closures(p), "2030-10-11 Herbstferien");
  EXPECT_EQ(left_out(p), "Picture day x1; Holiday singing x1; Last day before winter break x1; Staff meeting x4");
  for (const LeftOut& row : p.left_out) EXPECT_FALSE(row.reason.empty());
  EXPECT_EQ(closures(preview(text, true)), "2030-10-11 Herbstferien; 2030-10-12 Picture day; 2030-12-20 Last day before winter break") << "never hours: nobody shuts for a meeting";
}

TEST(Calendar, TakesEarlyClosings) {
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=America/Denver:20310207T123000\r\nDTEND;TZID=America/Denver:20310207T153000\r\nSUMMARY:Early dismissal\r\n"))), "2031-02-07 shut 12:30 Early dismissal");
  EXPECT_EQ(closures(calendar(event("DTSTART;TZID=America/Denver:20310207T080000\r\nDTEND;TZID=America/Denver:20310207T123000\r\nSUMMARY:Half day\r\n"))), "2031-02-07 shut 12:30 Half day") << "the school's day itself";
  EXPECT_EQ(closures(calendar(event("DTSTART;VALUE=DATE:20310207\r\nSUMMARY:Early release 1:15 pm\r\n"))), "2031-02-07 shut 13:15 Early release 1:15 pm");
  const auto untimed = preview(calendar(event("DTSTART;VALUE=DATE:20310207\r\nSUMMARY:Early release\r\n")));
  EXPECT_EQ(closures(untimed), "");
  EXPECT_NE(untimed.left_out.at(0).reason.find("no time"), std::string::npos);
}

TEST(Calendar, LeavesOutWhatIsCancelledOrOutsideTheSeason) {
  const auto p = preview(calendar(event("DTSTART;VALUE=DATE:20301111\r\nSTATUS:CANCELLED\r\nSUMMARY:No school\r\n", "1") + event("DTSTART;VALUE=DATE:20291111\r\nSUMMARY:No school\r\n", "2") +
                                  event("DTSTART;VALUE=DATE:20300829\r\nDTEND;VALUE=DATE:20300903\r\nSUMMARY:Summer vacation\r\n", "3")));
  EXPECT_EQ(closures(p), "2030-08-29..2030-09-02 Summer vacation") << "it reaches into the season";
  EXPECT_EQ(left_out(p), "No school x1");
  EXPECT_NE(p.notes.at(0).find("1 event lies outside the season"), std::string::npos);
}

TEST(Calendar, SaysWhichEventsCantBeRead) {
  for (const char* wrong : {"DTSTART;VALUE=DATE:20301311\r\n", "", "DTSTART;VALUE=DATE:20301111\r\nDTEND;VALUE=DATE:20301101\r\n", "DTSTART;VALUE=DATE:20301111\r\nDTEND:20301112T000000Z\r\n",
                            "DTSTART;VALUE=DATE:20301111\r\nRRULE:FREQ=SOMETIMES\r\n", "DTSTART:20301111T000000Z\r\nRRULE:FREQ=SECONDLY\r\n", "DTSTART;VALUE=DATE:20301111\r\nDURATION:P300D\r\n",
                            "DTSTART;VALUE=DATE:20310229\r\n", "DTSTART:99991111T000000Z\r\n"}) {
    const auto p = preview(calendar(event(std::string(wrong) + "SUMMARY:No school\r\n")));
    ASSERT_EQ(p.bad.size(), 1u) << wrong;
    EXPECT_EQ(p.bad.front().line, 4u);
    EXPECT_TRUE(p.closures.empty()) << wrong;
    const auto kept = closures_to_keep(p, {true, false});
    ASSERT_FALSE(kept);
    EXPECT_TRUE(closures_to_keep(p, {true, true}));
  }
  const auto other = preview(calendar(event("SUMMARY:Picture day\r\n")));
  EXPECT_TRUE(other.bad.empty()) << "what is no closure may be as it likes";
  EXPECT_EQ(other.left_out.size(), 1u);
}

TEST(Calendar, RefusesWhatIsNoCalendarOrNotAllOfIt) {
  EXPECT_EQ(refusal(""), "empty_file");
  EXPECT_EQ(refusal("date,event\n11 November,no school\n"), "not_a_calendar");
  EXPECT_EQ(refusal("<p>2030-11-11</p>"), "not_a_calendar");
  EXPECT_EQ(refusal("<!DOCTYPE html><title>Please log in</title>"), "not_a_calendar");
  const std::string whole = calendar(event("DTSTART;VALUE=DATE:20301111\r\nSUMMARY:No school\r\n"));
  EXPECT_EQ(refusal(whole.substr(0, whole.size() - 20)), "cut_off");
  EXPECT_EQ(refusal(whole.substr(0, whole.size() - 34)), "cut_off");
  EXPECT_EQ(refusal("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n"), "broken_structure");
  EXPECT_EQ(refusal(std::string(5u << 20, 'x')), "file_too_large");
  EXPECT_EQ(refusal(""), "empty_file");
  EXPECT_EQ(refusal(whole), "");
}

TEST(ListedDays, AreClosuresOneALine) {
  EXPECT_EQ(closures("2030-11-11\n2030-12-23 to 2031-01-03, Winter break\n2031-02-17 Staff day\n"), "2030-11-11 School closed; 2030-12-23..2031-01-03 Winter break; 2031-02-17 Staff day");
  EXPECT_EQ(closures("from,to,name\r\n2030-12-23,2031-01-03,\"Winter break, all schools\"\r\n2031-02-17,,Picture day\r\n"), "2030-12-23..2031-01-03 Winter break all schools; 2031-02-17 Picture day")
      << "what the keeper lists is closed, whatever it is called";
  EXPECT_EQ(closures("Winter break;2030-12-23;2031-01-03\n# a remark with 2031-05-05\n\n2031-03-03/2031-03-07\tSpring week\n"), "2030-12-23..2031-01-03 Winter break; 2031-03-03..2031-03-07 Spring week");
  EXPECT_EQ(closures("2031-02-07, 12:30, Early dismissal\n2031-02-14 11:45\n"), "2031-02-07 shut 12:30 Early dismissal; 2031-02-14 shut 11:45 Early closing");
}

TEST(ListedDays, ALineThatCantBeReadIsNamed) {
  const auto p = preview("2030-11-11 Staff day\n11/12/2030 Picture day\n2031-02-30 Nowhere\n2031-03-07 to 2031-03-03\n2031-01-01 2031-01-02 2031-01-03\n2031-03-03 to 2031-03-04 12:30\n");
  EXPECT_EQ(closures(p), "2030-11-11 Staff day");
  ASSERT_EQ(p.bad.size(), 5u);
  for (std::size_t i = 0; i < p.bad.size(); ++i) EXPECT_EQ(p.bad[i].line, i + 2);
  EXPECT_FALSE(closures_to_keep(p, {true, false}));
  EXPECT_NE(p.bad[1].problem.sentence.find("2031-02-30"), std::string::npos);
}

TEST(ListedDays, AgainAddNothing) {
  const std::string text = "2030-12-23 to 2031-01-03, Winter break\n2031-02-17 Staff day\n";
  const auto first = preview(text);
  auto log = denver();
  for (const records::Entry& entry : first.entries) log.records.push_back({static_cast<records::RecordId>(log.records.size()) + 1, log.now, entry});
  EXPECT_EQ(first.entries.size(), 2u);
  EXPECT_TRUE(preview(text, false, log).entries.empty());
  // Typed by hand under another name, it is there as well.
  auto typed = denver();
  typed.records.push_back({1, typed.now, {typed.now, "keeper", {}, {}, records::Closure{"Own name", date("2031-02-17"), {}, {}}}});
  EXPECT_EQ(preview(text, false, typed).entries.size(), 1u);
}

TEST(Calendar, OfAnotherCodingIsRead) {
  const std::string latin = calendar(event("DTSTART;VALUE=DATE:20301111\r\nSUMMARY:Cong\xE9\r\n"));
  EXPECT_EQ(closures(latin), "2030-11-11 Congé");
  EXPECT_NE(preview(latin).notes.at(0).find("Windows-1252"), std::string::npos);
}

/// The log after keeping what a preview brings.
CalendarContext after(CalendarContext context, const CalendarPreview& p) {
  for (const records::Entry& entry : p.entries) context.records.push_back({static_cast<records::RecordId>(context.records.size()) + 1, context.now, entry});
  return context;
}

TEST(CalendarAgain, AddsNothingThatIsThere) {
  const std::string text = calendar(event("DTSTART;VALUE=DATE:20310103\r\nRRULE:FREQ=WEEKLY;COUNT=3\r\nSUMMARY:No school\r\n"));
  const auto first = preview(text);
  EXPECT_EQ(first.entries.size(), 3u);
  for (const records::Entry& entry : first.entries) EXPECT_LE(entry.entry_key.value().size(), 64u);
  const auto again = preview(text, false, after(denver(), first));
  EXPECT_EQ(again.closures.size(), 3u);
  EXPECT_TRUE(again.entries.empty());
  for (const ClosureRow& row : again.closures) EXPECT_EQ(row.standing, RowStanding::known);
  EXPECT_TRUE(closures_to_keep(again, {})) << "nothing to confirm";
}

TEST(CalendarAgain, CorrectsWhatChangedAndPointsAtWhatMoved) {
  const auto text = [](const char* inside) { return calendar(event(inside)); };
  const auto log = after(denver(), preview(text("DTSTART;VALUE=DATE:20310103\r\nDTEND;VALUE=DATE:20310106\r\nSUMMARY:No school\r\n")));
  const auto longer = preview(text("DTSTART;VALUE=DATE:20310103\r\nDTEND;VALUE=DATE:20310108\r\nSUMMARY:No school\r\n"), false, log);
  ASSERT_EQ(longer.entries.size(), 1u);
  EXPECT_EQ(longer.entries.front().supersedes, 1);
  EXPECT_EQ(longer.closures.front().standing, RowStanding::changed);
  EXPECT_LE(longer.entries.front().entry_key.value().size(), 64u);
  const auto corrected = after(log, longer);
  EXPECT_TRUE(preview(text("DTSTART;VALUE=DATE:20310103\r\nDTEND;VALUE=DATE:20310108\r\nSUMMARY:No school\r\n"), false, corrected).entries.empty());
  const auto back = preview(text("DTSTART;VALUE=DATE:20310103\r\nDTEND;VALUE=DATE:20310106\r\nSUMMARY:No school\r\n"), false, corrected);
  ASSERT_EQ(back.entries.size(), 1u) << "and back again";
  EXPECT_EQ(back.entries.front().supersedes, 2);

  const auto moved = preview(text("DTSTART;VALUE=DATE:20310110\r\nSUMMARY:No school\r\n"), false, log);
  EXPECT_EQ(moved.entries.size(), 1u);
  ASSERT_EQ(moved.notes.size(), 1u);
  EXPECT_NE(moved.notes.front().find("redd undo 1"), std::string::npos);
}

TEST(CalendarAgain, LeavesAloneWhatTheKeeperTookBack) {
  const std::string text = calendar(event("DTSTART;VALUE=DATE:20310103\r\nSUMMARY:No school\r\n"));
  auto log = after(denver(), preview(text));
  log.records.push_back({2, log.now, {log.now, "keeper", {}, {}, records::Undo{1}}});
  const auto again = preview(text, false, log);
  EXPECT_TRUE(again.entries.empty());
  EXPECT_EQ(again.closures.at(0).standing, RowStanding::settled);
}

TEST(Calendar, EntriesPassTheLogsOwnChecks) {
  records::SeasonSetup season;
  season.time_zone = "America/Denver";
  season.first_day = date("2030-09-02");
  const auto p = preview(calendar(event("DTSTART;VALUE=DATE:20301223\r\nDTEND;VALUE=DATE:20310104\r\nSUMMARY:Winter break\r\n", "1") +
                                  event("DTSTART;TZID=America/Denver:20310207T123000\r\nDTEND;TZID=America/Denver:20310207T153000\r\nSUMMARY:Early dismissal\r\n", "2")));
  const std::vector<records::Record> log{{1, p.entries.at(0).at, {p.entries.at(0).at, "keeper", {}, {}, season}}};
  for (const records::Entry& entry : p.entries) EXPECT_TRUE(records::problems_of(entry, log, denver().zone, denver().now).empty());
}

TEST(Calendar, PreviewAsJsonHoldsEveryRow) {
  const std::string json = json_from_calendar_preview(preview(calendar("X-WR-CALNAME:Invented \\\"school\\\"\r\n" + event("DTSTART;VALUE=DATE:20301111\r\nSUMMARY:No school\r\n", "1") + event("DTSTART;VALUE=DATE:20301112\r\nSUMMARY:Picture day\r\n", "2"))));
  for (const char* part : {"\"name\":\"No school\",\"from\":\"2030-11-11\"", "\"standing\":\"added\"", "\"summary\":\"Picture day\"", "\"entry_count\":1", "Invented"}) EXPECT_NE(json.find(part), std::string::npos) << part << "\n" << json;
}

}  // namespace
}  // namespace redd::intake
