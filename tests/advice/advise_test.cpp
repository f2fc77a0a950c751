#include "advice/advise.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "advice/answers.h"

#include "support/small_season.h"

namespace redd::advice {
namespace {

using redd::testing::SmallSeason;
using Form = records::Reading::Form;

SmallSeason with_eggs(double thermal_sum = 250) {
  SmallSeason season;
  season.step(2, "nitrite", 0.8);  // the filter has shown that it works
  season.step(5, "nitrite", 0);
  season.temperature(7, 8);
  season.eggs(8, thermal_sum);
  season.quiet_tests(14);
  return season;
}

const Action* action_of(const Advice& advice, std::string_view rule) {
  const auto found = std::ranges::find(advice.actions, rule, &Action::rule);
  return found == advice.actions.end() ? nullptr : &*found;
}

TEST(Advice, QuietWaterAsksForNothingUntilTheNextTest) {
  const auto advice = with_eggs().look(14).advice;
  EXPECT_EQ(advice.headline.tone, Tone::good);
  ASSERT_FALSE(advice.actions.empty());
  EXPECT_EQ(advice.actions.front().rule, "weekly_test");
}

TEST(Advice, IsNeverReassuredByOldOrMissingTests) {
  auto season = with_eggs();
  EXPECT_NE(season.look(40).advice.headline.tone, Tone::good);
  for (const auto& [key, a] : season.look(40).advice.water)
    if (key != WaterKey::temperature) EXPECT_NE(a.tone, Tone::good);

  SmallSeason untested;
  untested.temperature(7, 8);
  untested.eggs(8);
  const auto advice = untested.look(9).advice;
  EXPECT_NE(advice.headline.tone, Tone::good);
  EXPECT_EQ(advice.water.at(WaterKey::un_ionized_ammonia).tone, Tone::unknown);
}

/// Day of the small season as its date; day 0 is a Monday.
Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }

SmallSeason closed(SmallSeason season, int from, int to, const char* name = "Winter break") {
  season.add(1, records::Closure{name, date_of(from), date_of(to), {}});
  return season;
}

Date asked_for(const Action& action) { return local_day({}, action.by); }

bool warns(const Action& action, std::string_view part) {
  return std::ranges::any_of(action.cautions, [&](const Sentence& c) { return c.pattern.find(part) != std::string::npos; });
}

TEST(Closures, MoveTheWeeklyTestToTheLastDayBeforeABreak) {
  // Tested on Monday the 14th day, due on Monday the 21st; the Friday before, the 18th, is the last day of school.
  const auto plain = with_eggs().look(15).advice;
  EXPECT_EQ(asked_for(*action_of(plain, "weekly_test")), date_of(21));
  const auto advice = closed(with_eggs(), 19, 34).look(15).advice;
  EXPECT_EQ(asked_for(*action_of(advice, "weekly_test")), date_of(18));
  EXPECT_FALSE(warns(*action_of(advice, "weekly_test"), "The school is closed"));
}

TEST(Closures, NeverPutTheWeeklyTestOffForWeeks) {
  auto season = with_eggs();
  season.quiet_tests(18);
  const auto in_break = closed(season, 19, 34);
  const auto advice = in_break.look(18).advice;
  const Action& test = *action_of(advice, "weekly_test");
  EXPECT_EQ(asked_for(test), date_of(25)) << "a week after the last one, in the middle of the break";
  EXPECT_TRUE(warns(test, "nobody is noted as on duty"));

  auto with_duty = in_break;
  with_duty.add(2, records::Duty{"Team Heron", date_of(20), date_of(30)});
  const auto kept = with_duty.look(18).advice;
  EXPECT_TRUE(warns(*action_of(kept, "weekly_test"), "on duty: {2}"));
  EXPECT_FALSE(warns(*action_of(kept, "weekly_test"), "nobody is noted"));
}

TEST(Closures, OfADayOrTwoPutOffWhatCanWait) {
  // Tested on Tuesday the 15th day, due on the 22nd: with the 20th to 22nd closed only Wednesday is left.
  auto season = with_eggs();
  season.quiet_tests(15);
  const auto advice = closed(season, 20, 22, "Holiday").look(16).advice;
  EXPECT_EQ(asked_for(*action_of(advice, "weekly_test")), date_of(18)) << "the Friday before is four days early";
}

TEST(Closures, EndTheDayEarly) {
  auto season = with_eggs();
  season.add(1, records::Closure{"Early closing", date_of(21), {}, "12:30"});
  const Action test = *action_of(season.look(15).advice, "weekly_test");
  EXPECT_EQ(rfc3339_from_instant(test.by), "2031-01-27T12:30:00Z");
}

TEST(Advice, AmmoniaAboveItsMarkComesFirstWithAChangeThatHelps) {
  auto season = with_eggs();
  season.step(15, "ammonia", 1.6);
  season.step(15, "ph", 8.0);
  const auto view = season.look(15);
  const Action& first = view.advice.actions.front();
  EXPECT_EQ(first.rule, "ammonia");
  EXPECT_GE(first.tone, Tone::act);
  ASSERT_TRUE(first.water_change.has_value());
  EXPECT_LT(first.water_change->un_ionized_after->high, first.water_change->un_ionized_before->high);
  EXPECT_FALSE(first.because.empty());
  for (const Reason& reason : first.because)
    for (const auto id : reason.records) EXPECT_TRUE(std::ranges::any_of(view.records, [&](const auto& r) { return r.id == id; }));
}

TEST(Advice, AReadingOffTheCardIsAnAlarmWithAnimalsInTheTank) {
  auto season = with_eggs();
  season.add(15, SmallSeason::reading("ammonia", Form::above_last, {}));
  EXPECT_EQ(season.look(15).advice.headline.tone, Tone::alarm);
}

TEST(Advice, TheSameAmmoniaIsNoAlarmWithoutAnimalsButNotInOrderEither) {
  SmallSeason season;
  season.quiet_tests(14);
  season.step(15, "ammonia", 3.2);
  const auto advice = season.look(15).advice;
  EXPECT_EQ(advice.headline.tone, Tone::watch);
  ASSERT_NE(action_of(advice, "ripening"), nullptr);
  EXPECT_EQ(action_of(advice, "ammonia"), nullptr);
}

TEST(Advice, NitriteIsJudgedAgainstTheWatersChloride) {
  auto soft = with_eggs(), salty = with_eggs();
  std::get<records::SourceWater>(salty.log()[2].entry.body).chloride_mg_per_l = 60;
  for (SmallSeason* season : {&soft, &salty}) season->step(15, "nitrite", 0.4);
  EXPECT_EQ(soft.look(15).advice.water.at(WaterKey::nitrite).tone, Tone::alarm);
  EXPECT_LT(salty.look(15).advice.water.at(WaterKey::nitrite).tone, Tone::alarm);
}

TEST(Advice, NitrateMarksMayOnlyBeLowered) {
  records::SeasonSetup season;
  season.nitrate_act_mg_no3_per_l = 15;
  EXPECT_NEAR(nitrate_marks(season).act.mg_no3_per_l(), 15, 1e-9);
  EXPECT_NEAR(nitrate_marks(season).ceiling.mg_no3_per_l(), 40, 1e-9);
  season.nitrate_act_mg_no3_per_l = 35;
  EXPECT_NEAR(nitrate_marks(season).act.mg_no3_per_l(), 25, 1e-9);
}

TEST(Advice, WaterChangesAreMergedIntoOne) {
  auto season = with_eggs();
  season.step(15, "ammonia", 1.6);
  season.step(15, "ph", 8.0);
  season.step(15, "nitrite", 0.8);
  season.step(15, "nitrate", 80);
  const auto advice = season.look(15).advice;
  EXPECT_EQ(std::ranges::count_if(advice.actions, [](const Action& a) { return a.water_change.has_value(); }), 1);
}

TEST(Advice, ContraryReplicatesAreRepeatedBeforeTheyAreBelieved) {
  auto season = with_eggs();
  season.step(15, "nitrate", 0);
  season.step(15, "nitrate", 80);
  ASSERT_NE(action_of(season.look(15).advice, "contradiction"), nullptr);
}

TEST(Advice, HighKhWithLowPhIsQuestioned) {
  auto season = with_eggs();
  season.drops(15, "kh", 24);  // 12 German degrees
  season.step(15, "ph", 6.4);
  ASSERT_NE(action_of(season.look(15).advice, "contradiction"), nullptr);
}

TEST(Advice, AnUnsetChillerFailureOutranksAll) {
  auto season = with_eggs();
  season.add(15, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::failed, {}});
  const auto failed = season.look(15).advice;
  EXPECT_EQ(failed.actions.front().rule, "equipment");
  EXPECT_EQ(failed.headline.tone, Tone::alarm);
  season.add(16, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::restored, {}});
  EXPECT_EQ(action_of(season.look(16).advice, "equipment"), nullptr);
}

