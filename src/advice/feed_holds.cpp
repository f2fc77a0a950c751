#include "advice/feed_holds.h"

#include <algorithm>
#include <cmath>

#include "emergency/failures.h"
#include "inference/counts.h"

namespace redd::advice {
namespace {

using Food = FeedHold::Food;
using inference::Quantity;
using records::EquipmentEvent;

/// An alarm older than this is said with its age. It holds as long as nobody tests: a test takes minutes, and nothing says that the water got better.
constexpr double alarm_is_old_days = 2.0;

Word name_of(Quantity quantity) { return {quantity == Quantity::nitrite ? "nitrite" : "ammonia"}; }

/// The worse of the judgements that speak of it.
Tone tone_of(const std::map<WaterKey, Assessment>& water, Quantity quantity) {
  if (quantity == Quantity::nitrite) return water.at(WaterKey::nitrite).tone;
  return std::max(water.at(WaterKey::un_ionized_ammonia).tone, water.at(WaterKey::total_ammonia).tone);
}

/// How the water was judged at the last tests, before what was done since.
std::map<WaterKey, Assessment> as_tested(const Situation& s) {
  inference::Belief tested = s.belief;
  for (auto& [quantity, known] : tested.water) {
    const Estimate<double> now = known.value;
    known.value = known.as_read;
    if (!known.doubt) continue;
    // What is in doubt now was in doubt then, and by its own numbers as if nothing were.
    known.doubt->unwidened = known.as_read;
    known.value.low = std::min(known.value.low, now.low);
    known.value.high = std::max(known.value.high, now.high);
  }
  Situation then{s.season, s.records, tested, s.filter, s.zone, s.now};
  then.school = s.school;
  return assess(then);
}

bool changed_since(const Situation& s, Instant read_at) {
  return std::ranges::any_of(s.records, [&](const records::Record& r) { return r.entry.at > read_at && std::holds_alternative<records::WaterChange>(r.entry.body); });
}

void hold_for_water(const Situation& s, std::vector<FeedHold>& holds) {
  std::optional<std::map<WaterKey, Assessment>> tested;
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::nitrite}) {
    const auto* known = s.belief.find(quantity);
    if (!known) continue;
    const Tone now = tone_of(s.water, quantity);
    const bool changed = changed_since(s, known->read_at);
    if (changed && !tested) tested = as_tested(s);
    const Tone worst = changed ? std::max(now, tone_of(*tested, quantity)) : now;
    if (worst < Tone::act) continue;
    if (worst == Tone::alarm && known->age_days > alarm_is_old_days)
      holds.push_back({Food::none, {"The last test, {0} ago, had {1} at an alarm, and nobody has tested since.", {Days(known->age_days), name_of(quantity)}}, {"A test now: feed when it is below the alarm."}, known->records});
    else if (worst == Tone::alarm && now == Tone::alarm)
      holds.push_back({Food::none, {"The last test has {0} at an alarm.", {name_of(quantity)}}, {"A change of water, and a test after it that is below the alarm."}, known->records});
    else if (worst == Tone::alarm)
      holds.push_back({Food::none, {"The last test had {0} at an alarm, and nobody has tested since the water was changed.", {name_of(quantity)}}, {"A test now: feed when it is below the alarm."}, known->records});
    else
      holds.push_back({Food::half, {"The last test of {0} asks for less food.", {name_of(quantity)}}, {"A test below the mark to act."}, known->records});
  }
  const Assessment& oxygen = s.of(WaterKey::oxygen);
  if (oxygen.tone >= Tone::act)
    holds.push_back({Food::none, {"Oxygen is low, and digesting takes more of it."}, {"Oxygen back above 7 mg/L."}, oxygen.records});
}

