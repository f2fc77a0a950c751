#pragma once
// What would become of water and brood if the room, the set-point, the number of animals, the food or the water changes were other than planned. A thought
// experiment over six weeks, on the same models as everything else here. Start at what_if_base(), made once, then what_if(), quick enough for a slider.
// The base is numbers only, so that it can travel; all chance is drawn in it once, and answers move smoothly with the sliders.

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "heat/fit.h"
#include "planning/detail/held_water.h"
#include "planning/loading.h"
#include "planning/season_plan_lots.h"
#include "planning/tank_heat.h"
#include "planning/water_programme.h"

namespace redd::planning {

inline constexpr int what_if_days = 42;
inline constexpr std::size_t what_if_tanks = 64, what_if_worlds = 32, what_if_lots = 32;
/// Longest that dates are looked for.
inline constexpr int what_if_longest_days = 240;

/// Differences from what is planned.
struct WhatIfSliders {
  double room_warmer_c = 0.0;                           ///< -10 to 15
  double set_point_warmer_c = 0.0;                      ///< -6 to 8; from tomorrow, a degree a day
  double animals_factor = 1.0;                          ///< 0.25 to 3, fed alike
  double food_factor = 1.0;                             ///< 0 to 2, of what is planned for each
  std::optional<double> weekly_change_fraction{};       ///< 0 to 0.5, on the days of the usual change; nothing: as usual
};
struct WhatIfRange {
  double low, high;
};
inline constexpr WhatIfRange what_if_room{-10.0, 15.0}, what_if_set_point{-6.0, 8.0}, what_if_animals{0.25, 3.0}, what_if_food{0.0, 2.0}, what_if_change{0.0, 0.5};

/// The tank's heat without the log: what moves the water's temperature day by day. Worlds in order, the one that holds coldest first.
struct WhatIfHeat {
  std::vector<heat::HeatWorld> worlds{};                ///< own_heat with the mean of the light
  double capacity_j_per_k = 0.0, heater_w = 0.0, band_c = 1.0;
  std::optional<heat::Chiller> plate{};                 ///< nothing: its power is not on record
  bool chiller_down = false, heater_known = false;
  std::optional<HeldWater> held{};
  std::vector<double> plan_c{};                         ///< as planned, when each day begins; from today
  std::vector<double> room_c{}, room_warmest_c{};       ///< mean and warmest hour of each day
  /// Heat of condensation, W, at `damp_room_c` (rows) and `damp_water_c`; empty where the log holds it already.
  std::vector<double> damp_w{};
  static constexpr std::array damp_room_c{5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0};
  static constexpr std::array damp_water_c{0.0, 5.0, 10.0, 15.0, 20.0, 25.0};
};

/// The dates of hatch and swim-up, as lots that may be ours.
struct WhatIfDates {
  std::string species{}, hatch_model{}, swim_up_model{};
  int from_index = 1;                                   ///< day on which the lots stand as told here
  std::vector<Lot> lots{};
};

/// What oxygen depends on.
struct WhatIfOxygen {
  Estimate<double> transfer_l_per_h{};                  ///< at transfer_at_c
  double transfer_at_c = 10.0, elevation_m = 0.0;
  Estimate<double> egg_g{}, alevin_g{};
  std::vector<Estimate<double>> fry_g{};                ///< a day each, from today or from swim-up, whichever is later
};

/// In the order in which they are told.
enum class WhatIfLimit { too_warm, too_cold, not_held, un_ionized_ammonia, nitrite, oxygen, nitrate, ph, alkalinity, jump };
inline constexpr std::size_t what_if_limit_count = 10;
std::string_view what_if_limit_key(WhatIfLimit limit);

struct WhatIfChance {
  std::optional<double> probability{};                  ///< that it is passed at any time; nothing: cannot be said
  std::optional<int> early_index{}, mid_index{};        ///< days from today, of the tanks that pass it: one in ten, half
};
/// Days from today; of half the brood. Nothing: not by the last day looked at, or past already.
struct WhatIfWindow {
  std::optional<double> low{}, mid{}, high{};
  bool past = false;
};
struct WhatIfSummary {
  std::array<WhatIfChance, what_if_limit_count> chances{};
  WhatIfWindow hatch{}, swim_up{};
  WaterBand warmest_c{};                                ///< warmest day of the six weeks
  const WhatIfChance& chance(WhatIfLimit limit) const { return chances[static_cast<std::size_t>(limit)]; }
};

struct WhatIfBase {
  Date today{};
  double now_day = 0.0, volume_l = 200.0;
  WaterTanks tanks;
  std::vector<NewWaterDraw> new_water{};
  double top_up_hardness_meq_per_l = 0.0, top_up_alkalinity_meq_per_l = 0.0;
  WaterLimits limits{};
  double air_co2_uatm = 0.0, air_pressure_mmhg = 0.0;
  std::vector<std::pair<double, tank::Dose>> doses{};   ///< by day of the season
  std::vector<double> change_days{};                    ///< of the usual change, days of the season
  double usual_fraction = usual_change_fraction;
  std::optional<inference::BroodCourse> brood{};
  double alive = 0.0, fry_now_g = 0.15;
  WhatIfHeat heat{};
  std::optional<WhatIfDates> dates{};
  WhatIfOxygen oxygen{};
  WhatIfSummary as_planned{};
};

enum class WhatIfLine { temperature, un_ionized_ammonia, total_ammonia, nitrite, nitrate, ph, alkalinity, oxygen };
inline constexpr std::size_t what_if_line_count = 8;
std::string_view what_if_line_key(WhatIfLine line);

struct WhatIf {
  WhatIfSliders sliders{};
  std::array<std::vector<WaterBand>, what_if_line_count> bands{};  ///< a day each, from today; canonical units
  WhatIfSummary summary{};
  bool sound = true;                                    ///< false: a simulated tank came to no number, nothing here is to be believed
  bool too_warm_to_tell = false;                        ///< the water leaves what was ever tested: dates and oxygen are not told
};

/// Above this in the middle nothing is told of dates and oxygen. Assumed: warmer than any curve or fit here was tested in.
inline constexpr double warmest_told_c = 22.0;

/// In      water: of the same moment as heat and loading. made with TankDraws{what_if_tanks}.
/// Errors  nothing_to_ask once the brood is released.
Result<WhatIfBase> what_if_base(const WaterCase& water, const TankHeatModel& heat, const LoadingView& loading);

/// In      sliders within their ranges.
/// Shape   a few milliseconds.
/// Errors  out_of_range: nothing is reckoned beyond the ranges. Fields "/room_warmer_c", ….
Result<WhatIf> what_if(const WhatIfBase& base, const WhatIfSliders& sliders);

}  // namespace redd::planning