TEST(Advice, ATooWarmTankIsAnAlarmForEggs) {
  auto season = with_eggs();
  season.temperature(15, 17);
  const auto advice = season.look(15).advice;
  EXPECT_EQ(advice.headline.tone, Tone::alarm);
  EXPECT_EQ(advice.actions.front().rule, "temperature");
}

TEST(Advice, AnUnreadyTankIsNotCalledReadyBeforeEggDay) {
  SmallSeason season;
  std::get<records::SeasonSetup>(season.log()[0].entry.body).egg_day = Date{std::chrono::sys_days{std::chrono::year{2031} / 1 / 27}.time_since_epoch()};
  season.quiet_tests(14);
  season.step(15, "nitrite", 0.8);
  const auto advice = season.look(15).advice;
  const Action* egg = action_of(advice, "egg_day");
  ASSERT_NE(egg, nullptr);
  EXPECT_EQ(egg->tone, Tone::act);
}

TEST(Advice, HatchIsAnnouncedBeforeItComesAndAskedAfterWhenPast) {
  const auto soon = with_eggs(400).look(15).advice;
  ASSERT_NE(action_of(soon, "milestones"), nullptr);
  EXPECT_EQ(action_of(with_eggs(200).look(15).advice, "milestones"), nullptr);
}

TEST(Advice, DriftOfHardnessIsNoticedAgainstTheSeasonsOwnNormal) {
  auto season = with_eggs();
  for (int week = 3; week < 9; ++week) season.quiet_tests(7 * week);
  EXPECT_EQ(action_of(season.look(60).advice, "drift"), nullptr);
  for (int week = 9; week < 13; ++week) {
    season.quiet_tests(7 * week);
    season.log().erase(std::ranges::find_if(season.log(), [&](const auto& r) {
      const auto* reading = std::get_if<records::Reading>(&r.entry.body);
      return reading && reading->test == "gh" && r.logged_at == redd::testing::on_day(7 * week);
    }));
    season.drops(7 * week, "gh", 14);
  }
  ASSERT_NE(action_of(season.look(85).advice, "drift"), nullptr);
}

