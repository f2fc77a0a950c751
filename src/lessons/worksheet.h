#pragma once
// Worksheets from the tank's own data, each with its answers. Start at worksheet_of().
// The given numbers are rounded first, as a class sees them, and the answers are worked out from those: what is on the sheet is all there is.

#include "lessons/graphs.h"
#include "numerics/random.h"

namespace redd::lessons {

/// Reading levels: ages 8 to 10, and 11 to 14.
enum class Level { younger, older };

struct TableRow {
  Shown label = Word{};
  Shown value = Word{};
};
struct Task {
  std::string key{};
  Sentence title{};
  Sentence text{};
  Sentence label_head{}, value_head{};   ///< heads of the table, when there is one
  std::vector<TableRow> rows{};
  int lines = 2;                         ///< to write on
  Sentence answer{};
  Sentence working{};                    ///< how to get there; may be empty
};
struct Worksheet {
  Level level = Level::younger;
  int sheet = 1;
  std::vector<Task> tasks{};
  std::vector<Sentence> left_out{};      ///< tasks the data do not suffice for, and what is missing
};

/// Highest number of a sheet.
inline constexpr int most_sheets = 999;

/// In      sheet: 1 to most_sheets; another number chooses other days and amounts where there is a choice.
/// Out     the same data and number give the same sheet.
Worksheet worksheet_of(const LessonData& data, Level level, int sheet);

/// A task, or why there is none.
struct Made {
  std::optional<Task> task{};
  Sentence why_not{};
};
/// The makers, one a task; all take the same things.
struct Making {
  const LessonData& data;
  Level level;
  numerics::RandomStream& chance;
  bool older() const { return level == Level::older; }
};
Made warmest_task(Making m);
Made degree_days_task(Making m);
Made card_task(Making m);
Made survival_task(Making m);
Made water_change_task(Making m);
Made teams_task(Making m);
Made drops_task(Making m);
Made days_task(Making m);
Made ranges_task(Making m);
Made predict_task(Making m);

}  // namespace redd::lessons
