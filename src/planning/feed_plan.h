#pragma once
// Food for the fry: from when, how much today and tomorrow, what that costs the water, and who feeds while the school is closed. Start at feed_plan().
// Whether to feed at all while something is wrong with the water is advice's to say (advice/feed_holds.h).

#include <optional>
#include <string>
#include <vector>

#include "biology/ration.h"
#include "inference/brood_days.h"
#include "inference/growth_belief.h"
#include "planning/feeding_break.h"
#include "planning/filter_outlook.h"
#include "records/school_calendar.h"

namespace redd::planning {

enum class FeedStage {
  waiting,  ///< first food is more than two weeks away
  near,     ///< within two weeks: have food and feeders ready
  pinch,    ///< half swim up: a pinch, to see who takes it
  routine   ///< nine in ten swim up, or a week has gone since half did
};

/// A day's food for all of them.
struct Ration {
  Date day{};
  Estimate<Mass> fish{Mass::from_g(0), Mass::from_g(0), Mass::from_g(0)};  ///< one of them
  Temperature water = Temperature::from_c(0);
  Estimate<double> table_fraction_per_day{0, 0, 0};  ///< of their mass, as published tables have it
  bool in_table = true;
  Mass wanted = Mass::from_g(0);  ///< what a school's tank gives: biology::school_share_of_table of it
  Mass most = Mass::from_g(0);    ///< the whole of the higher table
  Mass planned = Mass::from_g(0); ///< wanted, or less where the filter would not carry it
  std::optional<double> spoons{}; ///< of planned, level; nothing when no spoon was weighed
  biology::FeedingsADay feedings{};
};

/// What a ration does to the water in a day.
struct FoodCost {
  Estimate<double> ammonia_mg_n_per_day{0, 0, 0};          ///< of food and fish together
  Estimate<double> ammonia_mg_n_per_l_per_day{0, 0, 0};
  Estimate<double> oxygen_mg_o2_per_l_per_day{0, 0, 0};    ///< for the food alone
  std::optional<Estimate<double>> capacity_mg_n_per_l_per_day{};  ///< of the filter at today's temperature; nothing when it was not worked out
  std::optional<double> carried_probability{};             ///< that the filter turns over the wanted ration
  double carried_share = 1.0;                              ///< largest share of the wanted ration with nine chances in ten, down to `least_share`
};
/// Fry are not starved to spare the filter: below this share of a ration water is changed instead. Assumed: a third, about what keeps their weight.
inline constexpr double least_share = 1.0 / 3.0;
/// Most that a day's food is above the mean of the last week: a filter grows with its food, and fish that were fed little may be lighter than believed.
/// Common practice to step up slowly, no source; the number is assumed.
inline constexpr double largest_step_up = 1.5;
/// Chance at which the filter is said to carry a ration. As in advice/assess_filter.h.
inline constexpr double carried_enough = 0.9;

/// The school closed for some days while the fry must eat.
struct FeedGap {
  struct Day {
    Date day{};
    std::vector<std::string> on_duty{};
  };
  Date from{}, to{};
  std::string name{};        ///< of the closure as logged; empty on a weekend
  std::vector<Day> days{};
  int may_miss_days = 1;     ///< of these so many in a row, at most
  bool first_weeks = true;
  bool covered = false;      ///< nobody is needed beyond those on duty, or they can go without
  Mass a_day = Mass::from_g(0);  ///< food on such a day
  Estimate<double> adds_mg_n_per_l{0, 0, 0};  ///< ammonia of all of it together if nothing took it away
};

/// A day with far more food than the tables allow.
struct Overfed {
  Date day{};
  Mass fed = Mass::from_g(0), most = Mass::from_g(0);
  Estimate<double> to_come_mg_n_per_l{0, 0, 0};  ///< ammonia as what lies there rots, in the whole tank
  std::vector<records::RecordId> records{};
};

struct FeedPlan {
  Date today{};
  FeedStage stage = FeedStage::waiting;
  biology::MomentWindow swim_up{};              ///< half of them
  Estimate<double> swum_up_fraction{0, 0, 0};   ///< now
  std::optional<inference::SwumUpCount> counted{};  ///< when somebody counted them today or yesterday
  std::optional<Date> since{};                  ///< first food was due or given
  bool first_weeks = true;
  inference::AliveNow alive{};
  inference::GrowthBelief growth{};
  std::string grain{};
  bool spoon_known = false;
  std::optional<Ration> today_ration{}, tomorrow{};  ///< from pinch on
  FoodCost cost{};                              ///< of tomorrow's wanted ration
  std::optional<Mass> stepped_from{};           ///< food a day of the last week, when today's ration is held to a step above it
  Mass fed_today = Mass::from_g(0);
  std::optional<Instant> last_fed{};            ///< since they can eat
  std::vector<records::RecordId> feedings{};    ///< of the last three days
  std::optional<Overfed> overfed{};
  std::vector<FeedGap> gaps{};                  ///< in the next two weeks, from first food on
  std::optional<BreakRisk> break_risk{};
  std::optional<Date> sample_due{};             ///< when to weigh some next
  std::vector<Sentence> assumed{};
};

/// In      records: effective. belief, filter: of the same moment; filter: nullptr when not worked out.
/// Out     nothing without animals, a species or a forecast.
/// Shape   a few milliseconds.
std::optional<FeedPlan> feed_plan(const records::SeasonSetup& season, std::span<const records::Record> records, const inference::Belief& belief,
                                  const records::SchoolCalendar& calendar, const FilterOutlook* filter, const ZoneOffsets& zone, Instant now);

/// What this much food would do to the water; the same reckoning as in the plan.
FoodCost food_cost(Mass food, Mass all_fish, Volume water, const FilterOutlook* filter);

}  // namespace redd::planning
