// Laws of the advice that hold for any season: every action is complete, names are its own, alarms are never silenced, the list is in order, and a reading
// moved by one step of its card does not change the first thing without having been named.
#include <algorithm>
#include <set>

#include "advice/answers.h"
#include "advice/conflicts.h"
#include "advice/edges.h"
#include "properties/generators.h"
#include "support/told_filter.h"

namespace redd::properties {
namespace {

using namespace redd::testing;
using advice::Action;
using advice::Tone;

/// A season out of dice: a tank with or without eggs or fry, tests on some days in any of its steps, and whatever else happens.
SmallSeason invented(const std::vector<int>& dice) {
  std::size_t next = 0;
  const auto roll = [&](int sides) { return dice[next++ % dice.size()] % sides; };
  SmallSeason season;
  if (roll(2)) std::get<records::SeasonSetup>(season.log()[0].entry.body).egg_day = local_day({}, on_day(20 + roll(25)));
  if (roll(3) == 0) std::get<records::SourceWater>(season.log()[2].entry.body).chlorine_mg_per_l = 0.8;
  if (roll(4) == 0) std::get<records::SourceWater>(season.log()[2].entry.body).total_ammonia = NitrogenConc::from_mg_n_per_l(1.0);
  if (roll(3)) season.quiet_tests(3);
  if (roll(3)) {
    season.temperature(6, 8 + roll(4));
    season.eggs(7, 150.0 + 60.0 * roll(8));
  }
  if (roll(4) == 0) season.add(8, records::Milestone{records::Milestone::Which::half_swim_up, roll(2) == 0});
  if (roll(5) == 0) season.add(9, records::Closure{"Invented break", local_day({}, on_day(22)), local_day({}, on_day(22 + roll(12))), {}});
  const records::Kit kit = SmallSeason::kit();
  for (int day = 10; day < 22; day += 1 + roll(6)) {
    for (const char* test : {"ammonia", "nitrite", "nitrate", "ph"}) {
      const auto& steps = records::find_test(kit, test)->steps;
      if (roll(4)) season.step(day, test, steps[static_cast<std::size_t>(std::min(roll(6), roll(6)))]);
    }
    if (roll(2)) season.drops(day, "kh", 1 + roll(10));
    if (roll(2)) season.drops(day, "gh", 3 + roll(8));
    if (roll(6) == 0) season.drops(day, "oxygen", 10 + roll(12));
    if (roll(2)) season.temperature(day, 6.0 + 0.5 * roll(20));
    if (roll(6) == 0) season.add(day, records::Count{records::Count::What::dead_eggs, 1 + roll(30)});
    if (roll(8) == 0) season.add(day, records::SetPoint{Temperature::from_c(5.0 + roll(15))});
    if (roll(6) == 0) season.add(day, records::EquipmentEvent{static_cast<records::EquipmentEvent::Equipment>(roll(7)), records::EquipmentEvent::Event::failed, {}});
    if (roll(8) == 0) season.add(day, records::FilterWork{records::FilterWork::Work::rinsed, 0.5});
    if (roll(3) == 0) {
      records::WaterChange change;
      change.volume = Volume::from_l(20.0 * (1 + roll(5)));
      change.dechlorinated = roll(2) == 0;
      season.add(day, change);
    }
    if (roll(6) == 0) season.add(day, records::Feeding{Mass::from_g(0.5), {}, {}});
  }
  return season;
}

constexpr int look_day = 22;

rc::Gen<std::vector<int>> dice() { return rc::gen::container<std::vector<int>>(120, rc::gen::inRange(0, 60)); }

std::string words(const Action& a) { return a.key + ": " + a.what.pattern; }

void check_complete(const season::DayView& view) {
  std::set<std::string> keys;
  for (const Action& a : view.advice.actions) {
    RC_LOG() << words(a) << "\n";
    RC_ASSERT(!a.rule.empty() && !a.key.empty());
    RC_ASSERT(keys.insert(a.key).second);
    RC_ASSERT(!a.deeds.empty());
    RC_ASSERT(!a.what.empty() && !a.how_much.empty() && !a.concern.empty() && !a.by_text.empty());
    RC_ASSERT(a.effort_minutes >= 1 && a.effort_minutes <= 240);
    RC_ASSERT(a.by >= view.now - std::chrono::hours(24));
    RC_ASSERT(!a.from || *a.from <= std::max(a.by, view.now));
    RC_ASSERT(a.benefit.has_value() && !a.benefit->empty());
    RC_ASSERT(!a.because.empty() && !a.would_change_if.empty());
    RC_ASSERT(std::ranges::any_of(a.because, [](const auto& r) { return !r.records.empty(); }));
    for (const auto* list : {&a.because, &a.would_change_if})
      for (const auto& reason : *list)
        for (const auto id : reason.records) RC_ASSERT(std::ranges::any_of(view.records, [&](const auto& r) { return r.id == id; }));
  }
}

void check_order(const advice::Advice& advice) {
  const auto& actions = advice.actions;
  RC_ASSERT(!actions.empty());
  RC_ASSERT(advice.shown == std::min(advice::most_shown, actions.size()));
  RC_ASSERT(std::ranges::is_sorted(actions, [](const Action& a, const Action& b) { return std::max(a.tone, Tone::watch) > std::max(b.tone, Tone::watch); }));
  if (actions.front().tone >= Tone::act) RC_ASSERT(advice.headline.tone == actions.front().tone);
  if (actions.front().tone != Tone::good) RC_ASSERT(advice.headline.tone != Tone::good);
}

void check_apart(const std::vector<Action>& actions) {
  const auto has = [](const Action& a, advice::Deed deed) { return std::ranges::find(a.deeds, deed) != a.deeds.end(); };
  RC_ASSERT(std::ranges::count_if(actions, [](const Action& a) { return a.water_change.has_value(); }) <= 1);
  for (const Action& change : actions)
    for (const Action& other : actions) {
      if (!change.water_change || &other == &change || other.moved || change.moved) continue;
      RC_ASSERT(change.water_change->fraction < advice::big_change_fraction || !has(other, advice::Deed::clean_filter));
      RC_ASSERT(local_day({}, change.by) != local_day({}, other.by) || other.rule != "buffer" || !has(other, advice::Deed::dose));
    }
}

RC_GTEST_PROP(Advice, IsCompleteInOrderAndGoesTogether, ()) {
  const auto rolled = *dice();
  const SmallSeason season = invented(rolled);
  const auto told = told_filter(rolled[0] / 60.0, rolled[1] / 60.0, look_day, 40);
  const auto view = rolled[2] % 2 ? season.look(look_day) : look_with(season, told, look_day);
  check_complete(view);
  check_order(view.advice);
  check_apart(view.advice.actions);
}

RC_GTEST_PROP(Advice, AnAlarmIsNeverSilencedByAnAnswer, ()) {
  const auto rolled = *dice();
  SmallSeason season = invented(rolled);
  const auto before = season.look(look_day).advice;
  const auto answer = static_cast<records::AdviceAnswer::Answer>(rolled[3] % 3);
  for (const Action& a : before.actions) season.add(look_day, records::AdviceAnswer{answer, a.key, {}, {}}, 10);
  const auto after = season.look(look_day).advice;
  for (const Action& a : before.actions) {
    if (a.tone != Tone::alarm || a.aim != advice::Aim::animals) continue;
    const auto found = std::ranges::find_if(after.actions, [&](const Action& b) { return advice::answers(a.key, b.key); });
    RC_ASSERT(found != after.actions.end());
    RC_ASSERT(found->tone == Tone::alarm && found->answer.has_value());
  }
  if (before.headline.tone == Tone::alarm && before.actions.front().aim == advice::Aim::animals) RC_ASSERT(after.headline.tone == Tone::alarm);
  if (before.headline.tone >= Tone::act) RC_ASSERT(after.headline.tone >= Tone::watch);
  RC_ASSERT(after.headline.tone != Tone::good || before.headline.tone <= Tone::watch);
  RC_ASSERT(after.put_aside.size() + after.actions.size() > 0);
}

/// Names the reading, in a reason or in what would change it.
bool names(const Action& a, records::RecordId id) {
  const auto in = [&](const std::vector<advice::Reason>& reasons) {
    return std::ranges::any_of(reasons, [&](const auto& r) { return std::ranges::find(r.records, id) != r.records.end(); });
  };
  return in(a.because) || in(a.would_change_if);
}

RC_GTEST_PROP(Advice, OneStepOfACardFlipsNothingUnnamed, ()) {
  const SmallSeason season = invented(*dice());
  const auto view = season.look(look_day);
  const Action& first = view.advice.actions.front();
  const records::Kit kit = SmallSeason::kit();
  std::vector<records::RecordId> latest;
  for (const auto& [quantity, known] : view.belief.water)
    for (const auto id : known.records)
      if (std::holds_alternative<records::Reading>(season.log()[static_cast<std::size_t>(id) - 1].entry.body)) latest.push_back(id);
  if (latest.empty()) return;
  const auto id = latest[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(latest.size())))];
  const auto& reading = std::get<records::Reading>(season.log()[static_cast<std::size_t>(id) - 1].entry.body);
  if (const auto next = advice::neighbour(*records::find_test(kit, reading.test), reading, *rc::gen::arbitrary<bool>())) {
    SmallSeason moved = season;
    moved.log()[static_cast<std::size_t>(id) - 1].entry.body = *next;
    const auto then = moved.look(look_day).advice;
    RC_LOG() << reading.test << " " << reading.value.value_or(-1) << " -> " << next->value.value_or(-1) << ": " << words(first) << " -> " << words(then.actions.front()) << "\n";
    RC_ASSERT(advice::answers(then.actions.front().key, first.key) || names(first, id));
  }
}

/// A meter's number moved within its accuracy, that is within its own step.
RC_GTEST_PROP(Advice, AMeterWithinItsAccuracyFlipsNothingUnnamed, ()) {
  const auto rolled = *dice();
  SmallSeason season = invented(rolled);
  auto& kit = std::get<records::Kit>(season.log()[1].entry.body);
  records::KitTest meter;
  meter.key = "ph_meter";
  meter.quantity = records::Quantity::ph;
  meter.method = records::Method::meter;
  meter.unit = records::TestUnit::ph;
  meter.accuracy = 0.1;
  kit.tests.push_back(meter);
  const auto id = season.add(look_day, SmallSeason::reading("ph_meter", records::Reading::Form::number, 6.4 + 0.05 * (rolled[5] % 50)), 9);
  const Action first = season.look(look_day).advice.actions.front();
  SmallSeason moved = season;
  auto& value = std::get<records::Reading>(moved.log()[static_cast<std::size_t>(id) - 1].entry.body).value;
  value = *value + *between(-0.1, 0.1);
  const auto then = moved.look(look_day).advice;
  RC_ASSERT(advice::answers(then.actions.front().key, first.key) || names(first, id));
}

}  // namespace
}  // namespace redd::properties
