#pragma once
// What the temperature planner is asked: the days ahead and what the equipment can hold on them, where the batch may stand,
// and what is wished. Plain values; who reads the log, the calendar or the room fills them in. Start at SeasonQuestion.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "biology/development_forecast.h"
#include "biology/species.h"
#include "quantities/sentence.h"
#include "quantities/temperature.h"
#include "quantities/time.h"

namespace redd::planning {

/// One local day to be planned.
struct PlanDay {
  Date day;
  Temperature coldest;  ///< coldest and warmest daily mean the equipment can hold in that room
  Temperature warmest;
  Temperature room;
  double kwh_each_c_below_room = 0.0;  ///< electric energy of the day for each C the water is kept below the room
};

/// What a wish is about: the day on which the middle animal of the lot ...
enum class PlanStage {
  hatch,        ///< ... hatches
  swim_up,      ///< ... swims up and can be fed
  release_size  ///< ... has gathered Lot::release_c_days since swim-up
};
inline constexpr int plan_stage_count = 3;
inline constexpr std::array plan_stages{PlanStage::hatch, PlanStage::swim_up, PlanStage::release_size};

/// Where one possible lot stands on a curve's clock when the first day begins: its middle animal passes the stage when the clock has
/// added need - done. An animal z standard deviations from the middle needs need exp(s z).
/// A lasting departure of the temperatures to come is told as a factor on the rate: divide both by it.
struct StageNeed {
  double need = 1.0;
  double done = 0.0;
};

/// One possible lot with its weight (> 0, any scale). A few hundred make smooth probabilities; see season_plan_lots.h.
struct Lot {
  double weight = 1.0;
  StageNeed hatch;
  StageNeed swim_up;
  double release_c_days = 0.0;  ///< thermal units from swim-up to the size of release, at or above 0
};

/// A wish is met when its stage falls on one of its good days.
struct Wish {
  std::string key;                 ///< stable word; tells wishes of two questions apart
  Sentence name;                   ///< e.g. "hatch on a school day"
  PlanStage stage = PlanStage::hatch;
  std::vector<bool> good;          ///< one a day of the question
  double weight = 1.0;             ///< worth of its certain fulfilment, 0-100
};

/// What one more of these takes from the score, a wish of weight 1 being worth 1. Assumed: judgement. A change is worth three hundredths of a wish (a keeper has other work than to toggle it every weekend);
/// a day 1 C outside the green band (for all animals) a five-hundredth; a kilowatt-hour a five-thousandth.
struct PlanCosts {
  double change = 0.03;
  double amber_c_day = 0.002;
  double kwh = 0.0002;
};

/// Hard limits besides the red bands and the equipment.
struct PlanLimits {
  biology::TemperatureRateLimits warming{};  ///< whole steps of the grid are taken, so 3 C a day means at most 3 C
  biology::TemperatureRateLimits cooling{};
  /// A stage's red limits hold while at least this share of the animals is expected to be in it. Assumed: one in a hundred.
  double least_share = 0.01;
};

/// How finely the search looks. The defaults answer a season of 240 days in well under 200 ms.
struct PlanPrecision {
  double step_c = 0.5;          ///< set-points are whole multiples of this
  int nodes = 2048;             ///< of the clock from 0 to 1
  int deviation_nodes = 12;     ///< of the second clock against the first, where a species has two
  double blur = 0.015;          ///< standard deviation, on the clock, by which the lots are smeared into a smooth distribution
};

struct SeasonQuestion {
  std::vector<PlanDay> days{};             ///< one a day without gaps; eggs are in the tank on all of them
  std::optional<Temperature> water_now{};  ///< mean of the day before the first; nothing: the first day's is free (eggs are yet to come)
  biology::SpeciesProfile species;
  biology::ModelChoice choice{};
  double animal_log_sd = 0.05;             ///< between the animals of one lot; biology::batch_log_sd()
  std::vector<Lot> lots{};
  std::vector<Wish> wishes{};
  PlanCosts costs{};
  PlanLimits limits{};
  PlanPrecision precision{};
};

/// Why there can be no plan, or why a wish is out of reach: what, and what to change.
struct PlanObstacle {
  std::string code;   ///< stable word
  std::string field;  ///< the part of the question at fault
  Sentence sentence;
};

/// Everything that makes planning impossible. Empty when plan_season() can be tried.
/// Codes: missing_days, days_out_of_order, out_of_range, missing_lots, bands_contradict, equipment_contradicts, chiller_too_small,
/// heater_too_small, wish_days, bad_costs, bad_limits.
std::vector<PlanObstacle> obstacles_of(const SeasonQuestion& question);

// --- the usual wishes -------------------------------------------------------------------------------------------------------------

/// Hatch on a day the school is open.
Wish hatch_on_school_days(const std::vector<bool>& school_open, double weight = 1.0);
/// Swim-up, and with it the first feeding, on a day somebody can feed and `then_days` days after it too.
Wish feeding_outside_breaks(const std::vector<bool>& somebody_feeds, int then_days = 0, double weight = 1.0);
/// Swim-up between these days, both included.
Wish swim_up_between(const std::vector<PlanDay>& days, Date first, Date last, double weight = 1.0);
/// The size of release reached by this day.
Wish release_size_by(const std::vector<PlanDay>& days, Date last, double weight = 1.0);

}  // namespace redd::planning
