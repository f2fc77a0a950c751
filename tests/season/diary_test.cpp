// The season ahead as a diary: what the plan, the school, the permit and the weekly rhythm put on which day.
#include "season/diary.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "report/diary_view.h"
#include "support/small_season.h"

namespace redd::season {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using std::chrono::days;

records::SeasonSetup& setup_of(SmallSeason& season) { return std::get<records::SeasonSetup>(season.log().front().entry.body); }
Date day_number(int day) { return local_day({}, on_day(day)); }

SmallSeason with_eggs() {
  SmallSeason season;
  for (int day = 1; day < 30; ++day) season.temperature(day, 8);
  season.eggs(10, 250);
  season.quiet_tests(18);
  return season;
}

Diary diary_on(const SmallSeason& season, int day) {
  auto view = look_at_plan({}, season.log(), on_day(day, 15));
  require(view.has_value(), "diary_on", "no plan");
  return std::move(view).value().diary;
}

std::vector<const DiaryEntry*> of_kind(const Diary& diary, DiaryKind kind) {
  std::vector<const DiaryEntry*> found;
  for (const auto& e : diary.entries)
    if (e.kind == kind) found.push_back(&e);
  return found;
}

TEST(Diary, HoldsThePlansChangesStagesAndSetPoints) {
  SmallSeason season = with_eggs();
  const auto free = look_at_plan({}, season.log(), on_day(20, 15));
  ASSERT_TRUE(free.has_value() && free->plan.alternatives.keep.plan);
  const Date hatch = biology::day_of(free->plan.alternatives.keep.plan->milestones.front().lot.median);
  season.add(15, records::Closure{"Invented break", hatch - days(5), hatch + days(5), {}});
  const auto view = look_at_plan({}, season.log(), on_day(20, 15));
  ASSERT_TRUE(view.has_value() && view->plan.alternatives.best.plan);
  const Diary& diary = view->diary;
  const auto changes = changes_worth_a_word(*view->plan.alternatives.best.plan);
  const auto entries = of_kind(diary, DiaryKind::set_point);
  ASSERT_FALSE(changes.empty()) << "a break over the hatch is worth a change";
  ASSERT_EQ(entries.size(), changes.size());
  for (std::size_t i = 0; i < changes.size(); ++i) EXPECT_EQ(entries[i]->first, changes[i].day);
  ASSERT_EQ(of_kind(diary, DiaryKind::hatch).size(), 1u);
  ASSERT_EQ(of_kind(diary, DiaryKind::swim_up).size(), 1u);
  EXPECT_LE(of_kind(diary, DiaryKind::hatch).front()->last, of_kind(diary, DiaryKind::swim_up).front()->last);
  ASSERT_FALSE(diary.set_points.empty());
  EXPECT_EQ(diary.set_points.front().day, day_number(21));
  EXPECT_TRUE(diary.without_plan.empty());
  for (std::size_t i = 0; i < changes.size(); ++i) EXPECT_EQ(day_of_diary(diary, changes[i].day).set_point, changes[i].to);
}

TEST(Diary, KeysTellEntriesApartAndEntriesStandInOrder) {
  SmallSeason season = with_eggs();
  season.add(15, records::Duty{"Team Heron", day_number(40), day_number(50)});
  season.add(15, records::Duty{"Team Otter", day_number(40), day_number(50)});
  const Diary diary = diary_on(season, 20);
  std::set<std::string> keys;
  for (const auto& e : diary.entries) EXPECT_TRUE(keys.insert(e.key).second) << e.key;
  EXPECT_TRUE(std::ranges::is_sorted(diary.entries, {}, &DiaryEntry::first));
  for (const auto& e : diary.entries) EXPECT_LE(e.first, e.last) << e.key;
}

TEST(Diary, ChillsStepByStepBeforeTheEggsCome) {
  SmallSeason season;
  setup_of(season).egg_day = day_number(60);
  setup_of(season).warm = Temperature::from_c(22);
  season.temperature(10, 22);
  const Diary diary = diary_on(season, 10);
  const auto steps = of_kind(diary, DiaryKind::chill);
  ASSERT_GE(steps.size(), 10u) << "14 degrees at 1.5 a day at most";
  for (std::size_t i = 1; i < steps.size(); ++i) EXPECT_GT(steps[i]->first, steps[i - 1]->first);
  EXPECT_LE(steps.back()->first, day_number(57)) << "settled three days before";
  ASSERT_EQ(of_kind(diary, DiaryKind::eggs).size(), 1u);
  EXPECT_EQ(of_kind(diary, DiaryKind::eggs).front()->first, day_number(60));
  EXPECT_EQ(day_of_diary(diary, day_number(58)).set_point, Temperature::from_c(8));
  EXPECT_EQ(day_of_diary(diary, day_number(20)).set_point, Temperature::from_c(22)) << "warm as long as it may be";
}

TEST(Diary, TestsWeeklyOnSchoolDaysAndAgreesWithTodaysAdvice) {
  SmallSeason season = with_eggs();  // tested on day 18, a Friday
  season.add(18, records::Closure{"Invented long weekend", day_number(32), day_number(35), {}}, 9);
  const Diary diary = diary_on(season, 20);
  const auto tests = of_kind(diary, DiaryKind::weekly_test);
  ASSERT_GE(tests.size(), 8u);
  EXPECT_EQ(tests[0]->first, day_number(25));
  EXPECT_GE(tests[1]->first, day_number(30)) << "the Friday has no school: one of the two days before";
  EXPECT_LE(tests[1]->first, day_number(31));
  EXPECT_EQ(tests[2]->first, day_number(39)) << "and back to Friday";
  for (const auto* test : tests) EXPECT_TRUE(diary.calendar.is_open(test->first)) << iso_from_date(test->first);
  const auto asks_for_a_test = [&](int day) {
    const auto view = season.look(day, 9);
    return std::ranges::any_of(view.advice.actions, [&](const advice::Action& a) {
      return a.key.find("weekly_test") != std::string::npos && a.tone != advice::Tone::good && local_day(view.zone, a.by) == day_number(day);
    });
  };
  EXPECT_FALSE(asks_for_a_test(24));
  EXPECT_TRUE(asks_for_a_test(25));
}

TEST(Diary, ATestInALongBreakSaysWhoComes) {
  SmallSeason season = with_eggs();
  season.add(18, records::Closure{"Invented break", day_number(25), day_number(48), {}}, 9);
  season.add(18, records::Duty{"Team Heron", day_number(30), day_number(48)}, 9);
  const Diary diary = diary_on(season, 20);
  bool heron = false, nobody_needed = true;
  for (const auto* test : of_kind(diary, DiaryKind::weekly_test)) {
    if (diary.calendar.is_open(test->first)) continue;
    const std::string text = report::text_of(test->text, {});
    heron = heron || text.find("Team Heron") != std::string::npos;
    nobody_needed = nobody_needed && text.find("agree who comes in") == std::string::npos;
  }
  EXPECT_TRUE(heron) << "animals cannot wait three weeks for a test";
  EXPECT_TRUE(nobody_needed);
}

TEST(Diary, ShowsThePermitsWindowWithWhatItSays) {
  SmallSeason season = with_eggs();
  setup_of(season).release_from = day_number(100);
  setup_of(season).release_until = day_number(130);
  setup_of(season).permit = "Invented permit {0}";
  const Diary diary = diary_on(season, 20);
  const auto window = of_kind(diary, DiaryKind::release_window);
  ASSERT_EQ(window.size(), 1u);
  EXPECT_EQ(window.front()->first, day_number(100));
  EXPECT_EQ(window.front()->last, day_number(130));
  EXPECT_NE(report::text_of(window.front()->text, {}).find("Invented permit {0}"), std::string::npos);
  EXPECT_FALSE(day_of_diary(diary, day_number(99)).windows.size() > day_of_diary(diary, day_number(100)).windows.size());
}

TEST(Diary, TakingARecordBackMakesItNewer) {
  SmallSeason season = with_eggs();
  const records::RecordId note = season.add(19, records::Note{"Cloudy"});
  const auto before = diary_on(season, 20).newest;
  EXPECT_EQ(before, note);
  season.add(20, records::Undo{note}, 9);
  EXPECT_GT(diary_on(season, 20).newest, before);
}

TEST(Diary, WithoutAPlanItStillHoldsTheSchoolsDays) {
  SmallSeason season;  // no eggs and no day for them
  season.add(5, records::Closure{"Invented break", day_number(20), day_number(24), {}});
  EXPECT_FALSE(look_at_plan({}, season.log(), on_day(6)));
  const auto diary = look_at_diary({}, season.log(), on_day(6), "There is no {0} plan.");
  ASSERT_TRUE(diary.has_value());
  ASSERT_EQ(diary->without_plan.size(), 1u);
  EXPECT_EQ(report::text_of(diary->without_plan.front(), {}), "There is no {0} plan.");
  EXPECT_EQ(day_of_diary(*diary, day_number(22)).closed_name, "Invented break");
  EXPECT_FALSE(day_of_diary(*diary, day_number(22)).set_point);
  EXPECT_FALSE(of_kind(*diary, DiaryKind::weekly_test).empty());
  EXPECT_FALSE(look_at_diary({}, {}, on_day(6), "")) << "no season at all";
}

TEST(Diary, AfterTheReleaseNothingIsAskedForAnyMore) {
  SmallSeason season = with_eggs();
  setup_of(season).release_from = day_number(20);
  setup_of(season).release_until = day_number(130);
  season.add(28, records::Release{200, "Invented Brook"});
  const auto diary = look_at_diary({}, season.log(), on_day(29), "released");
  ASSERT_TRUE(diary.has_value());
  EXPECT_TRUE(of_kind(*diary, DiaryKind::weekly_test).empty());
  EXPECT_TRUE(of_kind(*diary, DiaryKind::release_window).empty());
}

TEST(WallJson, HasOneEntryADay) {
  SmallSeason season = with_eggs();
  season.add(15, records::Closure{"Invented break", day_number(40), day_number(44), {}});
  season.add(15, records::Closure{"Invented afternoon", day_number(36), {}, "12:30"});
  season.add(15, records::Duty{"Team Heron", day_number(40), day_number(44)});
  const Diary diary = diary_on(season, 20);
  const wire::Json wall = report::wall_json(diary, day_number(30), day_number(50));
  ASSERT_EQ(wall["days"].size(), 21u);
  const auto& closed = wall["days"][12];
  EXPECT_EQ(closed["day"], iso_from_date(day_number(42)));
  EXPECT_FALSE(closed["open"].get<bool>());
  EXPECT_EQ(closed["closed_name"], "Invented break");
  EXPECT_EQ(closed["on_duty"][0], "Team Heron");
  EXPECT_TRUE(closed["set_point_c"].is_number());
  EXPECT_EQ(wall["days"][6]["shut_from"], "12:30");
  EXPECT_TRUE(wall["days"][6]["closed_name"].is_null());
  bool hatching = false, likely = false, test = false;
  const wire::Json whole = report::wall_json(diary, diary.today, diary.last);
  for (const auto& day : whole["days"]) {
    for (const auto& window : day["windows"]) {
      hatching = hatching || window["kind"] == "hatch";
      likely = likely || window["likely"].get<bool>();
      EXPECT_LE(window["from"].get<std::string>(), day["day"].get<std::string>());
      EXPECT_GE(window["to"].get<std::string>(), day["day"].get<std::string>());
    }
    for (const auto& task : day["tasks"]) test = test || task["kind"] == "weekly_test";
  }
  EXPECT_TRUE(hatching);
  EXPECT_TRUE(likely);
  EXPECT_TRUE(test);
}

}  // namespace
}  // namespace redd::season
