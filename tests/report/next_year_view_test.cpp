#include "report/next_year_view.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::report {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;

season::NextYear next_year() {
  SmallSeason s;
  s.eggs(8);
  s.step(8, "nitrite", 0);
  for (int day = 8; day <= 40; ++day) s.temperature(day, 8);
  return season::look_at_next_year({}, s.log(), on_day(40, 12)).value();
}

TEST(NextYearView, SaysEachLessonWithItsVerdict) {
  const auto view = next_year_json(next_year());
  EXPECT_EQ(view["sentence"].get<std::string>().substr(0, 7), "1 thing");
  ASSERT_EQ(view["lessons"].size(), 7u);
  for (const auto& lesson : view["lessons"]) {
    EXPECT_FALSE(lesson["title"].get<std::string>().empty());
    EXPECT_FALSE(lesson["found"].get<std::string>().empty()) << lesson;
    EXPECT_EQ(lesson["verdict"] == "better", lesson["verdict_text"] == "To do better");
    if (lesson["verdict"] == "better") EXPECT_FALSE(lesson["advice"].get<std::string>().empty()) << lesson;
  }
}

TEST(NextYearView, AsTextNamesQuestionAndVerdict) {
  const std::string text = next_year_text(next_year());
  EXPECT_NE(text.find("Was the water tested often enough? To do better.\n"), std::string::npos) << text;
  EXPECT_NE(text.find("Was the temperature known? Keep it so.\n"), std::string::npos) << text;
}

TEST(NextYearView, SpeaksSpanish) {
  Reader reader;
  reader.language = Language::es;
  EXPECT_NE(next_year_text(next_year(), reader).find("Por mejorar"), std::string::npos);
}

}  // namespace
}  // namespace redd::report