void hold_for_equipment(const Situation& s, std::vector<FeedHold>& holds) {
  for (const auto& [what, record] : emergency::open_failures(s.records)) {
    const char* name = what == EquipmentEvent::Equipment::power  ? "power"
                       : what == EquipmentEvent::Equipment::pump ? "pump"
                       : what == EquipmentEvent::Equipment::air  ? "air"
                                                                 : nullptr;
    if (name) holds.push_back({Food::none, {"The {0} is logged as off: food would only use up oxygen and foul still water.", {Word{name}}}, {"Flow and air running again, and logged."}, {record->id}});
  }
  for (const auto& record : s.records) {
    const auto* work = std::get_if<records::FilterWork>(&record.entry.body);
    constexpr double much = 0.4, days_after = 3.0;
    if (!work || (work->work != records::FilterWork::Work::rinsed && work->work != records::FilterWork::Work::media_replaced)) continue;
    if (work->fraction.value_or(1.0) < much || days_between(record.entry.at, s.now).count() > days_after) continue;
    holds.push_back({Food::half, {"Much of the filter was cleaned {0} ago.", {Days(days_between(record.entry.at, s.now).count())}}, {"Three days, with ammonia tested on each."}, {record.id}});
  }
}

/// Ammonia that is read where food is given means that the filter does not keep up, harmful yet or not.
void hold_for_rising_ammonia(const Situation& s, std::vector<FeedHold>& holds) {
  constexpr double clearly_mg_n_per_l = 0.3;  // Assumed: above what a card's first step may hide
  const auto* known = s.belief.find(Quantity::total_ammonia);
  if (!known || inference::is_stale(*known) || known->value.low <= clearly_mg_n_per_l) return;
  if (tone_of(s.water, Quantity::total_ammonia) >= Tone::act) return;  // said already
  holds.push_back({Food::half, {"Ammonia is read ({0}): the filter does not keep up with the food.", {Word{known->raw_text}}}, {"A test of ammonia that reads next to none."}, known->records});
}

void hold_for_losses(const Situation& s, std::vector<FeedHold>& holds) {
  constexpr double many_fraction = 0.03;  // Assumed: well above what is picked out on a usual day of any stage
  const inference::LossWatch watch = s.looks.counts ? s.looks.counts->losses : inference::counts_of(s.records, s.belief, s.zone, s.now).losses;
  if (watch.recent_fraction < many_fraction || watch.recent_died < 3) return;
  const bool fresh = watch.looked && s.today() - *watch.looked <= std::chrono::days(1);
  holds.push_back({fresh ? Food::none : Food::half, {"{0} died in the last three days: food only adds to whatever is wrong.", {Number{watch.recent_died}}},
                   {"The cause found, or a day without dead."}, watch.recent_records});
}

void hold_for_temperature(const Situation& s, std::vector<FeedHold>& holds) {
  constexpr double off_c = 2.0, fresh_days = 2.0;
  const auto& t = s.belief.temperature;
  const Temperature wanted = t.set_point.value_or(s.season.target);
  if (!t.latest || t.age_days > fresh_days || std::abs((*t.latest - wanted).c()) < off_c) return;
  holds.push_back({Food::half, {"The water is at {0}, {1} off the {2} that is wanted.", {*t.latest, *t.latest - wanted, wanted}}, {"The water back where it is wanted."}, {t.record}});
}

}  // namespace

std::vector<FeedHold> feed_holds(const Situation& s) {
  std::vector<FeedHold> holds;
  hold_for_equipment(s, holds);
  hold_for_water(s, holds);
  hold_for_rising_ammonia(s, holds);
  hold_for_losses(s, holds);
  hold_for_temperature(s, holds);
  std::ranges::stable_sort(holds, std::greater{}, &FeedHold::food);
  return holds;
}

std::vector<FeedHold> feed_holds(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                 const ZoneOffsets& zone, Instant now) {
  Situation s{season, records, belief, nullptr, zone, now};
  s.school = records::SchoolCalendar(records);
  s.water = assess(s);
  return feed_holds(s);
}

double fed_share(const std::vector<FeedHold>& holds) {
  if (holds.empty()) return 1.0;
  return holds.front().food == Food::none ? 0.0 : 0.5;
}

}  // namespace redd::advice
