#pragma once
// The whole path in one function: from the log to what a keeper is told. Read look_at_day() first; everything else hangs on it.

#include <span>
#include <vector>

#include "advice/advise.h"
#include "emergency/emergency.h"
#include "inference/belief.h"
#include "planning/filter_outlook.h"
#include "planning/heat_view.h"
#include "planning/temperature_plan.h"
#include "records/record.h"
#include "season/diary.h"

namespace redd::season {

/// What the log itself does not hold.
struct Setup {
  ZoneOffsets zone{};  ///< the season's time zone, resolved at the rim
};

/// How far somebody has come with the filter's outlook, when it is not in the view.
struct FilterProgress {
  enum class State { none, working, cancelled, failed };
  State state = State::none;
  double done_fraction = 0;
};

/// Everything a renderer may show. Page, report and command line see only this, so they can't disagree.
struct DayView {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  std::vector<records::Record> records{};  ///< effective: what counted and was known by now
  inference::Belief belief{};
  std::optional<planning::FilterOutlook> filter{};  ///< when it was at hand
  FilterProgress filter_progress{};
  advice::Advice advice{};
};

/// The day up to what is believed of it; filter and advice are left empty. What the other looks begin with.
///
/// In, errors  as look_at_day().
Result<DayView> believed_day(const Setup& setup, std::span<const records::Record> records, Instant now);

/// What the filter's outlook is asked with. The outlook itself takes seconds and is worked out by the caller, when and where it can wait:
/// FilterPosterior::of() or updated() of case_now.season, then planning::filter_outlook().
struct FilterAsked {
  records::SeasonSetup season{};
  inference::Belief belief{};
  inference::FilterCase case_now{};
};

/// Out     nothing when there is nothing to foretell: the brood has been released.
/// Errors  as look_at_day().
Result<std::optional<FilterAsked>> filter_asked(const Setup& setup, std::span<const records::Record> records, Instant now);

/// The day as it looked at `now`: only records logged by then are used.
///
/// In      records: all of the log, in order of id. filter: of the same records and moment; without it advice rests on the readings alone.
/// Out     the same records and the same moment always give the same view.
/// Errors  no_season when none was set up by then.
Result<DayView> look_at_day(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter = nullptr);

/// The temperature plan as it looked at `now`.
struct PlanView {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  records::SchoolCalendar calendar{};
  planning::TemperaturePlan plan;
  inference::Belief belief{};   ///< and the first day that could be planned: for trying what is moved, see plan_trial.h
  Date first_planned{};
  Diary diary{};
};

/// In      as look_at_day().
/// Shape   some tenths of a second; seconds when wishes collide.
/// Errors  as look_at_day(), and those of planning::season_asked(): nothing to plan, and what to change.
Result<PlanView> look_at_plan(const Setup& setup, std::span<const records::Record> records, Instant now);

/// The diary alone, for when there is nothing to plan.
///
/// In      as look_at_day(). why: there is no plan, in words.
/// Errors  as look_at_day().
Result<Diary> look_at_diary(const Setup& setup, std::span<const records::Record> records, Instant now, const Phrase& why);

/// The tank's heat as it looked at `now`.
struct HeatLook {
  Instant now{};
  ZoneOffsets zone{};
  planning::HeatView view;
};

/// In      as look_at_day().
/// Shape   some tens of milliseconds, a tenth of a second with a logger's month.
/// Errors  as look_at_day().
Result<HeatLook> look_at_heat(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::HeatAsked& asked = {});

/// All emergencies as they would stand at `now`, and what they were judged by.
struct EmergencyLook {
  Instant now{};
  ZoneOffsets zone{};
  records::SeasonSetup season{};
  std::string animals{};               ///< "eggs", "alevins", "fry"; of the eggs to come while there are none
  bool animals_in_tank = false;
  std::vector<emergency::Emergency> kinds{};  ///< what the log says is happening first
};

/// Shape, errors  as look_at_heat().
Result<EmergencyLook> look_at_emergencies(const Setup& setup, std::span<const records::Record> records, Instant now);

/// The planner's question alone, for trying other set-points quickly.
Result<planning::SeasonAsked> plan_asked(const Setup& setup, std::span<const records::Record> records, Instant now);

}  // namespace redd::season
