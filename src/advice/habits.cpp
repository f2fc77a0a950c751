#include "advice/habits.h"

#include <algorithm>
#include <map>

#include "advice/answers.h"

namespace redd::advice {
namespace {

using records::RecordId;
using std::chrono::days;

constexpr std::size_t looked_back = 4, enough = 3;

unsigned weekday_of(Date day) { return std::chrono::weekday(day).c_encoding(); }

/// Days on which at least four of the six weekly tests were read, with the newest reading of each.
std::map<Date, RecordId> sittings_of(const inference::Belief& belief, const ZoneOffsets& zone) {
  constexpr int fewest_tests = 4;
  std::map<Date, std::pair<int, RecordId>> tests;
  using enum inference::Quantity;
  for (const auto quantity : {total_ammonia, nitrite, nitrate, ph, alkalinity, hardness})
    if (const auto* known = belief.find(quantity))
      for (const auto& sitting : known->sittings) {
        auto& [count, newest] = tests[local_day(zone, sitting.at)];
        ++count;
        newest = std::max(newest, sitting.id);
      }
  std::map<Date, RecordId> sittings;
  for (const auto& [day, found] : tests)
    if (found.first >= fewest_tests) sittings[day] = found.second;
  return sittings;
}

/// Open days on which a sitting was due or asked for and none was held, with the answers that say so.
std::map<Date, std::optional<RecordId>> left_out(const std::map<Date, RecordId>& held, const std::vector<records::Record>& records, const records::SchoolCalendar& school,
                                                const ZoneOffsets& zone, Date today) {
  std::map<Date, std::optional<RecordId>> missed;
  for (const auto& [day, id] : held) {
    const Date due = day + days(7);
    const auto next = held.upper_bound(day);
    // Held early is held; weeks without any are no habit of one weekday.
    const bool late = due < today && (next == held.end() || next->first > due) && (next != held.end() ? next->first : today) - due < days(7);
    if (late && school.is_open(due)) missed[due] = std::nullopt;
  }
  for (const auto& record : records) {
    const auto* answer = std::get_if<records::AdviceAnswer>(&record.entry.body);
    const Date day = local_day(zone, record.entry.at);
    if (answer && answer->answer != records::AdviceAnswer::Answer::done && answers(answer->action, "weekly_test") && school.is_open(day) && !held.contains(day)) missed[day] = record.id;
  }
  return missed;
}

std::optional<Habits::Weekday> usual_day(const std::map<Date, RecordId>& held) {
  if (held.size() < looked_back) return std::nullopt;
  std::map<unsigned, Habits::Weekday> counted;
  for (auto [at, left] = std::pair(held.rbegin(), looked_back); left > 0; ++at, --left) {
    Habits::Weekday& day = counted[weekday_of(at->first)];
    day.weekday = weekday_of(at->first);
    ++day.times;
    day.records.push_back(at->second);
  }
  for (auto& [weekday, day] : counted) {
    day.of = static_cast<int>(looked_back);
    if (day.times >= static_cast<int>(enough)) return day;
  }
  return std::nullopt;
}

}  // namespace

Habits habits_of(const std::vector<records::Record>& records, const inference::Belief& belief, const records::SchoolCalendar& school, const ZoneOffsets& zone,
                 Instant now) {
  const auto held = sittings_of(belief, zone);
  const auto missed = left_out(held, records, school, zone, local_day(zone, now));
  Habits habits;
  habits.usual = usual_day(held);
  for (unsigned weekday = 0; weekday < 7; ++weekday) {
    std::map<Date, std::pair<bool, std::optional<RecordId>>> days_of_it;
    for (const auto& [day, id] : held)
      if (weekday_of(day) == weekday) days_of_it[day] = {false, id};
    for (const auto& [day, id] : missed)
      if (weekday_of(day) == weekday) days_of_it[day] = {true, id};
    if (days_of_it.size() < enough) continue;
    Habits::Weekday seen{weekday, 0, 0, {}};
    for (auto at = days_of_it.rbegin(); at != days_of_it.rend() && seen.of < static_cast<int>(looked_back); ++at) {
      ++seen.of;
      if (at->second.first) ++seen.times;
      if (at->second.second) seen.records.push_back(*at->second.second);
    }
    if (seen.times >= static_cast<int>(enough)) habits.avoided.push_back(seen);
  }
  return habits;
}

Date by_habit(const Habits& habits, const records::SchoolCalendar& school, Date due) {
  const auto avoided = [&](Date day) { return std::ranges::any_of(habits.avoided, [&](const auto& a) { return a.weekday == weekday_of(day); }); };
  if (habits.usual && !avoided(due))
    for (const int shift : {0, -1, 1, -2})
      if (const Date day = due + days(shift); weekday_of(day) == habits.usual->weekday) return school.is_open(day) ? day : due;
  if (!avoided(due)) return due;
  for (const int shift : {-1, -2, 1})
    if (const Date day = due + days(shift); school.is_open(day) && !avoided(day)) return day;
  return due;
}

}  // namespace redd::advice