TEST(Advice, EveryActionNamesItsReasonAndWhatWouldChangeIt) {
  auto season = with_eggs(400);
  season.step(15, "nitrite", 0.4);
  season.step(15, "nitrate", 40);
  for (const Action& a : season.look(15).advice.actions) {
    EXPECT_FALSE(a.because.empty()) << a.rule;
    EXPECT_FALSE(a.would_change_if.empty()) << a.rule;
    EXPECT_FALSE(a.what.empty());
    EXPECT_FALSE(a.how_much.empty());
    EXPECT_FALSE(a.by_text.empty());
  }
}

TEST(Advice, WaterThatWentInWithoutAWordOfDechlorinationIsAskedAfter) {
  auto season = with_eggs();
  auto& tap = std::get<records::SourceWater>(season.log()[2].entry.body);
  tap.chloramine = true;
  tap.chlorine_mg_per_l = 0.8;
  records::WaterChange change;
  change.volume = Volume::from_l(100);
  season.add(15, change);
  EXPECT_EQ(season.look(15).advice.headline.tone, Tone::alarm);
  EXPECT_EQ(season.look(15).advice.actions.front().rule, "chlorine");
  change.dechlorinated = true;
  auto careful = with_eggs();
  careful.add(15, change);
  EXPECT_EQ(action_of(careful.look(15).advice, "chlorine"), nullptr);
}

