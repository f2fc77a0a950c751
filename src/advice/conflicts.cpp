#include "advice/conflicts.h"

#include <algorithm>

#include "advice/answers.h"
#include "advice/rule.h"
#include "emergency/holds.h"

namespace redd::advice {
namespace {

using std::chrono::days;
using std::chrono::hours;

bool has(const Action& a, Deed deed) { return std::ranges::find(a.deeds, deed) != a.deeds.end(); }

/// Part of the tank a change would replace; zero when it is no change. A change of unknown size counts as a fifth, the usual one.
double change_fraction(const Action& a) { return a.water_change ? a.water_change->fraction : has(a, Deed::change_water) ? 0.2 : 0.0; }

bool cannot_wait(const Action& a) { return a.aim == Aim::animals && a.tone >= Tone::act; }

Date day_of(const Situation& s, const Action& a) { return std::max(s.today(), local_day(s.zone, a.by)); }

void move_to(const Situation& s, Action& a, Date day, Sentence why) {
  if (a.moved) why = joined(*a.moved, why);
  a.moved = std::move(why);
  a.from = std::max(a.from.value_or(start_of_day(s.zone, day)), start_of_day(s.zone, day));
  if (day_of(s, a) >= day) return;
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
}

/// The same day, but after the other.
void put_after(const Situation& s, Action& a, hours later, Sentence why) {
  if (a.moved) why = joined(*a.moved, why);
  a.moved = std::move(why);
  if (a.by_text.pattern == "now") a.by_text = {"today"};
  a.from = std::max(a.from.value_or(s.now), s.now + later);
  a.by = std::max(a.by, *a.from);
}

/// Work that can wait goes to another day; what animals need at once only waits its turn.
void keep_apart(const Situation& s, Action& lower, days apart, hours at_least, const Sentence& why) {
  if (cannot_wait(lower)) put_after(s, lower, at_least, why);
  else move_to(s, lower, open_day_from(s, s.today() + apart), why);
}

/// Both would be done on one day, going by the day of the higher and the window of the lower.
bool meet(const Situation& s, const Action& higher, const Action& lower) {
  const Date day = day_of(s, higher);
  const Date from = lower.from ? local_day(s.zone, *lower.from) : s.today();
  return from <= day;
}

/// One of the two goes into the other's cautions.
bool take_in(Action& higher, const Action& lower, const char* why) {
  higher.cautions.push_back(joined({why}, lower.what));
  higher.because.insert(higher.because.end(), lower.because.begin(), lower.because.end());
  higher.key = joined_keys(higher.key, lower.key);
  return true;
}

void filter_and_change(const Situation& s, const Action& higher, Action& lower) {
  const bool clash = (has(higher, Deed::clean_filter) && change_fraction(lower) >= big_change_fraction) ||
                     (has(lower, Deed::clean_filter) && change_fraction(higher) >= big_change_fraction);
  if (!clash || !meet(s, higher, lower)) return;
  keep_apart(s, lower, filter_rest, hours(0),
             {"Kept {0} apart: filter work and a big water change on one day take too many of the filter's bacteria at once.", {Days(filter_rest)}});
}

void set_point_and_change(const Situation& s, const Action& higher, Action& lower) {
  const bool clash = (has(higher, Deed::set_temperature) && change_fraction(lower) >= warming_change_fraction) ||
                     (has(lower, Deed::set_temperature) && change_fraction(higher) >= warming_change_fraction);
  if (!clash || !meet(s, higher, lower)) return;
  if (lower.tone == Tone::alarm) lower.cautions.push_back({"Read the thermometer often: a new set-point and a big water change both move the temperature."});
  else keep_apart(s, lower, days(1), hours(4), {"Not in the same hours: a new set-point and a big water change would both move the temperature."});
}

/// New water carries a dose out again and changes what is to be dosed for: the change first.
void change_before_dose(const Situation& s, Action& higher, Action& lower) {
  if (higher.rule == "chlorine" || lower.rule == "chlorine") return;  // what is neutralised is neutralised at once
  if (change_fraction(higher) > 0.0 && has(lower, Deed::dose) && meet(s, higher, lower)) {
    keep_apart(s, lower, days(1), hours(2), {"After the water change, for what a new test then reads: new water would carry the dose out, and brings its own."});
  } else if (has(higher, Deed::dose) && change_fraction(lower) > 0.0 && meet(s, higher, lower)) {
    if (cannot_wait(lower)) put_after(s, higher, hours(2), {"After the water change, which would carry the dose out again."});
    else move_to(s, lower, open_day_from(s, s.today() + days(2)), {"Two days after the dose, which it would carry out again."});
  }
}

/// Whether this asks for ammonia, nitrite or pH to be put right or read again first.
bool clears_the_water(const Action& a) {
  if (!cannot_wait(a)) return false;
  const auto about = [&](std::string_view word) { return a.key.find(word) != std::string::npos; };
  return about("ammonia") || about("nitrite") || (about("contradiction") && about("ph"));
}

/// No food into water at an alarm, nor before the test that tells; at the mark to act half of it (feed_holds.h), after the change. Whichever stands
/// higher, the food waits.
void no_food_before_the_test(const Situation& s, Action& one, Action& other) {
  Action* food = has(one, Deed::feed) ? &one : has(other, Deed::feed) ? &other : nullptr;
  const Action& first = food == &one ? other : one;
  if (!food || !clears_the_water(first) || has(first, Deed::feed)) return;
  const bool mends_water = has(first, Deed::change_water) || has(first, Deed::ask_for_help);
  if (mends_water && first.tone < Tone::alarm)
    put_after(s, *food, hours(1), {"Food after the change, and half of it until the repeat test is below the mark."});
  else if (mends_water)
    move_to(s, *food, s.today() + days(1), {"No food before the repeat test is below the mark: food becomes more ammonia."});
  else if (has(first, Deed::test) && day_of(s, first) <= day_of(s, *food))
    put_after(s, *food, hours(1), {"No food before the repeat test, and then only if it is below the mark."});
}

bool feed_and_feed_less(const Situation& s, Action& higher, const Action& lower) {
  if (day_of(s, higher) != day_of(s, lower)) return false;  // less tomorrow is no answer to today's food
  if (has(higher, Deed::feed_less) && has(lower, Deed::feed)) return take_in(higher, lower, "Food is due too, but less of it:");
  if (has(higher, Deed::feed) && has(lower, Deed::feed_less)) return take_in(higher, lower, "But mind the amount:");
  return false;
}

/// Water that would make ammonia worse is not changed for another reason either.
bool not_with_this_water(Action& higher, const Action& lower) {
  return answers("ammonia/other_water", higher.key) && change_fraction(lower) > 0.0 && take_in(higher, lower, "Wait for other water with this too:");
}

/// What was done since a day stands like work asked for, above all.
std::vector<Action> done_since(const Situation& s, Date first) {
  std::vector<Action> done;
  for (const auto& record : s.records) {
    if (local_day(s.zone, record.entry.at) < first || local_day(s.zone, record.entry.at) > s.today()) continue;
    Action a;
    a.by = record.entry.at;
    if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body)) {
      a.deeds = {Deed::change_water};
      a.water_change.emplace();
      a.water_change->fraction = change->volume.l() / s.season.volume.l();
    } else if (const auto* work = std::get_if<records::FilterWork>(&record.entry.body);
               work && (work->work == records::FilterWork::Work::rinsed || work->work == records::FilterWork::Work::media_replaced)) {
      a.deeds = {Deed::clean_filter};
    } else if (std::holds_alternative<records::SetPoint>(record.entry.body)) {
      a.deeds = {Deed::set_temperature};
    } else {
      continue;
    }
    done.push_back(std::move(a));
  }
  return done;
}

}  // namespace

