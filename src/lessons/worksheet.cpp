#include "lessons/worksheet.h"

#include <array>

namespace redd::lessons {

Worksheet worksheet_of(const LessonData& data, Level level, int sheet) {
  constexpr std::array makers{warmest_task, degree_days_task, card_task, survival_task, water_change_task, teams_task, drops_task, days_task, ranges_task, predict_task};
  constexpr std::uint32_t purpose = 0x4C534E;  // of the random stream: its own among all uses of the season's seed
  Worksheet sheet_made{level, sheet};
  for (std::size_t i = 0; i < makers.size(); ++i) {
    // Each task draws from a stream of its own, so that one that is left out does not change the others.
    numerics::RandomStream chance(static_cast<std::uint64_t>(data.season.seed.value_or(1)), purpose, static_cast<std::uint32_t>(sheet),
                                  static_cast<std::uint32_t>(2 * i + (level == Level::older ? 1 : 0)));
    Made made = makers[i]({data, level, chance});
    if (made.task) sheet_made.tasks.push_back(std::move(*made.task));
    else sheet_made.left_out.push_back(std::move(made.why_not));
  }
  return sheet_made;
}

}  // namespace redd::lessons
