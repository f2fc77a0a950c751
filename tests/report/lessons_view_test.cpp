#include "report/lessons_view.h"

#include <gtest/gtest.h>

#include "lessons/class_season.h"
#include "report/record_text.h"

namespace redd::report {
namespace {

using redd::testing::ClassSeason;
using redd::testing::on_day;

TEST(LessonsView, HidesGuessesAndTheModelWhileAQuestionIsOpen) {
  ClassSeason season(1);
  season.range(3, "k/kh/2031-01-07", "Team Otter", 4.125, 7.375);
  const std::string view = wire::printed(lessons_json(season.lessons(4)));
  EXPECT_NE(view.find("Team Otter"), std::string::npos);
  EXPECT_EQ(view.find("4.125"), std::string::npos);
  EXPECT_EQ(view.find("rests_on"), std::string::npos);
  const std::string history = history_json(season.log(), {}, 60, 0, on_day(4));
  EXPECT_EQ(history.find("4.125"), std::string::npos);
  EXPECT_EQ(history.find("7.375"), std::string::npos);
  season.quiet_tests(8);
  EXPECT_NE(wire::printed(lessons_json(season.lessons(8))).find("4.125"), std::string::npos);
}

TEST(LessonsView, TeamsBelowTheFirstStepAreNotCalledAlike) {
  ClassSeason season(1);
  for (const char* team : {"Team Otter", "Team Newt"}) {
    auto below = testing::SmallSeason::reading("ph", records::Reading::Form::below_first, {});
    below.team = team;
    season.add(3, below, 9);
  }
  season.team_step(4, "ph", 6.8, "Team Otter");
  season.team_step(4, "ph", 7.2, "Team Newt");
  const auto sittings = lessons_json(season.lessons(5))["replicates"]["sittings"];
  ASSERT_EQ(sittings.size(), 2U);
  EXPECT_TRUE(sittings[1]["says"][0].get<std::string>().starts_with("All below 6.4:")) << sittings[1]["says"];
  EXPECT_EQ(sittings[1]["says"].size(), 1U);
  EXPECT_TRUE(sittings[0]["says"][0].get<std::string>().starts_with("2 readings, from")) << sittings[0]["says"];
}

TEST(LessonsView, SaysThatFewQuestionsProveNothing) {
  ClassSeason season(1);
  season.range(3, "k/kh/2031-01-07", "Team Otter", 6, 6);
  season.quiet_tests(8);
  const auto game = lessons_json(season.lessons(8))["game"];
  EXPECT_NE(game["sentence"].get<std::string>().find("too few to say"), std::string::npos) << game["sentence"];
  EXPECT_EQ(game["settled"][0]["guesses"][0]["points_text"], "100");
  EXPECT_EQ(game["settled"][0]["outcome"]["text"], "6 drops");
  EXPECT_TRUE(game["settled"][0]["model"]["whole_text"].is_string());
}

TEST(LessonsView, TemperaturesAreAskedGuessedAndScoredInTheReadersDegrees) {
  ClassSeason season(8);  // read on days 3 and 10 at 8.0 and 8.1 °C
  const Reader us{.fahrenheit = true, .us_gallons = true};
  const std::string key = "temperature/2031-01-06";
  const auto of = [&](const wire::Json& list) {
    const auto found = std::ranges::find_if(list, [&](const wire::Json& q) { return q["key"] == key; });
    return found == list.end() ? wire::Json() : *found;
  };
  season.range(4, key, "Team Otter", 7, 8);
  const auto open = of(lessons_json(season.lessons(5), us)["game"]["open"]);
  EXPECT_EQ(open["unit"], "°F");
  EXPECT_TRUE(open["typed_in_f"].get<bool>());
  EXPECT_NE(open["costs_text"].get<std::string>().find("0.18 °F"), std::string::npos) << open["costs_text"];
  const auto settled = of(lessons_json(season.lessons(11), us)["game"]["settled"]), metric = of(lessons_json(season.lessons(11))["game"]["settled"]);
  EXPECT_EQ(settled["outcome"]["text"], "about 46.4 °F");
  EXPECT_EQ(settled["guesses"][0]["text"], "44.6–46.4 °F");
  EXPECT_EQ(settled["guesses"][0]["low"], 7.0) << "numbers are those of the log";
  EXPECT_EQ(settled["guesses"][0]["points"], metric["guesses"][0]["points"]) << "points do not hang on units";
  EXPECT_FALSE(metric["typed_in_f"].get<bool>());
  EXPECT_EQ(metric["unit"], "°C");
}

TEST(LessonsView, BeforeAnythingWasReadSaysSo) {
  const auto view = lessons_json(ClassSeason(-1).lessons(2));
  EXPECT_TRUE(view["game"]["sentence"].get<std::string>().starts_with("Nothing to guess yet"));
  EXPECT_TRUE(view["replicates"]["sittings"].empty());
  EXPECT_FALSE(view["sheets"]["younger"]["left_out"].empty());
}

TEST(LessonsText, NamesTheOpenQuestionsByKey) {
  const auto text = lessons_text(ClassSeason(1).lessons(3));
  EXPECT_NE(text.find("k/kh/2031-01-07 (a range, drops); 0 in"), std::string::npos) << text;
  EXPECT_NE(text.find("k/nitrate/2031-01-07 (10 chips on 6 steps); 0 in"), std::string::npos) << text;
}

TEST(WorksheetText, SheetAndAnswersCarryTheSameMark) {
  const auto look = ClassSeason(29).lessons(30, 3);
  const auto sheet = worksheet_text(look, lessons::Level::older, false), answers = worksheet_text(look, lessons::Level::older, true);
  const auto mark = [](const std::string& text) { return text.substr(text.find("mark "), 9); };
  EXPECT_EQ(mark(sheet), mark(answers));
  EXPECT_NE(sheet.find("____"), std::string::npos);
  EXPECT_EQ(answers.find("____"), std::string::npos);
}

}  // namespace
}  // namespace redd::report