TEST(Advice, AFailureLeadsToItsEmergencysFirstStepAndTime) {
  using Equipment = records::EquipmentEvent::Equipment;
  for (const auto& [what, key] : {std::pair(Equipment::power, "power_cut"), {Equipment::chiller, "chiller_failed"}, {Equipment::pump, "socket_tripped"}}) {
    SmallSeason season;
    season.eggs(10);
    season.temperature(15, 8);
    season.add(15, records::EquipmentEvent{what, records::EquipmentEvent::Event::failed, {}}, 11);
    // A pump that stopped alone is no tripped socket.
    if (what == Equipment::pump) season.add(15, records::EquipmentEvent{Equipment::air, records::EquipmentEvent::Event::failed, {}}, 11);
    const auto advice = season.look(15).advice;
    const auto* action = action_of(advice, "equipment");
    ASSERT_NE(action, nullptr) << key;
    const auto kinds = season::look_at_emergencies({}, season.log(), redd::testing::on_day(15, 12))->kinds;
    EXPECT_EQ(kinds.front().key, key);
    EXPECT_EQ(action->what.pattern, kinds.front().steps.front().pattern);
    EXPECT_EQ(action->because.size(), 3u) << key;  // the record, and two times
    for (const auto& reason : action->because) EXPECT_FALSE(reason.records.empty());
    EXPECT_FALSE(action->cautions.empty());
  }
}

TEST(Advice, AirSwitchedOffIsAsBadAsAirThatFailed) {
  auto season = with_eggs();
  season.add(15, records::EquipmentEvent{records::EquipmentEvent::Equipment::air, records::EquipmentEvent::Event::switched_off, {}});
  EXPECT_EQ(season.look(15).advice.headline.tone, Tone::alarm);
  season.add(16, records::EquipmentEvent{records::EquipmentEvent::Equipment::air, records::EquipmentEvent::Event::serviced, {}});
  EXPECT_NE(action_of(season.look(16).advice, "equipment"), nullptr);
}

TEST(Advice, ManyDeadAreNeverPassedOver) {
  auto season = with_eggs();
  season.add(15, records::Count{records::Count::What::dead_eggs, 60});
  EXPECT_EQ(season.look(15).advice.headline.tone, Tone::alarm);
  EXPECT_EQ(season.look(15).advice.actions.front().rule, "losses");
}

TEST(Advice, EggsInAnUnprovenFilterAreWatchedDaily) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 250);
  season.quiet_tests(14);
  const auto advice = season.look(14).advice;
  ASSERT_NE(action_of(advice, "vigilance"), nullptr);
  EXPECT_NE(advice.headline.tone, Tone::good);
}

TEST(Advice, ReplacedMediaAreWatched) {
  auto season = with_eggs();
  records::FilterWork work;
  work.work = records::FilterWork::Work::media_replaced;
  work.fraction = 1.0;
  season.add(15, work);
  EXPECT_NE(action_of(season.look(16).advice, "vigilance"), nullptr);
}

TEST(Advice, ASetPointOutsideTheBandIsAnAlarmBeforeTheWaterFollows) {
  auto season = with_eggs();
  season.add(15, records::SetPoint{Temperature::from_c(18)});
  EXPECT_EQ(season.look(15).advice.headline.tone, Tone::alarm);
}

