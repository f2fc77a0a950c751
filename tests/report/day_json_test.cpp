#include "report/day_json.h"

#include <gtest/gtest.h>

#include "report/day_text.h"
#include "report/record_text.h"
#include "support/small_season.h"
#include "wire/json.h"

namespace redd::report {
namespace {

using redd::testing::SmallSeason;

wire::Json json_of(const season::DayView& day) {
  auto json = wire::parsed(day_json(day));
  require(json.has_value(), "json_of", "the day is not JSON");
  return std::move(json).value();
}

SmallSeason busy() {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 380);
  season.quiet_tests(14);
  season.step(15, "nitrite", 0.4);
  season.add(15, SmallSeason::reading("ammonia", records::Reading::Form::above_last, {}));
  return season;
}

TEST(DayJson, HoldsEveryPartOfTheContract) {
  const auto day = json_of(busy().look(16));
  for (const char* key : {"season", "now", "today", "today_text", "headline", "stage", "actions", "water", "milestones", "season_line", "gaps", "put_aside"})
    EXPECT_TRUE(day.contains(key)) << key;
  EXPECT_EQ(day["water"].size(), 9U);
  EXPECT_EQ(day["milestones"].size(), 3U);
}

TEST(DayJson, AnOpenReadingHasNoUpperNumber) {
  const auto day = json_of(busy().look(16));
  for (const auto& water : day["water"])
    if (water["key"] == "total_ammonia") {
      EXPECT_TRUE(water["latest"]["high"].is_null());
      EXPECT_TRUE(water["latest"]["text"].get<std::string>().starts_with("at least"));
    }
}

TEST(DayJson, NamesOnlyRecordsThatExist) {
  const auto season = busy();
  const auto day = json_of(season.look(16));
  for (const auto& action : day["actions"])
    for (const auto& reason : action["because"])
      for (const auto& id : reason["record_ids"]) EXPECT_LE(id.get<std::size_t>(), season.log().size());
}

TEST(DayJson, ActionsCarryWhatTheyAreForAndWhatBecameOfThem) {
  auto season = busy();
  const auto before = json_of(season.look(16));
  const auto& first = before["actions"][0];
  EXPECT_EQ(first["aim"], "animals");
  EXPECT_FALSE(first["deeds"].empty());
  EXPECT_NE(first["benefit"], "");
  EXPECT_TRUE(first["answer"].is_null());
  EXPECT_TRUE(first["shown"].get<bool>());
  EXPECT_TRUE(before["put_aside"].empty());
  for (const auto& action : before["actions"])
    season.add(16, records::AdviceAnswer{records::AdviceAnswer::Answer::skipped, action["key"].get<std::string>(), {}, "Out of time"}, 10);
  const auto after = json_of(season.look(16));
  ASSERT_FALSE(after["actions"].empty()) << "an alarm stays";
  EXPECT_EQ(after["actions"][0]["answer"]["answer"], "skipped");
  EXPECT_NE(after["actions"][0]["answer"]["text"].get<std::string>().find("risk stays"), std::string::npos);
  EXPECT_EQ(after["headline"]["tone"], "alarm");
  for (const auto& aside : after["put_aside"]) EXPECT_FALSE(aside["answer"]["back"].is_null());
}

TEST(DayText, ShowsFiveAndTheRestOnRequest) {
  auto season = busy();
  season.drops(16, "kh", 1);
  season.drops(16, "oxygen", 10);
  season.temperature(16, 17);
  season.add(16, records::EquipmentEvent{records::EquipmentEvent::Equipment::pump, records::EquipmentEvent::Event::failed, {}});
  season.add(16, records::Count{records::Count::What::dead_eggs, 60});
  const auto day = season.look(16);
  ASSERT_GT(day.advice.actions.size(), 5u);
  const std::string some = day_text(day), all = day_text(day, {}, 80, true);
  EXPECT_NE(some.find("5. ["), std::string::npos);
  EXPECT_EQ(some.find("6. ["), std::string::npos);
  EXPECT_NE(some.find("redd today --all"), std::string::npos);
  EXPECT_NE(all.find("6. ["), std::string::npos);
  EXPECT_NE(some.find("gains: "), std::string::npos);
  EXPECT_NE(some.find("key: "), std::string::npos);
}

TEST(DayText, LeadsWithTheHeadlineAndFitsItsWidth) {
  const std::string text = day_text(busy().look(16), {}, 60);
  EXPECT_NE(text.find("Act now"), std::string::npos);
  EXPECT_NE(text.find("What to do"), std::string::npos);
}

TEST(RecordText, SpeaksTheCardsOwnWords) {
  const auto season = busy();
  const auto& log = season.log();
  EXPECT_EQ(record_text(log[3].entry.body, log, {}), "8.0 °C in the tank");
  auto between = SmallSeason::reading("nitrite", records::Reading::Form::between, 0.05);
  between.upper_value = 0.1;
  EXPECT_EQ(record_text(between, log, {}), "Nitrite: between 0.05 and 0.1 mg/L as N");
}

TEST(RecordText, AGuessNamesWhatIsGuessedAndTheKitOnlyWhereThereAreSeveral) {
  auto season = busy();
  const auto& kit = *records::find_kit(season.log(), "k");
  records::Guess guess;
  guess.team = "Team Newt";
  guess.question = "k/nitrite/2031-02-14";
  EXPECT_EQ(record_text(guess, season.log(), {}), "Team Newt on nitrite");
  records::Kit other = kit;
  other.key = "hill";
  other.name = "Hill kit";
  season.add(16, other);
  guess.question = "hill/nitrite/2031-02-14";
  EXPECT_EQ(record_text(guess, season.log(), {}), "Team Newt on nitrite (Hill kit)");
  guess.question = "temperature/2031-02-14";
  EXPECT_EQ(record_text(guess, season.log(), {}), "Team Newt on temperature");
}

TEST(HistoryJson, IsNewestFirstAndTellsWhatBecameOfEach) {
  auto season = busy();
  season.add(16, records::Undo{5});
  const auto history = *wire::parsed(history_json(season.log(), {}, 3, 0, redd::testing::on_day(20)));
  EXPECT_EQ(history["records"].size(), 3U);
  EXPECT_TRUE(history["more"].get<bool>());
  EXPECT_EQ(history["records"][0]["kind"], "undo");
  const auto all = *wire::parsed(history_json(season.log(), {}, 500, 0, redd::testing::on_day(20)));
  for (const auto& row : all["records"])
    if (row["id"] == 5) EXPECT_EQ(row["status"], "undone");
}

}  // namespace
}  // namespace redd::report
