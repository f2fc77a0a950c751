#pragma once
// This tank as the heat formulae see it: read off the log, learnt from its temperatures where they teach enough, else from its dimensions,
// else from its volume, and always told which. Start at tank_heat(); day_abilities() is what a temperature planner asks of it.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "heat/emergency.h"
#include "heat/fit.h"
#include "heat/holdable.h"
#include "heat/moist_air.h"
#include "heat/room.h"
#include "inference/belief.h"
#include "planning/detail/held_water.h"
#include "planning/season_plan_question.h"
#include "records/school_calendar.h"

namespace redd::planning {

/// What the conductance rests on.
enum class HeatBasis { log, dimensions, volume };

/// Relative humidity where nobody measured it. Assumed: the moist side of a lived-in room, so that damp is not forgotten.
inline constexpr double usual_humidity_fraction = 0.6;

/// Doubt of a keeper's thermometer and of its being read at a quiet hour. Assumed.
inline constexpr auto held_within = TemperatureChange::from_c(0.5);
/// What the log shows held settles at most so much warmer for each degree the room is warmer. Assumed: one degree by the walls, the rest by the chiller's loss.
inline constexpr double held_per_room_c = 1.2;

/// One tank with everything unknown of it as equally likely worlds.
struct TankHeatModel {
  Volume water = Volume::from_l(200);
  heat::TankHeat tank;                         ///< most likely; pump: what pump and all else give day and night but damp
  Power pump = Power::from_w(12);              ///< electric, on record or assumed: what of it ends with the power
  heat::Equipment equipment{};                 ///< most likely; without a chiller when its cooling power is not on record
  std::vector<heat::HeatWorld> worlds{};       ///< chiller_factor and own_heat (pump and damp) against `tank` and `plate`
  Estimate<Conductance> conductance;
  heat::HeatDoubt doubt{};                     ///< about `tank` and `equipment`, for heat::holdable_range()
  std::optional<heat::Chiller> plate{};        ///< the chiller as its plate describes it; equipment.chiller is what it is believed to do
  HeatBasis basis = HeatBasis::volume;
  std::optional<heat::HeatFit> fit{};          ///< when basis is log
  std::optional<HeldWater> held{};             ///< what the log shows the equipment holding, when it shows it
  std::vector<heat::Face> faces{};             ///< front, back, left, right, floor, top; of ordinary proportions when only the volume is on record
  bool open_top = false;                       ///< on record as without a lid
  heat::RoomScenario room{};
  std::optional<Temperature> room_in_breaks{};
  bool room_known = false;                     ///< at least the room in use is on record
  TemperatureChange band = TemperatureChange::from_c(1.0);
  std::optional<Temperature> water_now{}, room_now{};  ///< read within the last day and a half
  Temperature set_point = Temperature::from_c(8);      ///< of the controller, else the season's target
  bool set_point_logged = false;
  bool chiller_down = false;                   ///< logged as failed or switched off, or the power is
  bool power_down = false;
  bool heater_known = false;                   ///< on record, be it as none
  std::optional<double> price_per_kwh{};
  std::string currency{};
  records::SchoolCalendar calendar{};
  Sentence rests_on{};                         ///< what the conductance rests on
  std::vector<Sentence> assumed{};             ///< each thing not on record, and what stands for it
  std::vector<records::RecordId> records{};    ///< the build and what was learnt from

  /// Tank and chiller as one world has them.
  heat::TankHeat tank_of(const heat::HeatWorld& world) const;
  std::optional<heat::Chiller> chiller_of(const heat::HeatWorld& world) const;
  /// With everything off. What a log found beyond the pump's own heat (damp, sun, a sensor that is off) stays.
  heat::TankHeat without_power(const heat::HeatWorld& world) const;
};

/// In      records: effective. Room temperatures must lie within 6 h around a tank reading for it to teach; readings of the last 28 days count.
/// Out     always an answer. Basis log: only when the fit follows its model and knows the conductance clearly better than the dimensions do.
/// Shape   up to about 0.1 s for a logger's month, well under a millisecond without one.
TankHeatModel tank_heat(const records::SeasonSetup& season, std::span<const records::Record> records, const inference::Belief& belief,
                        const ZoneOffsets& zone, Instant now);

/// Heat brought by condensation on the outside and on an open surface, >= 0: damp air is never counted on to cool.
Power damp_heat(const TankHeatModel& model, Temperature water, const heat::RoomAir& air);

/// The room hour by hour on each of these local days: school days, closed days, and breaks of at least five closed days.
std::vector<heat::RoomDay> planned_rooms(const TankHeatModel& model, Date first, int days);

/// What tank and equipment can hold on each planned day (heat::holdable_range over the planned rooms, with that day's damp). A chiller that is down today counts as
/// working: plans are for when it works again; TankHeatModel::chiller_down tells.
/// In      set_points: one for all days or one a day. Without any: the present set-point.
std::vector<heat::DayAbility> day_abilities(const TankHeatModel& model, Date first, int days, std::span<const Temperature> set_points = {});

/// The same as a planner takes it, from `first` on for as long as a season can last. Empty while the chiller's power is not on record: nothing
/// can be said of what it holds, and the planner says what it takes for granted instead.
std::vector<PlanDay> plan_abilities(const TankHeatModel& model, Date first);

/// What to know of the equipment beside a plan: that it is down today, and the days on which it has little to spare.
/// In      first, set_points: of the plan, one a day.
std::vector<Sentence> plan_cautions(const TankHeatModel& model, Date first, std::span<const Temperature> set_points);

/// A number over the worlds: 5 %, middle and 95 %.
Estimate<double> over_worlds(const TankHeatModel& model, const std::function<double(const heat::HeatWorld&)>& value);

/// A time over the worlds that may be never. Nothing counts as later than any time.
struct HoldSpan {
  std::optional<Hours> soonest, likely, latest;
};
HoldSpan span_over_worlds(const TankHeatModel& model, const std::function<std::optional<Hours>(const heat::HeatWorld&)>& value);

}  // namespace redd::planning
