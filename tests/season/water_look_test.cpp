#include "season/water_look.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/water_season.h"

namespace redd::season {
namespace {

using namespace redd::testing;

planning::FilterOutlook with_tanks(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  planning::FilterOutlook outlook;
  outlook.tanks = std::make_shared<const tank::Ensemble>(planning::water_case(made->asked()).tanks.tanks);
  return outlook;
}

std::optional<planning::WaterProgramme> programme_of(const SmallSeason& season, int day, const planning::FilterOutlook* filter) {
  const auto view = believed_day({}, season.log(), on_day(day, 12));
  return water_programme_of(*view, filter);
}

TEST(WaterProgrammeOf, WaitsForTheFiltersOutlook) {
  const auto season = ripe_season();
  const auto outlook = with_tanks(season, 56);
  EXPECT_FALSE(programme_of(season, 56, nullptr));
  const auto found = programme_of(season, 56, &outlook);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->from_posterior);
}

TEST(WaterProgrammeOf, IsNotWorkedOutWhereNoRuleWouldSpeakOfIt) {
  const auto season = ripe_season();
  const auto outlook = with_tanks(season, 56);
  EXPECT_FALSE(programme_of(season, 90, &outlook));  // nobody has tested for weeks
  SmallSeason empty;
  empty.quiet_tests(5);
  EXPECT_FALSE(programme_of(empty, 6, &outlook));    // nothing lives in it
}

TEST(LookAtWater, TheSameLogAndMomentGiveTheSameProgramme) {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  const auto once = look_at_water({}, season.log(), on_day(56, 12)), again = look_at_water({}, season.log(), on_day(56, 12));
  ASSERT_TRUE(once.has_value() && once->programme && again->programme);
  ASSERT_EQ(once->programme->programme.changes.size(), again->programme->programme.changes.size());
  EXPECT_EQ(once->programme->programme.forecast.broken_probability, again->programme->programme.forecast.broken_probability);
}

TEST(LookAtWater, NamesFirstWhatTodaysListAsks) {
  auto season = ripe_season();
  const auto begins = [](const WaterLook& look) { return !look.programme->cautions.empty() && look.programme->cautions.front().pattern.starts_with("Today's list asks for this first: Change"); };
  EXPECT_FALSE(begins(*look_at_water({}, season.log(), on_day(56, 12))));
  season.step(56, "nitrite", 0.8);
  EXPECT_TRUE(begins(*look_at_water({}, season.log(), on_day(56, 12))));
}

/// The change that today's list asks for, if it does.
const advice::Action* change_on_list(const DayView& day) {
  const auto found = std::ranges::find_if(day.advice.actions, [](const advice::Action& a) { return a.water_change.has_value(); });
  return found == day.advice.actions.end() ? nullptr : &*found;
}

/// Made seasons in which list and programme have had something different to say.
std::vector<std::pair<std::string, SmallSeason>> disputed() {
  std::vector<std::pair<std::string, SmallSeason>> all;
  const auto add = [&](const char* name, auto&& change) {
    auto season = ripe_season();
    change(season);
    all.emplace_back(name, std::move(season));
  };
  add("calm", [](SmallSeason&) {});
  add("nitrate", [](SmallSeason& s) { s.step(56, "nitrate", 20); });
  add("much nitrate", [](SmallSeason& s) { s.step(56, "nitrate", 40); });
  add("nitrite", [](SmallSeason& s) { s.step(56, "nitrite", 0.8); });
  add("ammonia", [](SmallSeason& s) { s.step(56, "ammonia", 0.8); });
  add("low KH and nitrate", [](SmallSeason& s) {
    s.drops(56, "kh", 2);
    s.step(56, "nitrate", 20);
  });
  add("rinsed filter and nitrate", [](SmallSeason& s) {
    s.add(56, records::FilterWork{records::FilterWork::Work::rinsed}, 10);
    s.step(56, "nitrate", 40);
  });
  return all;
}

TEST(OneVoice, TheProgrammeBeginsWithTheChangeThatTodaysListAsks) {
  for (const auto& [name, season] : disputed()) {
    const auto outlook = with_tanks(season, 56);
    const auto today = look_at_day({}, season.log(), on_day(56, 12), &outlook);
    const auto water = look_at_water({}, season.log(), on_day(56, 12), &outlook);
    ASSERT_TRUE(today.has_value() && water.has_value() && water->programme) << name;
    const auto& changes = water->programme->programme.changes;
    const auto* asked = change_on_list(*today);
    if (asked) {
      ASSERT_FALSE(changes.empty()) << name;
      EXPECT_DOUBLE_EQ(changes.front().fraction, asked->water_change->fraction) << name;
      EXPECT_EQ(changes.front().day, std::max(water->programme->today, local_day({}, asked->by))) << name;
    } else if (!changes.empty()) {
      EXPECT_GT(changes.front().day, water->programme->today + std::chrono::days(7)) << name;
    }
  }
}

TEST(OneVoice, WithoutTheOutlookTooTheListComesFirst) {
  for (const auto& [name, season] : disputed()) {
    const auto today = look_at_day({}, season.log(), on_day(56, 12));
    const auto water = look_at_water({}, season.log(), on_day(56, 12));
    ASSERT_TRUE(today.has_value() && water.has_value() && water->programme) << name;
    const auto* asked = change_on_list(*today);
    if (!asked) continue;
    ASSERT_FALSE(water->programme->programme.changes.empty()) << name;
    EXPECT_TRUE(water->programme->programme.changes.front().asked_today) << name;
    EXPECT_DOUBLE_EQ(water->programme->programme.changes.front().fraction, asked->water_change->fraction) << name;
  }
}

TEST(OneVoice, NoBigChangeOnTheDaysAfterFilterWork) {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  season.add(56, records::FilterWork{records::FilterWork::Work::rinsed}, 10);
  const auto outlook = with_tanks(season, 56);
  const auto water = look_at_water({}, season.log(), on_day(56, 12), &outlook);
  ASSERT_TRUE(water.has_value() && water->programme);
  for (const auto& change : water->programme->programme.changes)
    if (change.day < water->programme->today + std::chrono::days(3)) EXPECT_LT(change.fraction, 0.4);
}

TEST(OneVoice, AKitInDoubtIsInDoubtInBoth) {
  auto season = ripe_season();
  auto outlook = with_tanks(season, 56);
  const auto sure = look_at_day({}, season.log(), on_day(56, 12), &outlook);
  outlook.doubts.push_back({inference::FilterDoubt::suspect_kit, {"The test of pH seems off."}, sure->belief.find(inference::Quantity::ph)->records, inference::Quantity::ph, -1.0, "kit", "ph"});
  const auto doubted = look_at_day({}, season.log(), on_day(56, 12), &outlook);
  EXPECT_EQ(sure->advice.water.at(advice::WaterKey::ph).tone, advice::Tone::good);
  EXPECT_NE(doubted->advice.water.at(advice::WaterKey::ph).tone, advice::Tone::good);
  EXPECT_GT(doubted->advice.water.at(advice::WaterKey::un_ionized_ammonia).value->high, 3.0 * sure->advice.water.at(advice::WaterKey::un_ionized_ammonia).value->high);
  const auto before = look_at_water({}, season.log(), on_day(56, 12));
  const auto water = look_at_water({}, season.log(), on_day(56, 12), &outlook);
  const auto highest_ph = [](const WaterLook& look) { return look.programme->none.forecast.bands.front().ph.high; };
  EXPECT_GT(highest_ph(*water), highest_ph(*before) + 0.4);
  EXPECT_TRUE(std::ranges::any_of(water->programme->cautions, [](const Sentence& c) { return c.pattern.find("in doubt") != std::string::npos; }));
}

TEST(LookAtWater, WithoutASeasonSaysSo) { EXPECT_EQ(look_at_water({}, {}, on_day(3)).problems().front().code, "no_season"); }

}  // namespace
}  // namespace redd::season
