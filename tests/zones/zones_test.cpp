#include "zones/zones.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace redd::zones {
namespace {

using namespace std::chrono;

Date day(const char* text) { return *date_from_iso(text); }
Instant at(const char* text) { return *instant_from_rfc3339(text); }

TEST(ZoneOffsets, FollowDaylightSavingInDenver) {
  // US rule since 2007 (Energy Policy Act of 2005): second Sunday of March to first Sunday of November, at 2 a.m.
  const auto zone = zone_offsets("America/Denver", day("2030-09-01"), day("2031-06-30"));
  ASSERT_TRUE(zone);
  EXPECT_EQ(offset_at(*zone, at("2030-11-03T07:59:59Z")), hours(-6));
  EXPECT_EQ(offset_at(*zone, at("2030-11-03T08:00:00Z")), hours(-7));
  EXPECT_EQ(offset_at(*zone, at("2031-03-09T08:59:59Z")), hours(-7));
  EXPECT_EQ(offset_at(*zone, at("2031-03-09T09:00:00Z")), hours(-6));
  EXPECT_EQ(zone->name, "America/Denver");
  EXPECT_EQ(length_of_day(*zone, day("2031-03-09")), Days(23.0 / 24));
}

TEST(ZoneOffsets, FollowDaylightSavingInLondon) {
  // Directive 2000/84/EC, kept by the UK: last Sundays of March and October, 01:00 UTC.
  const auto zone = zone_offsets("Europe/London", day("2026-01-01"), day("2026-12-31"));
  ASSERT_TRUE(zone);
  EXPECT_EQ(offset_at(*zone, at("2026-03-29T00:59:59Z")), hours(0));
  EXPECT_EQ(offset_at(*zone, at("2026-03-29T01:00:00Z")), hours(1));
  EXPECT_EQ(offset_at(*zone, at("2026-10-25T01:00:00Z")), hours(0));
}

TEST(ZoneOffsets, OfAZoneWithoutChangesIsOneOffset) {
  const auto zone = zone_offsets("America/Phoenix", day("2026-01-01"), day("2050-12-31"));
  ASSERT_TRUE(zone);
  EXPECT_EQ(zone->changes.size(), 1u);
  EXPECT_EQ(offset_at(*zone, at("2045-07-01T00:00:00Z")), hours(-7));
}

TEST(ZoneOffsets, OfAnUnknownNameOfferTheNearest) {
  const auto typo = zone_offsets("America/Dever", day("2026-01-01"), day("2026-12-31"));
  ASSERT_FALSE(typo);
  EXPECT_EQ(typo.problems().front().code, "unknown_time_zone");
  EXPECT_NE(typo.problems().front().sentence.find("America/Denver"), std::string::npos) << typo.problems().front().sentence;
  const auto city = zone_offsets("vancouver", day("2026-01-01"), day("2026-12-31"));
  ASSERT_FALSE(city);
  EXPECT_NE(city.problems().front().sentence.find("America/Vancouver"), std::string::npos) << city.problems().front().sentence;
}

TEST(ZoneOffsets, RefuseNamesThatAreNotZones) {
  for (const char* name : {"", "/etc/passwd", "../etc/passwd", "America/", "posixrules", "Mars/Olympus"})
    EXPECT_FALSE(zone_offsets(name, day("2026-01-01"), day("2026-12-31"))) << name;
}

TEST(ZoneOffsets, AreRefusedWhereTheFilesEnd) {
  const auto zone = zone_offsets("America/Denver", day("2038-01-01"), day("2038-12-31"));
  ASSERT_FALSE(zone);
  EXPECT_EQ(zone.problems().front().code, "time_zone_too_far");
}

TEST(FixedZone, ReadsTheUsualSpellings) {
  for (const char* text : {"UTC-07:00", "UTC-7", "utc-0700", "GMT-07:00", "-07:00", "-0700"}) {
    const auto zone = fixed_zone(text);
    ASSERT_TRUE(zone) << text;
    EXPECT_EQ(offset_at(*zone, Instant{}), hours(-7)) << text;
    EXPECT_EQ(zone->name, "UTC-07:00");
  }
  EXPECT_EQ(offset_at(*fixed_zone("UTC"), Instant{}), hours(0));
  EXPECT_EQ(offset_at(*fixed_zone("UTC+05:30"), Instant{}), hours(5) + minutes(30));
  for (const char* text : {"", "7", "UTC7", "UTC+25:00", "UTC-07:0", "UTC-07:99", "UTC--7", "America/Denver"})
    EXPECT_FALSE(fixed_zone(text)) << text;
}

TEST(SeasonZone, NamesTheFieldAtFault) {
  records::SeasonSetup season;
  season.first_day = day("2030-09-02");
  season.time_zone = "America/Nowhere";
  const auto zone = season_zone(season);
  ASSERT_FALSE(zone);
  EXPECT_EQ(zone.problems().front().field, "/body/time_zone");
}

TEST(MachineZoneName, IsAKnownZoneAndFollowsTheEnvironment) {
  const char* before = std::getenv("TZ");
  const std::string kept = before ? before : "";
  ::setenv("TZ", "Europe/Oslo", 1);
  EXPECT_EQ(machine_zone_name(), "Europe/Oslo");
  ::setenv("TZ", "no such zone", 1);
  EXPECT_TRUE(zone_offsets(machine_zone_name(), day("2026-01-01"), day("2026-12-31")));
  if (before) ::setenv("TZ", kept.c_str(), 1);
  else ::unsetenv("TZ");
}

}  // namespace
}  // namespace redd::zones
