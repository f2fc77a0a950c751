#include "emergency/emergency.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "chemistry/toxicants.h"
#include "report/emergency_text.h"
#include "support/made_case.h"

namespace redd::emergency {
namespace {

using inference::Animals;
using redd::testing::cases_of_all_lives;
using redd::testing::made_case;
using redd::testing::MadeCase;
using redd::testing::on_day;
using redd::testing::SmallSeason;

constexpr std::array keys{"power_cut", "socket_tripped", "chiller_failed", "chlorine_added", "chiller_stuck_on", "heater_stuck", "gas_supersaturated", "sudden_deaths", "lid_off"};

/// A season with 200 eggs, `day` days on: eggs, alevins or fry.
SmallSeason season_with(int eggs_at_thermal_sum, double water_c = 10.0) {
  SmallSeason season;
  for (int day = 1; day < 20; ++day) season.temperature(day, water_c);
  season.eggs(10, eggs_at_thermal_sum);
  return season;
}
season::EmergencyLook look(const SmallSeason& season, int day = 19) {
  auto found = season::look_at_emergencies({}, season.log(), on_day(day, 12));
  require(found.has_value(), "look", "no season");
  return std::move(found).value();
}
const Emergency& one(const std::vector<Emergency>& all, std::string_view key) { return *std::ranges::find(all, key, &Emergency::key); }
bool says(const std::vector<Sentence>& sentences, std::string_view part) {
  return std::ranges::any_of(sentences, [&](const Sentence& s) { return s.pattern.find(part) != std::string::npos; });
}
void add(MadeCase& made, records::Body body, double hours_ago) {
  records::Record record;
  record.id = 900 + static_cast<records::RecordId>(made.records.size());
  record.entry.at = made.now - std::chrono::minutes(static_cast<int>(60.0 * hours_ago));
  record.entry.body = std::move(body);
  made.records.push_back(std::move(record));
}

TEST(Emergencies, EveryKindHelpsAtEveryLife) {
  for (const MadeCase& made : cases_of_all_lives()) {
    const auto all = emergencies(made.at());
    ASSERT_EQ(all.size(), keys.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Emergency& e = all[i];
      const std::string where = e.key + " with " + animals_word(made.at());
      EXPECT_EQ(e.key, keys[i]);
      EXPECT_GE(e.steps.size(), 3u) << where;
      EXPECT_FALSE(e.measure.empty()) << where;
      EXPECT_FALSE(e.call.empty()) << where;
      EXPECT_FALSE(e.sources.empty()) << where;
      EXPECT_FALSE(e.hold.empty()) << where;
      EXPECT_FALSE(e.now) << where;
      EXPECT_TRUE(says(e.cautions, "pull the plug")) << where;  // every one of them ends with hands near mains and water
      for (const HoldTime& hold : e.hold) {
        EXPECT_FALSE(hold.what.empty() || hold.basis.empty()) << where;
        if (!hold.span) continue;
        const auto hours = [](const std::optional<Hours>& h) { return h ? h->count() : 1e12; };
        EXPECT_TRUE(hold.span->soonest) << where;
        EXPECT_LE(hours(hold.span->soonest), hours(hold.span->likely)) << where;
        EXPECT_LE(hours(hold.span->likely), hours(hold.span->latest)) << where;
      }
    }
  }
}

TEST(Emergencies, ChemicalsAreForAdultsAndGeneratorsForOutdoors) {
  for (const MadeCase& made : cases_of_all_lives()) {
    const auto all = emergencies(made.at());
    EXPECT_TRUE(says(one(all, "chlorine_added").cautions, "gloves and eye protection"));
    EXPECT_TRUE(says(one(all, "power_cut").cautions, "No generator indoors"));
    EXPECT_TRUE(says(one(all, "socket_tripped").call, "licensed electrician"));
    EXPECT_TRUE(says(one(all, "sudden_deaths").call, "veterinarian"));
  }
}

// Worst bug: a calm answer where nothing is known.
TEST(Emergencies, WhatIsNotKnownIsSaidToBe) {
  SmallSeason bare;
  bare.eggs(1);
  const auto now = look(bare, 2);
  for (const char* key : {"chiller_stuck_on", "heater_stuck", "chlorine_added"}) {
    const HoldTime& hold = one(now.kinds, key).hold.front();
    EXPECT_FALSE(hold.span) << key;
    EXPECT_FALSE(hold.basis.empty()) << key;
  }
  const HoldTime& warming = one(now.kinds, "chiller_failed").hold.front();
  ASSERT_TRUE(warming.span);
  EXPECT_NE(warming.basis.pattern.find("Nobody has read the water's temperature"), std::string::npos);
}

TEST(Emergencies, AreThereBeforeTheEggsToo) {
  const auto now = look(SmallSeason(), 3);
  EXPECT_FALSE(now.animals_in_tank);
  EXPECT_EQ(now.animals, "eggs");
  EXPECT_EQ(now.kinds.size(), keys.size());
  for (const Emergency& e : now.kinds) EXPECT_FALSE(says(e.steps, "basket")) << e.key;
}

TEST(Emergencies, WhatTheLogSaysIsHappeningComesFirst) {
  using Event = records::EquipmentEvent::Event;
  SmallSeason season = season_with(250);
  season.add(18, records::EquipmentEvent{Equipment::chiller, Event::failed, {}});
  auto now = look(season);
  EXPECT_EQ(now.kinds.front().key, "chiller_failed");
  EXPECT_TRUE(now.kinds.front().now);
  season.add(18, records::EquipmentEvent{Equipment::air, Event::failed, {}}, 9);
  EXPECT_EQ(look(season).kinds.front().key, "socket_tripped");
  season.add(19, records::EquipmentEvent{Equipment::power, Event::failed, {}}, 9);
  now = look(season);
  EXPECT_EQ(now.kinds.front().key, "power_cut");
  EXPECT_FALSE(one(now.kinds, "socket_tripped").now);
}

TEST(Emergencies, ByNameInEitherSpellingAndOtherwiseWithTheNamesThereAre) {
  const auto now = look(season_with(250));
  EXPECT_TRUE(emergency(now.kinds, "power-cut"));
  EXPECT_TRUE(emergency(now.kinds, "power_cut"));
  const auto none = emergency(now.kinds, "fire");
  ASSERT_FALSE(none);
  EXPECT_NE(none.problems().front().sentence.find("socket-tripped"), std::string::npos);
}

TEST(StuckOn, IsSeenInTheLogOnlyWhereNothingElseCoolsTheWater) {
  const auto stuck = [](double set_c, double water_c, double room_c, double set_hours_ago) {
    auto made = made_case(Animals::alevin, 200, water_c, 200, 20.0, room_c);
    made.heat.water_measured = true;
    made.heat.model.set_point_logged = true;
    made.heat.model.set_point = Temperature::from_c(set_c);
    add(made, records::SetPoint{Temperature::from_c(set_c)}, set_hours_ago);
    return one(emergencies(made.at()), "chiller_stuck_on").now;
  };
  EXPECT_TRUE(stuck(8, 5, 20, 48));
  EXPECT_FALSE(stuck(8, 7, 20, 48));   // inside what a controller swings
  EXPECT_FALSE(stuck(8, 5, 20, 2));    // set higher only just now: the water is on its way
  EXPECT_FALSE(stuck(8, 5, 6, 48));    // a cold room may have done it
}

TEST(Chlorine, DosesOnlyWhatIsKnown) {
  auto made = made_case(Animals::fry, 200, 8, 200, -10.0);
  const auto first = [&] { return one(emergencies(made.at()), "chlorine_added").steps.front(); };
  EXPECT_TRUE(first().values.empty());  // by the label
  records::SourceWater tap;
  tap.key = "tap", tap.chlorine_mg_per_l = 1.0;
  made.belief.source = tap;
  ASSERT_EQ(first().values.size(), 3u);  // for every ten litres
  EXPECT_NEAR(std::get<Mass>(first().values[0]).g(), 0.070, 0.001);
  add(made, tap, 100);
  add(made, records::WaterChange{.volume = Volume::from_l(40)}, 1);
  EXPECT_NEAR(std::get<Mass>(first().values[0]).g(), 0.280, 0.004);
  inference::QuantityBelief read;
  read.value = {0.05, 0.1, 0.2};
  read.age_days = 0.1;
  made.belief.water[records::Quantity::chlorine] = read;
  EXPECT_NEAR(std::get<Mass>(first().values[0]).g(), 0.280, 0.004);  // 200 L at the reading's high end
  EXPECT_TRUE(one(emergencies(made.at()), "chlorine_added").now);
}

TEST(Chlorine, MoreOfItNeverLeavesMoreTime) {
  double before = 1e12;
  for (const double chlorine : {0.1, 0.5, 1.0, 2.0, 4.0}) {
    auto made = made_case(Animals::fry, 200, 8, 200, -10.0);
    records::SourceWater tap;
    tap.key = "tap", tap.chlorine_mg_per_l = chlorine;
    made.belief.source = tap;
    add(made, tap, 100);
    add(made, records::WaterChange{.volume = Volume::from_l(40)}, 1);
    const auto span = one(emergencies(made.at()), "chlorine_added").hold.front().span;
    ASSERT_TRUE(span);
    EXPECT_LE(span->latest->count(), before);
    before = span->latest->count();
    EXPECT_EQ(span->soonest->count(), 0.0);
  }
}

TEST(Gas, ColderNewWaterAndMoreOfItNeverLeaveMoreTime) {
  const auto soonest = [](double source_c, double litres) {
    auto made = made_case(Animals::fry, 200, 12, 200, -10.0);
    add(made, records::WaterChange{.volume = Volume::from_l(litres), .new_water = Temperature::from_c(source_c)}, 1);
    const auto span = one(emergencies(made.at()), "gas_supersaturated").hold.front().span;
    return span ? span->soonest->count() : 1e12;
  };
  EXPECT_LT(soonest(2, 200), soonest(5, 200));
  EXPECT_LT(soonest(2, 200), soonest(2, 120));
  EXPECT_EQ(soonest(12, 200), 1e12);
  EXPECT_EQ(soonest(2, 20), 1e12);
}

TEST(Deaths, AreAnEmergencyByTheDayAndTheNumber) {
  auto made = made_case(Animals::fry, 200, 8, 200, -10.0);
  const auto now = [&] { return one(emergencies(made.at()), "sudden_deaths").now; };
  add(made, records::Count{records::Count::What::dead_fry, 50, records::Count::How::counted}, 72);
  add(made, records::Count{records::Count::What::dead_fry, 4, records::Count::How::counted}, 3);
  EXPECT_FALSE(now());
  add(made, records::Count{records::Count::What::dead_fry, 1, records::Count::How::counted}, 1);
  EXPECT_TRUE(now());
}

TEST(EmergencyCard, FitsOnOnePageAndNamesNobody) {
  for (const int thermal_sum : {60, 250, 600, 1200}) {
    const std::string card = report::emergency_card(look(season_with(thermal_sum)));
    EXPECT_LE(std::ranges::count(card, '\n'), 75);  // A4 or letter at a small size
    EXPECT_NE(card.find("____"), std::string::npos);
    EXPECT_NE(card.find("never bypass"), std::string::npos);
    for (const char* name : {"Power cut", "Chiller failed", "Lid off"}) EXPECT_NE(card.find(name), std::string::npos);
  }
}

TEST(EmergencyText, CarriesEverySectionAndJsonTheSameWords) {
  const auto now = look(season_with(600));
  const std::string text = report::emergency_text(one(now.kinds, "power_cut"));
  for (const char* title : {"\nDo\n", "\nMind\n", "\nHow long it holds\n", "\nMeasure next\n", "\nCall\n", "\nRests on\n"}) EXPECT_NE(text.find(title), std::string::npos) << title;
  EXPECT_EQ(text.find('{'), std::string::npos);
  const auto json = report::emergencies_json(now);
  EXPECT_EQ(json["kinds"].size(), keys.size());
  EXPECT_EQ(json["kinds"][0]["steps"].size(), now.kinds[0].steps.size());
}

}  // namespace
}  // namespace redd::emergency
