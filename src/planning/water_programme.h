#pragma once
// The water programme: the smallest changes over three weeks that keep the water inside its limits in at least 19 of 20 tanks that may be ours, beside
// the keeper's usual change and none at all. Start at water_programme(). A change the keeper proposes: water_trial.h.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planning/water_forecast.h"
#include "records/school_calendar.h"

namespace redd::planning {

inline constexpr double wanted_safe_probability = 0.95;
/// The search asks for more, so that the chance of its own draws is not taken for safety.
inline constexpr double searched_safe_probability = 0.96;
inline constexpr double programme_days = 21.0;
/// The keeper's usual change where the season does not say. Common practice, no source (10-25 % a week).
inline constexpr double usual_change_fraction = 0.2;

/// What today's list asks that the programme stands on. Of the same moment.
struct AskedToday {
  /// The water change it asks for: the programme's first step.
  struct Change {
    double fraction = 0;
    Date by{};
  };
  /// Days kept free of a change of `below` or more: other work of the list stands there, or was done.
  struct Apart {
    Date from{}, to{};
    double below = 1;
  };
  /// A new set-point.
  struct SetPoint {
    Date from{};
    Temperature to = Temperature::from_c(0);
  };
  std::optional<Change> change{};
  std::vector<Apart> apart{};
  std::optional<SetPoint> set_point{};

  /// Most that may be changed on this day beside the rest of the list, up to `most`; in steps of a twentieth.
  double largest_on(Date day, double most) const;
};

/// Everything of one moment. The parts must outlive it.
struct WaterAsked {
  const records::SeasonSetup& season;
  std::span<const records::Record> records;  ///< effective
  const inference::Belief& belief;
  const inference::FilterCase& now;
  const FilterOutlook* filter = nullptr;     ///< when it was worked out
  const ZoneOffsets& zone;
  Instant at{};
};

/// What programme and trial are worked out with: drawn once, used for every plan, so that small differences are not lost in chance.
struct WaterCase {
  WaterAsked asked;
  records::SchoolCalendar school{};
  WaterLimits limits{};
  NewWater source{};
  Evaporation evaporation{};
  WaterTanks tanks;
  std::vector<NewWaterDraw> new_water{};
  std::vector<Date> open_days{};  ///< on which a change may be planned
  double top_up_hardness_meq_per_l = 0, top_up_alkalinity_meq_per_l = 0;
  double watch_from_day = 0, until_day = 0;
  AskedToday asked_today{};

  Date today() const { return local_day(asked.zone, asked.at); }
  double noon_of(Date day) const;      ///< days since the season's begin, never before now
  Date date_of(double day) const;
  WaterCourse course() const;
  Temperature tank_on(double day) const;
  std::uint64_t seed() const { return static_cast<std::uint64_t>(asked.season.seed.value_or(1)); }
};
/// The plan from `set_point.from` on at the new set-point, a degree a day at most (assumed). Nothing past is touched.
inference::FilterCase with_set_point(inference::FilterCase now, const AskedToday::SetPoint& set_point, const ZoneOffsets& zone);

WaterCase water_case(const WaterAsked& asked, const TankDraws* draws = nullptr);

/// Days until `last` on which a change may be begun. From tomorrow, so that new water can stand a day; today too where the next open day is further off.
std::vector<Date> days_for_change(const WaterCase& made, Date last);
/// Once a week, beginning a week after the last change that was logged. In  open: days_for_change().
std::vector<Date> usual_change_days(const WaterCase& made, std::span<const Date> open);

/// One change with all that hands need.
struct PlannedChange {
  Date day{};
  double at_day = 0;
  double fraction = 0;
  Volume volume = Volume::from_l(0);
  Temperature tank = Temperature::from_c(0);
  Tempering temper{false, Temperature::from_c(0), Temperature::from_c(0), Temperature::from_c(0)};
  bool must_stand = false;                     ///< its gas or chlorine would harm as it comes; the rest should stand too
  std::optional<double> gas_as_it_comes{};     ///< of balance, once as warm as the tank
  std::optional<Mass> thiosulfate{};           ///< pentahydrate; nothing when the water holds no chlorine
  double freed_ammonia_mg_n_per_l = 0;         ///< by chloramine, in the tank after mixing
  int refill_minutes = 0;
  bool vacuum = false;
  bool asked_today = false;                    ///< today's list asks for it; the rest of the programme stands on it
  ChangeBands bands{};
};

struct WaterAlternative {
  std::string key{};                           ///< "programme", "usual", "none"
  std::vector<PlannedChange> changes{};
  Volume total = Volume::from_l(0);
  WaterForecast forecast{};
  Sentence sentence{};
};

struct WaterProgramme {
  Instant begin{};                             ///< day 0 of all days
  double now_day = 0, watch_from_day = 0, until_day = 0;
  Date today{}, last{};
  bool animals = false;                        ///< in the tank now
  std::optional<Date> limits_from{};           ///< when the eggs come, or today; nothing: nothing will live in it
  WaterAlternative programme{}, usual{}, none{};
  std::optional<AskedToday::Change> asked_today{};  ///< the first change of `programme`, that one or, where that keeps more limits, sooner or larger
  double usual_fraction = usual_change_fraction;
  bool usual_assumed = false;
  bool reached = false;                        ///< the programme keeps the limits with wanted_safe_probability
  bool helps = false;                          ///< it is better than no change at all
  std::array<double, water_limit_count> now_broken{};  ///< share of tanks beyond each limit now: what tests and rules of today deal with
  double largest_fraction = 0;                 ///< at once, so that no jump is made
  std::optional<Sentence> cap{};               ///< why it is less than half
  WaterLimits limits{};
  NewWater source{};
  Evaporation evaporation{};
  double hardness_rise_meq_per_l_per_week = 0; ///< by evaporation alone, middle
  Sentence headline{};
  Sentence rests_on{};
  std::vector<Sentence> notes{}, cautions{}, assumed{};
  bool from_posterior = false;                 ///< tanks of the filter's posterior; else told by the last sittings alone, and wide
  bool stale = false;                          ///< ammonia or pH was read too long ago, or never

  /// Told by a few readings alone the tanks are too many kinds of tank to plan by, unless most of them agree. Assumed.
  bool worth_asking() const { return from_posterior || none.forecast.broken_probability >= 0.5; }
};

/// What can be told before today's list is known: all but the alternatives, whether they keep the limits, and what is said of that.
WaterProgramme begun_programme(const WaterCase& made);

/// Out     nothing once the brood is released, and when a simulated tank came to no number.
/// Shape   some ten to sixty runs of the tanks over three weeks; see bench/water_bench.cpp.
std::optional<WaterProgramme> water_programme(const WaterAsked& asked);
/// The same from a case that is at hand, on top of what its asked_today holds.
std::optional<WaterProgramme> water_programme(const WaterCase& made);
/// In      begun: of the same case.
std::optional<WaterProgramme> water_programme(const WaterCase& made, WaterProgramme begun);

/// Largest part that may be changed at once without a jump in more than one tank of fifty, in steps of a twentieth up to a half.
double largest_fraction_without_jump(const WaterCase& made);

/// The details of a change of this part on this day.
PlannedChange planned_change(const WaterCase& made, double at_day, double fraction, bool vacuum);
WaterDeed deed_of(const PlannedChange& change);

}  // namespace redd::planning
