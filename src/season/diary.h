#pragma once
// The season ahead as a diary: what is to be set, done or expected on which days. The calendar file and the wall calendar show the same
// entries, so they cannot disagree. Start at diary_of(), then day_of_diary().

#include <optional>
#include <string>
#include <vector>

#include "advice/advise.h"
#include "planning/temperature_plan.h"
#include "records/school_calendar.h"

namespace redd::season {

enum class DiaryKind { set_point, chill, eggs, hatch, swim_up, release_size, release_window, weekly_test, duty, early_closing, closure };

/// Stable word of a kind: "set_point", …
std::string_view word_of(DiaryKind kind);
/// Something to do on its first day, and not only to know or to expect.
bool is_task(DiaryKind kind);

struct DiaryEntry {
  DiaryKind kind = DiaryKind::set_point;
  std::string key{};       ///< within the season; an entry that is only moved or reworded keeps it: "hatch", "weekly_test 2031-01-20" (a Monday)
  Date first{}, last{};    ///< both included
  std::optional<Date> likely_first{}, likely_last{};  ///< of a window: the days with one chance in two
  Sentence title{};
  Sentence text{};
};

struct DaySetPoint {
  Date day{};
  Temperature water;
};

struct Diary {
  Instant now{};
  records::SeasonSetup season{};
  records::SchoolCalendar calendar{};
  records::RecordId newest = 0;             ///< newest record it rests on: grows with the log
  Date today{};
  Date last{};                              ///< last day it looks at
  std::vector<DaySetPoint> set_points{};    ///< in order of day, from the first that can still be planned; with gaps where nothing is planned
  std::vector<DiaryEntry> entries{};        ///< in order of first day, then of kind
  std::vector<Sentence> without_plan{};     ///< why set-points are missing; empty when none are
};

/// What a diary is made of besides the plan.
struct DiaryCase {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  records::SchoolCalendar calendar{};
  records::RecordId newest = 0;
  bool eggs_to_come = false;
  bool released = false;
  std::vector<advice::TestDay> test_days{}; ///< in order; later ones than the diary's last day are left out
  Date last{};                              ///< last day to look at when there is no plan
};

/// In      plan: nullptr, or without a best plan: then the diary holds the school's days, tests and the permit, and without_plan says why.
///         why_none: as text, when plan is nullptr.
Diary diary_of(const DiaryCase& known, const planning::TemperaturePlan* plan, const Phrase& why_none = {});

/// Changes a keeper is told of: without the first day's step from a thermometer's reading to the nearest set-point.
std::vector<planning::SetPointChange> changes_worth_a_word(const planning::SeasonPlan& plan);

/// One day of a wall calendar.
struct DiaryDay {
  Date day{};
  bool open = true;
  std::string closed_name{};                ///< of the closure; empty on an open day and on an ordinary weekend
  std::optional<std::chrono::minutes> shut_from{};
  std::vector<std::string> on_duty{};
  std::optional<Temperature> set_point{};
  std::vector<const DiaryEntry*> tasks{};   ///< to do on this day; of the diary, which must outlive it
  std::vector<const DiaryEntry*> windows{}; ///< stages, and the permit's window, that cover this day
};

/// Errors  none; a day the diary does not look at has the school's side alone.
DiaryDay day_of_diary(const Diary& diary, Date day);

}  // namespace redd::season
