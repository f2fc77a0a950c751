#pragma once
// What a class can learn from the tank, as it looked at a moment: the guessing game, readings by team, graphs, worksheets.

#include "lessons/game.h"
#include "lessons/worksheet.h"
#include "season/season.h"

namespace redd::season {

struct LessonsLook {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  lessons::Game game{};
  lessons::Replicates replicates{};
  std::vector<lessons::Graph> graphs{};
  lessons::Worksheet younger{}, older{};
};

/// In      records: all of the log, in order of id. sheet: 1 to lessons::most_sheets, the number of the worksheets. us_units: °F and gallons on graphs
///         and sheets, whose answers follow from the digits that are shown.
/// Out     the same records, moment and number always give the same lessons.
/// Shape   some milliseconds beyond the belief.
/// Errors  as look_at_day().
Result<LessonsLook> look_at_lessons(const Setup& setup, std::span<const records::Record> records, Instant now, int sheet = 1, bool us_units = false);

/// What keeps a guess from counting at that moment; empty when it counts.
/// Errors  as look_at_day().
Problems problems_of_guess(const Setup& setup, std::span<const records::Record> records, const records::Guess& guess, Instant now);
/// The same of an entry about to be added; none when it is no guess, or one sent again that is in the log already.
Problems problems_of_guess(const Setup& setup, std::span<const records::Record> records, const records::Entry& entry, Instant now);

}  // namespace redd::season
