#pragma once
// A small invented season with a class that guesses: weekly sittings, temperatures, eggs, and guesses by invented teams.

#include "lessons/game.h"
#include "season/lessons_look.h"
#include "support/small_season.h"

namespace redd::testing {

class ClassSeason : public SmallSeason {
 public:
  /// Sittings on Tuesdays (day 1, 8, 15, …) until this day; nitrate creeps up by a step every second week.
  explicit ClassSeason(int until = 29) {
    for (int day = 1, week = 0; day <= until; day += 7, ++week) {
      quiet_tests(day);
      step(day, "nitrate", week < 2 ? 5 : week < 4 ? 10 : 20, 9);
      temperature(day + 2, 8.0 + 0.1 * week);
    }
  }
  RecordId chips(int day, const std::string& question, const char* team, std::vector<double> laid, int hour = 10) {
    return add(day, Guess{.question = question, .team = team, .chips = std::move(laid)}, hour);
  }
  RecordId range(int day, const std::string& question, const char* team, double low, double high, int hour = 10) {
    return add(day, Guess{.question = question, .team = team, .low = low, .high = high}, hour);
  }
  RecordId team_step(int day, const char* test, double value, const char* team) {
    Reading r = reading(test, Reading::Form::step, value);
    r.team = team;
    return add(day, r, 9);
  }
  RecordId team_drops(int day, const char* test, int count, const char* team) {
    Reading r = reading(test, Reading::Form::drops, count);
    r.team = team;
    return add(day, r, 9);
  }
  lessons::Game game(int day, int hour = 12) const { return lessons::game_of(log(), {}, on_day(day, hour)); }
  season::LessonsLook lessons(int day, int sheet = 1, bool us_units = false) const {
    auto look = season::look_at_lessons({}, log(), on_day(day, 12), sheet, us_units);
    require(look.has_value(), "ClassSeason", "the lessons do not look");
    return std::move(look).value();
  }
};

}  // namespace redd::testing