TEST(Advice, AWarmWaterChangeAsksForAThermometer) {
  auto season = with_eggs();
  records::WaterChange change;
  change.volume = Volume::from_l(100);
  change.new_water = Temperature::from_c(20);
  change.dechlorinated = true;
  season.add(15, change);
  const auto advice = season.look(15).advice;
  EXPECT_GE(advice.headline.tone, Tone::act);
  EXPECT_EQ(advice.water.at(WaterKey::temperature).tone, Tone::unknown);
}

TEST(Advice, FryThatSwimUpAreFed) {
  auto season = with_eggs(400);
  season.add(60, records::Milestone{records::Milestone::Which::half_hatched, true});
  season.add(100, records::Milestone{records::Milestone::Which::half_swim_up, true});
  season.quiet_tests(102);
  ASSERT_NE(action_of(season.look(103).advice, "feeding"), nullptr);
  season.add(103, records::Feeding{Mass::from_g(0.5), {}});
  EXPECT_EQ(action_of(season.look(103).advice, "feeding"), nullptr);
}

TEST(Advice, NothingToDoNeverStandsBesideSomethingToDo) {
  auto season = with_eggs();
  season.step(15, "ammonia", 1.6);
  season.step(15, "ph", 8.0);
  for (const Action& a : season.look(15).advice.actions) EXPECT_NE(a.tone, Tone::good);
}

TEST(Advice, AChangeThatWouldMakeAmmoniaWorseIsNotAsked) {
  auto season = with_eggs();
  auto& tap = std::get<records::SourceWater>(season.log()[2].entry.body);
  tap.ph = Ph::from_ph(8.6);
  tap.alkalinity = Alkalinity::from_german_degrees(12);
  tap.total_ammonia = NitrogenConc::from_mg_n_per_l(1.0);
  season.step(15, "ammonia", 1.6);
  season.step(15, "ph", 7.6);
  const auto advice = season.look(15).advice;
  const Action* a = action_of(advice, "ammonia");
  ASSERT_NE(a, nullptr);
  EXPECT_FALSE(a->water_change.has_value());
}

TEST(Advice, ContraryNitriteReplicatesNeverReassure) {
  auto season = with_eggs();
  season.step(15, "nitrite", 0);
  season.step(15, "nitrite", 0);
  season.add(15, SmallSeason::reading("nitrite", Form::above_last, {}));
  const auto advice = season.look(15).advice;
  EXPECT_GE(advice.water.at(WaterKey::nitrite).tone, Tone::act);
  EXPECT_EQ(advice.actions.front().rule, "contradiction");
}

// A worse reading never calms the advice.
TEST(Advice, ToneNeverFallsAsAReadingRises) {
  for (const char* test : {"ammonia", "nitrite", "nitrate"}) {
    Tone before = Tone::good;
    const records::Kit kit = SmallSeason::kit();  // find_test points into it
    for (const double step : records::find_test(kit, test)->steps) {
      auto season = with_eggs();
      season.step(15, test, step);
      const Tone now = season.look(15).advice.headline.tone;
      EXPECT_GE(now, before) << test << " at " << step;
      before = now;
    }
  }
}

using records::AdviceAnswer;

TEST(Answered, ASkippedAlarmStaysWithTheRisk) {
  auto season = with_eggs();
  season.step(15, "ammonia", 3.2);
  season.step(15, "ph", 8.4);
  const auto before = season.look(15).advice;
  ASSERT_EQ(before.headline.tone, Tone::alarm);
  season.add(15, AdviceAnswer{AdviceAnswer::Answer::skipped, before.actions.front().key, {}, {}}, 10);
  const auto after = season.look(15).advice;
  EXPECT_EQ(after.headline.tone, Tone::alarm);
  EXPECT_EQ(after.actions.front().key, before.actions.front().key);
  ASSERT_TRUE(after.actions.front().answer.has_value());
  EXPECT_TRUE(after.actions.front().benefit.has_value());
}