void resolve_conflicts(const Situation& s, std::vector<Action>& actions) {
  for (const Action& done : done_since(s, s.today()))
    for (Action& asked : actions) {
      if (cannot_wait(asked)) continue;
      filter_and_change(s, done, asked);
      set_point_and_change(s, done, asked);
    }
  for (std::size_t i = 0; i < actions.size(); ++i)
    for (std::size_t j = i + 1; j < actions.size();) {
      Action &higher = actions[i], &lower = actions[j];
      if (not_with_this_water(higher, lower) || feed_and_feed_less(s, higher, lower)) {
        actions.erase(actions.begin() + static_cast<std::ptrdiff_t>(j));
        continue;
      }
      filter_and_change(s, higher, lower);
      set_point_and_change(s, higher, lower);
      change_before_dose(s, higher, lower);
      no_food_before_the_test(s, higher, lower);
      ++j;
    }
}

std::vector<planning::AskedToday::Apart> kept_free(const Situation& s, const std::vector<Action>& actions) {
  std::vector<planning::AskedToday::Apart> all;
  const auto keep = [&](const Action& a, Date day, bool before_too) {
    if (has(a, Deed::clean_filter)) all.push_back({before_too ? day - filter_rest + days(1) : day, day + filter_rest - days(1), big_change_fraction});
    if (has(a, Deed::set_temperature)) all.push_back({day, day, warming_change_fraction});
    // A dose that is not waited with: no change at all until two days after it.
    if (has(a, Deed::dose) && a.rule != "chlorine") all.push_back({s.today(), day + days(1), 0.0});
  };
  for (const Action& done : done_since(s, s.today() - filter_rest + days(1))) keep(done, local_day(s.zone, done.by), false);
  for (const Action& asked : actions) keep(asked, day_of(s, asked), true);
  return all;
}

}  // namespace redd::advice
