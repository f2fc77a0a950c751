#pragma once
// The whole season in one look, for the report a school hands on: what came, died and left, how warm it was, what the water read, what was foretold and
// what came of it, who kept it. Start at look_at_report().

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "inference/counts.h"
#include "season/season.h"

namespace redd::season {

/// Dead taken out on one day, of one kind.
struct LossOnDay {
  Date day{};
  records::Count::What what = records::Count::What::dead_eggs;
  int count = 0;
  bool all_counted = true;  ///< false: at least one was estimated
};

/// The tank in one month, of the days somebody measured.
struct MonthOfWater {
  Date first{};                  ///< first day of the month
  int days = 0, measured = 0;    ///< days of the season in it until today, and those with a reading
  std::optional<Estimate<Temperature>> mean{};  ///< coldest, mean and warmest of the daily means; nothing without a measured day
};

/// A stage as it was foretold on the day the eggs were written down, beside what was seen.
struct Foretold {
  enum class Fit { not_seen, inside, earlier, later, not_foretold };
  biology::Stage stage = biology::Stage::hatch;
  std::optional<Date> foretold_on{};                     ///< the day of the forecast; nothing when it was seen before eggs were written down
  std::optional<biology::MomentWindow> window{};         ///< of half of the animals
  std::optional<Date> seen{};
  Fit fit = Fit::not_seen;                               ///< of what was seen against the window of nine in ten
};

/// One quantity before the eggs, or while animals were in the tank (a ripening filter reads high and harms nobody). Values in the program's own unit.
struct WaterOverSeason {
  bool with_animals = false;     ///< from the first eggs to the last release
  records::Quantity quantity = records::Quantity::ph;
  int sittings = 0;
  Date first{}, last{};
  inference::SeriesPoint lowest{}, highest{};            ///< by the middle of the pooled sitting
};

struct Keeper {
  std::string label{};
  int entries = 0;
  int duty_days = 0;
};

struct Work {
  int tests = 0, temperatures = 0, changes = 0, top_ups = 0, counts = 0, feedings = 0, notes = 0;
  Volume changed = Volume::from_l(0);
};

struct ReportLook {
  DayView day{};                               ///< believed, without advice
  inference::Counts counts{};
  std::vector<LossOnDay> losses{};             ///< oldest first; days with none are left out
  std::vector<MonthOfWater> months{};
  std::vector<WaterOverSeason> water{};
  std::vector<Foretold> foretold{};            ///< eyed, hatch, swim-up; empty before eggs came
  std::vector<records::Record> releases{}, incidents{};  ///< oldest first; incidents: equipment that failed, stopped or came back
  std::vector<Keeper> keepers{};               ///< most entries first
  Work work{};
  int mended = 0;                              ///< entries that no longer count: corrected or taken back
};

/// In      as look_at_day().
/// Out     the forecast is the one that could be made with what was written down by the moment the first eggs were; nothing later leaks into it.
/// Shape   two beliefs: some milliseconds.
/// Errors  as look_at_day().
Result<ReportLook> look_at_report(const Setup& setup, std::span<const records::Record> records, Instant now);

}  // namespace redd::season