TEST(Answered, DoneIsGoneUntilTheNextReading) {
  auto season = with_eggs();
  season.step(15, "nitrite", 0.1);
  const auto before = season.look(15).advice;
  const std::string key = before.actions.front().key;
  season.add(15, AdviceAnswer{AdviceAnswer::Answer::done, key, {}, {}}, 9);
  const auto after = season.look(15).advice;
  EXPECT_TRUE(after.actions.empty() || after.actions.front().key != key);
  EXPECT_FALSE(after.put_aside.empty());
  EXPECT_NE(after.headline.tone, Tone::alarm);
  season.step(16, "nitrite", 0.1);
  EXPECT_EQ(season.look(16).advice.actions.front().key, key);
}

TEST(Answered, TakingTheAnswerBackAsksAgain) {
  auto season = with_eggs();
  season.step(15, "nitrite", 0.1);
  const std::string key = season.look(15).advice.actions.front().key;
  const auto id = season.add(15, AdviceAnswer{AdviceAnswer::Answer::skipped, key, {}, {}}, 9);
  ASSERT_FALSE(season.look(15).advice.put_aside.empty());
  season.add(15, records::Undo{id}, 10);
  EXPECT_EQ(season.look(15).advice.actions.front().key, key);
}

TEST(Answered, SkippingTheWeeklyTestNeverMakesTheWaterWell) {
  auto season = with_eggs();
  season.add(25, AdviceAnswer{AdviceAnswer::Answer::skipped, "weekly_test", {}, {}}, 9);
  const auto advice = season.look(25).advice;
  EXPECT_NE(advice.headline.tone, Tone::good);
  EXPECT_NE(season.look(26).advice.headline.tone, Tone::good);
  const auto next_day = season.look(26).advice;
  EXPECT_TRUE(std::ranges::any_of(next_day.actions, [](const Action& a) { return answers(a.key, "weekly_test"); })) << "animals depend on it: it comes back";
}

TEST(Advice, NoMoreThanFiveAreShown) {
  auto season = with_eggs(400);
  season.step(15, "ammonia", 3.2);
  season.step(15, "ph", 8.4);
  season.drops(15, "kh", 1);
  season.step(15, "nitrate", 0);
  season.step(15, "nitrate", 80);
  season.drops(15, "oxygen", 10);
  season.temperature(15, 17);
  season.add(15, records::EquipmentEvent{records::EquipmentEvent::Equipment::pump, records::EquipmentEvent::Event::failed, {}});
  season.add(15, records::Count{records::Count::What::dead_eggs, 60});
  const auto advice = season.look(15).advice;
  EXPECT_GT(advice.actions.size(), most_shown);
  EXPECT_EQ(advice.shown, most_shown);
}

TEST(Advice, FoodWaitsForTheRepeatTest) {
  auto season = with_eggs(400);
  season.add(60, records::Milestone{records::Milestone::Which::half_hatched, true});
  season.add(100, records::Milestone{records::Milestone::Which::half_swim_up, true});
  season.quiet_tests(102);
  season.step(103, "nitrite", 0.0);
  season.add(103, SmallSeason::reading("nitrite", Form::above_last, {}));
  for (const Action& a : season.look(103).advice.actions)
    if (std::ranges::find(a.deeds, Deed::feed) != a.deeds.end()) EXPECT_TRUE(a.moved.has_value());
}

TEST(Advice, TheWeeklyTestOfTomorrowIsSaidTheDayBefore) {
  auto season = with_eggs();
  season.temperature(20, 8);
  season.add(20, records::Count{records::Count::What::dead_eggs, 0});
  const auto advice = season.look(20).advice;
  EXPECT_EQ(action_of(advice, "weekly_test")->tone, Tone::watch);
  EXPECT_EQ(advice.headline.sentence.pattern, "The weekly test is due tomorrow.");
}

}  // namespace
}  // namespace redd::advice
