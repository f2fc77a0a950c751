#pragma once
// What a keeper may ask of the tank's heat, answered for this tank now, each with its doubt: can it hold, what does it cost, how long does it last
// without power, what do bottles and foam buy, how much water may be changed, when does the glass sweat. Start at heat_view().

#include <optional>
#include <string>
#include <vector>

#include "planning/tank_heat.h"

namespace redd::planning {

/// What to answer for; what is left out is taken from the log and the plan.
struct HeatAsked {
  std::optional<Temperature> target{};
  std::optional<Temperature> room{};
  std::optional<double> humidity_fraction{};  ///< above 0, at most 1
};

/// The temperatures between which a stage should stay, for times to cross them.
struct StageLimits {
  Temperature red_below, green_low, green_high, red_above;
  std::string animals{};   ///< "eyed eggs", as a word in sentences
  std::string source{};
  bool planned = false;    ///< nothing lives in the tank yet: those of the eggs to come
};
/// In      belief: of the same moment. Without a species: the band of salmonid eggs in general.
StageLimits stage_limits(const inference::Belief& belief);

/// A limit and when it is crossed; nothing: never.
struct LimitTime {
  Temperature limit;
  Sentence name{};
  HoldSpan span{};
};

/// The rooms an answer is given for: the time until a limit is crossed is soonest in the worst of them.
struct HeatRooms {
  Temperature mean, coldest, warmest;
};

/// Warming with the chiller dead: pump running, or everything off. Zero where the limit is passed already.
HoldSpan warming_span(const TankHeatModel& model, Temperature from, Temperature limit, const HeatRooms& rooms, bool pump_runs);
/// Cooling by a chiller that no longer stops; all empty without a plate.
HoldSpan chilling_span(const TankHeatModel& model, Temperature from, Temperature limit, const HeatRooms& rooms);

/// One temperature in one room.
struct HoldAnswer {
  Temperature target, room;
  heat::Holding likely = heat::Holding::held;
  heat::Holding cautious = heat::Holding::held;  ///< at the duty that only one world in twenty exceeds
  Estimate<double> duty_fraction{};              ///< above 1: never reached
  double held_probability = 0;                   ///< share of the worlds at or below 95 % duty
  Estimate<Temperature> settles_at;              ///< running without pause
};

/// The chiller's week at the mean room; at full power where the target is not reached.
struct WeekAnswer {
  Temperature room;
  Estimate<double> duty_fraction{};
  Estimate<double> electric_kwh{};
  std::optional<Estimate<double>> cost{};        ///< in the keeper's currency
};

struct BottleAnswer {
  Mass each;
  std::optional<Hours> shortest{}, likely{}, longest{};  ///< that one bottle holds the water; nothing: no heat comes in
  std::optional<int> a_day{};                      ///< bottles for 24 h at the shortest
};

struct FoamAnswer {
  Sentence what{};
  Power gain_before, gain_after;                   ///< to take away at the target in the warmest room, middle of the worlds
  std::optional<double> duty_before{}, duty_after{};  ///< above 1: never reached
  std::optional<double> saved_kwh_per_week{};
  std::optional<Power> same_by_chiller{};          ///< cooling at the target that a chiller without the foam would need for the same duty
  std::optional<Hours> outage_before{}, outage_after{};  ///< everything off, until the first limit; nothing: never
};

struct DampAnswer {
  double humidity_fraction = usual_humidity_fraction;
  bool humidity_assumed = true;
  Temperature coldest_surface;
  double sweats_above_fraction = 1;                ///< relative humidity; above 1: never
  bool sweats = false;
  double surface_gains_above_fraction = 1;         ///< open water collects water and heat above this humidity
  Power surface_gain;                              ///< at humidity_fraction, >= 0; zero under a lid
  Power brings;                                    ///< with what condenses on the outside; part of every answer here unless a log holds it
};

struct ChangeAnswer {
  Temperature source;
  double largest_fraction = 1;                     ///< of the water, that moves the tank by no more than `most`
  TemperatureChange most = TemperatureChange::from_c(1);
  double usual_fraction = 0.2;
  Temperature usual_source_from, usual_source_to;  ///< what the new water must lie between for the usual change
};

struct HeatDayAhead {
  Date day;
  Temperature room_mean, room_warmest;
  heat::DayAbility ability;
};

struct HeatView {
  TankHeatModel model;
  Temperature water, target;
  bool water_measured = false;                     ///< false: taken as the target
  HeatRooms rooms;
  bool room_asked = false;
  StageLimits limits;
  Estimate<double> time_constant_h{};
  Estimate<Power> to_remove;                       ///< to hold the target in the warmest room
  Power chiller_wanted;                            ///< cooling at the target: 1.5 times the high end of to_remove
  std::optional<HoldAnswer> hold{};                ///< without a plate on record: nothing
  std::optional<WeekAnswer> week{};
  std::optional<HoldSpan> cooling{};               ///< to the target; when the water stands more than half a degree above it
  std::vector<LimitTime> power_cut{}, chiller_dead{}, stuck_on{};
  std::vector<BottleAnswer> bottles{};
  Mass most_ice_an_hour;
  std::optional<ChangeAnswer> change{};            ///< when the source water's temperature is on record
  std::vector<FoamAnswer> foam{};
  DampAnswer damp;
  std::vector<HeatDayAhead> days{};                ///< the next 14; empty when a room was asked
};

/// In      as tank_heat(); the model is that of the same moment.
HeatView heat_view(TankHeatModel model, const records::SeasonSetup& season, const inference::Belief& belief, const ZoneOffsets& zone, Instant now,
                   const HeatAsked& asked = {});

}  // namespace redd::planning
