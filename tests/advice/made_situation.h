#pragma once
// A situation with nothing in it but a calendar, and actions made by hand, for tests of what is done with actions.

#include "advice/situation.h"
#include "support/small_season.h"

namespace redd::advice::testing {

/// Noon of a day of SmallSeason; day 0 is a Monday.
struct Made {
  explicit Made(int day = 15) : now(redd::testing::on_day(day, 12)) { setup.volume = Volume::from_l(200); }
  Situation situation() {
    Situation s{setup, records, belief, nullptr, zone, now};
    s.school = records::SchoolCalendar(records);
    return s;
  }
  records::RecordId add(records::Body body, int day, int hour = 9) {
    records::Record r;
    r.id = static_cast<records::RecordId>(records.size()) + 1;
    r.entry.at = r.logged_at = redd::testing::on_day(day, hour);
    r.entry.body = std::move(body);
    records.push_back(std::move(r));
    return records.back().id;
  }

  records::SeasonSetup setup{};
  std::vector<records::Record> records{};
  inference::Belief belief{};
  ZoneOffsets zone{};
  Instant now;
};

inline Action made(const Situation& s, std::string key, Tone tone, Aim aim, std::vector<Deed> deeds, int due_in_days = 0) {
  Action a;
  a.rule = key.substr(0, key.find('/'));
  a.key = std::move(key);
  a.tone = tone;
  a.aim = aim;
  a.deeds = std::move(deeds);
  a.what = {"Do {0}.", {Word{a.key}}};
  a.how_much = {"All of it."};
  a.concern = {"It matters."};
  a.by = s.end_of(s.today() + std::chrono::days(due_in_days));
  a.by_text = {due_in_days == 0 ? "today" : "later"};
  a.effort_minutes = 10;
  a.because.push_back({{"A reason."}, {}});
  return a;
}

inline Action change(const Situation& s, std::string key, double fraction, Tone tone, int due_in_days = 0) {
  Action a = made(s, std::move(key), tone, Aim::animals, {Deed::change_water}, due_in_days);
  a.water_change.emplace();
  a.water_change->fraction = fraction;
  return a;
}

inline std::vector<std::string> keys_of(const std::vector<Action>& actions) {
  std::vector<std::string> keys;
  for (const Action& a : actions) keys.push_back(a.key);
  return keys;
}

inline const Action& of_key(const std::vector<Action>& actions, std::string_view key) {
  const auto found = std::ranges::find(actions, key, &Action::key);
  require(found != actions.end(), "of_key", "no such action");
  return *found;
}

}  // namespace redd::advice::testing
