// The calendar text against RFC 5545 (2009), section by section. That a foreign program reads it: tests/intake/plan_calendar_test.cpp.
#include "report/ics.h"

#include <gtest/gtest.h>

namespace redd::report {
namespace {

const Instant stamp = *instant_from_rfc3339("2031-01-20T20:00:00Z");
Date date(const char* iso) { return *date_from_iso(iso); }

IcsEvent whole_day(const std::string& summary) {
  IcsEvent event;
  event.uid = "1@redd.invalid";
  event.day = date("2031-02-28");
  event.summary = summary;
  return event;
}
std::string text_of(const IcsEvent& event) { return ics_text({&event, 1}, "Season", stamp); }

/// Folded lines joined again (3.1).
std::string unfolded(std::string text) {
  for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
  return text;
}

void expect_lines_of_75_octets(const std::string& text) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = text.find("\r\n", begin);
    ASSERT_NE(end, std::string::npos) << "every line ends with CRLF (3.1)";
    EXPECT_LE(end - begin, 75u) << text.substr(begin, end - begin);
    const auto first = static_cast<unsigned char>(text[begin + (text[begin] == ' ' ? 1 : 0)]);
    EXPECT_NE(first & 0xC0, 0x80) << "a character is cut in two";
    begin = end + 2;
  }
}

TEST(IcsText, AWholeDayEndsTheDayAfter) {
  const std::string text = text_of(whole_day("Weekly test"));
  EXPECT_NE(text.find("DTSTART;VALUE=DATE:20310228\r\nDTEND;VALUE=DATE:20310301\r\n"), std::string::npos) << text;  // 3.6.1: DTEND is not included
  EXPECT_NE(text.find("DTSTAMP:20310120T200000Z\r\n"), std::string::npos);
}

TEST(IcsText, ATimedEventIsInUtcAndAMomentHasNoEnd) {
  IcsEvent event = whole_day("Call");
  event.day.reset();
  event.from = event.to = *instant_from_rfc3339("2031-02-28T07:30:00-07:00");
  EXPECT_NE(text_of(event).find("DTSTART:20310228T143000Z\r\nSUMMARY"), std::string::npos);
  event.to += std::chrono::minutes(45);
  EXPECT_NE(text_of(event).find("DTEND:20310228T151500Z\r\n"), std::string::npos);
}

TEST(IcsText, EscapesWhatSeparates) {
  // 3.3.11: backslash, semicolon, comma and line feed; nothing else.
  EXPECT_NE(text_of(whole_day("a\\b; c, d\ne: \"f\"")).find("SUMMARY:a\\\\b\\; c\\, d\\ne: \"f\"\r\n"), std::string::npos);
  EXPECT_NE(text_of(whole_day("bell\a and carriage\r return")).find("SUMMARY:bell and carriage return\r\n"), std::string::npos);
  EXPECT_NE(text_of(whole_day("caf\xE9")).find("SUMMARY:caf\xEF\xBF\xBD\r\n"), std::string::npos) << "what is no UTF-8 is shown as such";
}

TEST(IcsText, FoldsAt75OctetsAndNeverInsideACharacter) {
  for (int shift = 0; shift < 80; ++shift) {
    std::string summary(static_cast<std::size_t>(shift), 'x');
    for (int i = 0; i < 60; ++i) summary += i % 3 == 0 ? "é" : i % 3 == 1 ? "鮭" : "🐟";
    const std::string text = text_of(whole_day(summary));
    expect_lines_of_75_octets(text);
    EXPECT_NE(unfolded(text).find("SUMMARY:" + summary + "\r\n"), std::string::npos) << shift;
  }
}

TEST(IcsText, AnAlarmIsBeforeTheBeginningOrAfterIt) {
  IcsEvent event = whole_day("Set the water");
  event.alarm_minutes = 60;
  EXPECT_NE(text_of(event).find("TRIGGER:-PT60M\r\n"), std::string::npos);
  event.alarm_minutes = -450;
  EXPECT_NE(text_of(event).find("TRIGGER:PT450M\r\n"), std::string::npos) << "half past seven on the day";
}

TEST(IcsUid, DependsOnSeasonAndEventAlone) {
  EXPECT_EQ(ics_uid("Season 2031-01-06", "hatch"), ics_uid("Season 2031-01-06", "hatch"));
  EXPECT_NE(ics_uid("Season 2031-01-06", "hatch"), ics_uid("Season 2031-01-06", "swim_up"));
  EXPECT_NE(ics_uid("Season 2031-01-06", "hatch"), ics_uid("Season 2032-01-06", "hatch"));
  // FNV-1a of the empty text is its offset basis (64 bits), by the definition of the hash.
  EXPECT_TRUE(ics_uid("", "").starts_with("cbf29ce484222325-"));
  EXPECT_TRUE(ics_uid("", "").ends_with("@redd.invalid")) << "a name no machine can have (RFC 2606)";
}

}  // namespace
}  // namespace redd::report
