#include "report/what_if_view.h"

#include <gtest/gtest.h>

#include "report/detail/what_if_words.h"
#include "support/what_if_season.h"

namespace redd::report {
namespace {

using namespace redd::testing;

/// A chilled tank with eggs, all of it tested on day 56.
SmallSeason tested(int kh_drops = 6) {
  auto season = ripe_season();
  season.add(2, chilled_tank());
  season.step(56, "ammonia", 0);
  season.step(56, "ph", 6.8);
  season.drops(56, "kh", kh_drops);
  season.temperature(56, 8);
  return season;
}

season::WhatIfLook look_of(const SmallSeason& season) {
  auto look = season::look_at_what_if({}, season.log(), on_day(56, 12));
  require(look.has_value(), "what_if_view_test", "no look");
  return std::move(look).value();
}

/// Of an answer in which no limit is ever passed.
std::string_view best_tone(const SmallSeason& season) {
  planning::WhatIf told;
  for (auto& chance : told.summary.chances) chance.probability = 0.0;
  return what_if_tone(what_if_asked(look_of(season)), told);
}

TEST(WhatIfView, IsGoodOnSureReadings) {
  EXPECT_FALSE(what_if_asked(look_of(tested())).doubted);
  EXPECT_EQ(best_tone(tested()), "good");
}

TEST(WhatIfView, IsNeverGoodOnReadingsAtOdds) {
  const auto season = tested(40);  // 20 German degrees: at this pH more CO2 than any aired tank holds
  EXPECT_TRUE(what_if_asked(look_of(season)).doubted);
  EXPECT_EQ(best_tone(season), "unknown");
  EXPECT_NE(what_if_base_json(look_of(season))["cautions"].dump().find("Readings are in doubt"), std::string::npos);
}

TEST(WhatIfView, IsNeverGoodOnContraryReplicates) {
  for (const auto& [test, value] : {std::pair("ph", 8.4), std::pair("ammonia", 3.2)}) {
    auto season = tested();
    season.step(56, test, value);
    EXPECT_TRUE(what_if_asked(look_of(season)).doubted) << test;
    EXPECT_EQ(best_tone(season), "unknown") << test;
  }
}

TEST(WhatIfView, IsNeverGoodWhileTheChillerIsOff) {
  auto season = tested();
  season.add(56, EquipmentEvent{EquipmentEvent::Equipment::chiller, EquipmentEvent::Event::failed});
  EXPECT_FALSE(what_if_asked(look_of(season)).doubted);
  EXPECT_EQ(best_tone(season), "unknown");
}

}  // namespace
}  // namespace redd::report
