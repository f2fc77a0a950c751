#pragma once
// What becomes of the water under a programme of changes: every tank carried forward with the process model, each limit watched. Start at forecast_water().
// Chance here is the share of tanks; a limit broken once by a tank counts, whatever comes after (joint over the weeks).

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "planning/water_limits.h"
#include "planning/water_tanks.h"

namespace redd::planning {

/// One change as the forecast makes it.
struct WaterDeed {
  double at_day = 0;
  double fraction = 0;        ///< of the tank
  bool vacuum = false;
  double step_c = 0;          ///< what it does to the tank's temperature, once tempered
};

/// What a forecast needs besides tanks and deeds. All of one moment.
struct WaterCourse {
  const inference::FilterCase& now;   ///< its loads, temperatures and doses; its own water changes to come are left out
  const WaterLimits& limits;
  std::span<const NewWaterDraw> new_water;
  double hardness_of_top_up_meq_per_l = 0, alkalinity_of_top_up_meq_per_l = 0;
  double watch_from_day = 0;          ///< before it no change can mend anything
  double until_day = 0;
};

/// 5 %, middle and 95 % of the tanks.
struct WaterBand {
  double low = 0, mid = 0, high = 0;
};
WaterBand band_of(std::vector<double> values);
struct WaterDayBands {
  double at_day = 0;
  WaterBand un_ionized_mg_n_per_l{}, total_ammonia_mg_n_per_l{}, nitrite_mg_n_per_l{}, nitrate_mg_n_per_l{}, ph{}, alkalinity_meq_per_l{}, hardness_meq_per_l{};
};

/// One change of the forecast, just before and just after.
struct ChangeBands {
  WaterDayBands before{}, after{};
  WaterBand vacuumed_mg_n{};   ///< organic nitrogen of the whole tank that went with the waste; zero without vacuuming
  WaterBand ph_jump{};
};

struct WaterForecast {
  double broken_probability = 0;
  double standard_error = 0;                                   ///< of the simulation
  std::array<double, water_limit_count> by_limit{};            ///< share of tanks that break it at any time
  std::optional<WaterLimitKind> first{};                       ///< the limit most often broken first
  double first_probability = 0;                                ///< share of tanks that break this one first
  std::optional<double> first_early_day{}, first_mid_day{};    ///< of the tanks that break it first: one in ten by the early day, half by the middle
  double exposure = 0;                                         ///< share of the watched days on which a limit is broken, mean of the tanks
  std::array<double, water_limit_count> exposure_by_limit{};
  std::optional<double> kept_from_day{};                       ///< from here on at most one tank in twenty breaks any limit; nothing: not by the last day
  std::vector<WaterDayBands> bands{};                          ///< a day each, when asked for
  std::vector<ChangeBands> changes{};                          ///< one a deed, when bands are asked for
  std::size_t tanks = 0;
  bool sound = true;                                           ///< false: a simulated tank came to no number, nothing here is to be believed
};

/// The water of each tank at one moment, as limits are held against it.
struct WaterNow {
  std::vector<double> un_ionized_mg_n_per_l, ph, temperature_c;
};
struct ForecastOptions {
  bool bands = false;
  tank::Tolerance tolerance = inference::quick_tolerance;
  double give_up_above = 2.0;  ///< stops once this share of tanks has broken a limit; the shares are then lower bounds
  std::function<void(const WaterTanks& tanks, const WaterNow& now, double day)> each_look{};  ///< called at every daily look
};

/// In      deeds: in order of day.
/// Shape   about (days) * (tanks) * half a microsecond.
WaterForecast forecast_water(const WaterTanks& tanks, const WaterCourse& course, std::span<const WaterDeed> deeds, const ForecastOptions& options = {});

WaterNow water_now(const WaterTanks& tanks, const tank::Forcing& forcing, double day);

/// Pours one change into every tank: dissolved things mix, waste is drawn off, the filter stays.
void pour(WaterTanks& tanks, const WaterDeed& deed, std::span<const NewWaterDraw> new_water, Temperature water);

}  // namespace redd::planning
