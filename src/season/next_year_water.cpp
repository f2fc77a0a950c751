// The two lessons that reckon: water changed against the smallest programme, and kits read side by side.
#include <algorithm>
#include <map>
#include <tuple>

#include "quantities/verbatim.h"
#include "records/reading.h"
#include "season/next_year.h"
#include "season/water_look.h"

namespace redd::season {
namespace {

using records::Record;
using Verdict = Lesson::Verdict;
using std::chrono::days;

constexpr int window_days = static_cast<int>(planning::programme_days);

double changed_l(const DayView& day, Date from, Date until) {
  double sum_l = 0;
  for (const Record& record : day.records)
    if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body))
      if (const Date on = local_day(day.zone, record.entry.at); on >= from && on < until) sum_l += change->volume.l();
  return sum_l;
}

/// One kit beside another, on days on which both read the same quantity and the water was left alone.
struct Beside {
  std::string a{}, b{};  ///< names of the kits
  int both = 0, higher = 0, lower = 0;  ///< of a against b, ranges apart
};

struct OneRead {
  Date day{};
  std::string kit{}, test{};
  double low = 0, high = 0;
};

std::map<records::Quantity, std::vector<OneRead>> readings_of(const DayView& day) {
  std::map<records::Quantity, std::vector<OneRead>> found;
  for (const Record& record : day.records) {
    const auto* reading = std::get_if<records::Reading>(&record.entry.body);
    const records::Kit* kit = reading ? records::find_kit(day.records, reading->kit) : nullptr;
    const records::KitTest* test = kit ? records::find_test(*kit, reading->test) : nullptr;
    if (!test) continue;
    const auto range = records::observed_interval(*test, *reading);
    if (!range) continue;
    const OneRead one{local_day(day.zone, record.entry.at), kit->name, test->key, range->low, range->high};
    auto& readings = found[test->quantity];
    // The first of a day, so that replicates do not count as days.
    if (std::ranges::none_of(readings, [&](const OneRead& other) { return other.day == one.day && other.kit == one.kit && other.test == one.test; })) readings.push_back(one);
  }
  return found;
}

std::vector<Beside> beside_each_other(const DayView& day) {
  std::map<std::tuple<records::Quantity, std::string, std::string>, Beside> found;
  for (const auto& [quantity, readings] : readings_of(day))
    for (const OneRead& a : readings)
      for (const OneRead& b : readings) {
        if (a.day != b.day || !(a.kit < b.kit) || changed_l(day, a.day, a.day + days(1)) > 0) continue;
        Beside& pair = found[{quantity, a.kit, b.kit}];
        pair.a = a.kit, pair.b = b.kit;
        ++pair.both;
        pair.higher += a.low > b.high;
        pair.lower += a.high < b.low;
      }
  std::vector<Beside> list;
  for (const auto& [key, pair] : found) list.push_back(pair);
  return list;
}

}  // namespace

Lesson water_lesson(const Setup& setup, std::span<const Record> log, const ReportLook& look) {
  Lesson lesson{.key = "water"};
  const auto time = days_with_animals(look);
  double changed = 0, needed = 0;
  int windows = 0, skipped = 0;
  if (time)
    for (Date from = time->first; from + days(window_days) <= time->last + days(1); from += days(window_days)) {
      // Noon of the first day, with what had been written down by then: what the programme would have said to the keeper.
      const auto then = look_at_water(setup, log, instant_of(look.day.zone, std::chrono::local_seconds{from} + std::chrono::hours(12)));
      const bool told = then && then->programme && !then->programme->stale && then->programme->reached;
      if (!told) {
        ++skipped;
        continue;
      }
      ++windows;
      needed += then->programme->programme.total.l();
      changed += changed_l(look.day, from, from + days(window_days));
    }
  lesson.sure = "Each programme is worked out from what was known on its first day, without the filter's outlook, and keeps the limits in 19 of 20 tanks that may be ours. Water that was changed may be why "
                "the tests stayed good.";
  if (windows == 0) {
    lesson.found = "Water changes can't be compared with the smallest programme: for no three weeks with animals was the water known well enough to make one.";
    return lesson;
  }
  lesson.found = {"In {0, plural, one {# stretch of three weeks} other {# stretches of three weeks}} with animals {1} was changed; the smallest programme that keeps the limits asked for {2}.",
                  {Number{windows}, Volume::from_l(changed), Volume::from_l(needed)}};
  if (skipped > 0) lesson.found = joined(lesson.found, {"{0, plural, one {# stretch} other {# stretches}} could not be compared.", {Number{skipped}}});
  const double tenth_l = 0.1 * look.day.season.volume.l();
  if (changed > needed + tenth_l) {
    lesson.verdict = Verdict::better;
    lesson.found = joined(lesson.found, {"So about {0} may not have been needed.", {Volume::from_l(changed - needed)}});
    lesson.advice = "Next year look at Water changes each week and change what it and Today ask for: every change more is work and a risk.";
  } else if (changed + tenth_l < needed) {
    lesson.verdict = Verdict::better;
    lesson.found = joined(lesson.found, {"So about {0} less was changed than would have been safe to plan with.", {Volume::from_l(needed - changed)}});
    lesson.advice = "Next year plan the changes from the water programme, and test the day after each.";
  } else {
    lesson.verdict = Verdict::keep;
  }
  return lesson;
}

Lesson kit_lesson(const ReportLook& look) {
  Lesson lesson{.key = "kits"};
  const auto pairs = beside_each_other(look.day);
  lesson.sure = "Only days on which both were read and no water was changed. Apart means that even the ranges the readings stand for do not touch. It does not say which of the two is right.";
  if (pairs.empty()) {
    lesson.found = "No quantity was read by two kits on one day, so nothing is known of a kit that reads high or low.";
    lesson.advice = "Next year, when a new kit is opened, test the same water with the old and the new one.";
    return lesson;
  }
  constexpr int enough_days = 3;  // Assumed: fewer tell nothing of a kit
  for (const Beside& pair : pairs) {
    if (pair.both >= enough_days && lesson.verdict == Verdict::not_known) lesson.verdict = Verdict::keep;
    Sentence one{"{0} beside {1}: ranges apart on {2} of {3} days.", {Word{verbatim(pair.a)}, Word{verbatim(pair.b)}, Number{pair.higher + pair.lower}, Number{pair.both}}};
    if (pair.both >= enough_days && (pair.higher * 2 > pair.both || pair.lower * 2 > pair.both)) {
      lesson.verdict = Verdict::better;
      one = joined(one, pair.higher > pair.lower ? Sentence{"The first reads higher."} : Sentence{"The first reads lower."});
    }
    lesson.found = lesson.found.empty() ? one : joined(lesson.found, one);
  }
  if (lesson.verdict == Verdict::better) lesson.advice = "Next year check both with a solution of known strength, and mind the expiry date; until then take the worse reading for true.";
  return lesson;
}

}  // namespace redd::season
