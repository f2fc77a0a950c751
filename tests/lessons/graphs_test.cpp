#include "lessons/graphs.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "lessons/class_season.h"
#include "report/numbers.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;

std::string text(const Sentence& s) { return report::text_of(s, {}); }

TEST(Graphs, SayWhatIsMissingInsteadOfInventing) {
  const ClassSeason empty(-1);
  const auto look = empty.lessons(3);
  ASSERT_EQ(look.graphs.size(), 4u);
  for (const auto& g : look.graphs) {
    EXPECT_TRUE(g.questions.empty()) << g.key;
    EXPECT_TRUE(g.lines.empty() && g.marks.empty()) << g.key;
    EXPECT_TRUE(text(g.summary).starts_with("Nothing to ")) << g.key;
  }
}

TEST(Graphs, AnswerFromWhatIsDrawn) {
  ClassSeason season(29);
  season.temperature(30, 9.4);
  season.temperature(31, 6.5);
  season.eggs(20);
  season.add(25, records::Count{records::Count::What::dead_eggs, 6});
  season.add(27, records::Count{records::Count::What::dead_eggs, 2});
  const auto look = season.lessons(31);
  const auto& temperature = look.graphs[0];
  EXPECT_TRUE(text(temperature.questions[0].answer).starts_with("Warmest on Wednesday 5 February 2031 (9.4 °C)")) << text(temperature.questions[0].answer);
  double sum = 0;
  for (std::size_t i = temperature.marks.size() - 7; i < temperature.marks.size(); ++i) sum += temperature.marks[i].mid;
  EXPECT_TRUE(text(temperature.questions[1].answer).starts_with(report::decimals(sum, 1) + " degree-days")) << text(temperature.questions[1].answer);
  const auto& survival = look.graphs[2];
  EXPECT_EQ(text(survival.questions[0].answer), "200 - 8 = 192; 192 / 200 = 96.0 %.");
  EXPECT_TRUE(text(survival.questions[1].answer).starts_with("Friday 31 January 2031: 6")) << text(survival.questions[1].answer);
  for (const auto& g : look.graphs) EXPECT_GE(g.questions.size(), 3u) << g.key;
}

TEST(Graphs, RangesThatShareNothingAreSaidToDiffer) {
  ClassSeason season(-1);
  season.step(1, "nitrate", 5);
  season.step(8, "nitrate", 40);
  EXPECT_TRUE(text(season.lessons(8).graphs[3].questions[0].answer).starts_with("No:"));
  ClassSeason close(-1);
  close.step(1, "nitrate", 5);
  close.step(8, "nitrate", 10);
  EXPECT_TRUE(text(close.lessons(8).graphs[3].questions[0].answer).starts_with("Yes:"));
}

TEST(Graphs, AskNoFallOfAmmoniaFromOrToAboveTheCardsLastStep) {
  const auto fall_asked = [](int day_above) {
    ClassSeason season(15);
    season.add(day_above, ClassSeason::reading("ammonia", records::Reading::Form::above_last, std::nullopt));
    const auto graph = season.lessons(30).graphs[1];
    EXPECT_EQ(graph.lines.size(), 3u);
    return std::ranges::any_of(graph.questions, [](const GraphQuestion& q) { return q.kind == GraphQuestion::Kind::check; });
  };
  EXPECT_FALSE(fall_asked(4));   // the peak
  EXPECT_FALSE(fall_asked(22));  // the newest too
  ClassSeason inside(15);
  inside.step(4, "ammonia", 1.6);
  EXPECT_TRUE(std::ranges::any_of(inside.lessons(30).graphs[1].questions, [](const GraphQuestion& q) { return q.kind == GraphQuestion::Kind::check; }));
}

TEST(Graphs, RangesAreOfNitrateUnlessAnotherWasTestedFarMoreOften) {
  ClassSeason season(-1);
  season.step(1, "nitrate", 5);
  season.step(8, "nitrate", 10);
  for (int day = 1; day <= 29; day += 7) season.step(day, "nitrite", 0.1);
  for (int day = 1; day <= 22; day += 7) season.step(day, "ammonia", 0.2);
  EXPECT_TRUE(text(season.lessons(22).graphs[3].summary).starts_with("The last sittings of nitrate")) << text(season.lessons(22).graphs[3].summary);
  EXPECT_TRUE(text(season.lessons(29).graphs[3].summary).starts_with("The last sittings of nitrite")) << text(season.lessons(29).graphs[3].summary);
}

}  // namespace
}  // namespace redd::lessons
