// links: intake
// Any bytes as a school's calendar. Besides not crashing: closures lie within the season and pass the log's own checks, reading twice gives
// the same, keeping and reading again adds nothing, and nothing is handed out unconfirmed.

#include <cstdlib>
#include <set>

#include "intake/calendar.h"
#include "records/school_calendar.h"

namespace {

using namespace redd;

void expect(bool condition) {
  if (!condition) std::abort();
}

intake::CalendarContext context() {
  const auto at = [](const char* text) { return *instant_from_rfc3339(text); };
  intake::CalendarContext context;
  context.zone = {"America/Denver", {{at("2030-09-01T00:00:00Z"), std::chrono::hours(-6)}, {at("2030-11-03T08:00:00Z"), std::chrono::hours(-7)}, {at("2031-03-09T09:00:00Z"), std::chrono::hours(-6)}}};
  context.first_day = *date_from_iso("2030-09-02");
  context.last_day = *date_from_iso("2031-08-31");
  context.now = at("2030-09-03T15:00:00Z");
  records::SeasonSetup season;
  season.time_zone = "America/Denver";
  season.first_day = context.first_day;
  context.records.push_back({1, context.now, {context.now, "keeper", {}, {}, season}});
  return context;
}

}  // namespace

/// The first byte chooses --all; the rest is the file.
extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view bytes(reinterpret_cast<const char*>(data) + 1, size - 1);
  static const intake::CalendarContext season = context();
  const intake::CalendarSettings settings{(data[0] & 1) != 0, "import"};
  const auto preview = intake::preview_calendar(bytes, settings, season);
  if (!preview) {
    for (const Problem& p : preview.problems()) expect(!p.code.empty() && !p.sentence.empty());
    return 0;
  }
  std::set<std::string> keys;
  auto kept = season;
  for (const auto& entry : preview->entries) {
    const auto& closure = std::get<records::Closure>(entry.body);
    expect(!closure.name.empty() && entry.entry_key && entry.entry_key->size() <= 64 && keys.insert(*entry.entry_key).second);
    expect(closure.from <= season.last_day + std::chrono::days(1) && records::last_day_of(closure) >= season.first_day - std::chrono::days(1));
    expect(!closure.shut_from || (records::clock_from_text(*closure.shut_from) && records::last_day_of(closure) == closure.from));
    kept.records.push_back({static_cast<records::RecordId>(kept.records.size()) + 1, season.now, entry});
  }
  expect(!intake::closures_to_keep(*preview, {}) || (preview->entries.empty() && preview->bad.empty()));
  const auto again = intake::preview_calendar(bytes, settings, season);
  expect(again && intake::json_from_calendar_preview(*again) == intake::json_from_calendar_preview(*preview));
  const auto after = intake::preview_calendar(bytes, settings, kept);
  expect(after && after->entries.empty());
  return 0;
}
