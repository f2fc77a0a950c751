#pragma once
// A set of tanks, any of which may be ours: what a forecast of the water is run on. Start at water_tanks().
// From the filter's posterior where it was worked out, else from the prior told by the latest sittings; in either case held to what the readings allow.

#include <cstdint>
#include <vector>

#include "planning/evaporation.h"
#include "planning/filter_outlook.h"
#include "planning/new_water.h"

namespace redd::planning {

/// What one tank has of the water that goes in.
struct NewWaterDraw {
  double total_ammonia_mg_n_per_l = 0, nitrite_mg_n_per_l = 0, nitrate_mg_n_per_l = 0, alkalinity_meq_per_l = 0, hardness_meq_per_l = 0;
};

struct WaterTanks {
  enum class Basis { posterior, readings };
  tank::Ensemble tanks;
  double at_day = 0;
  std::vector<double> ph_offset{};             ///< of the tank's own air and of the card, above the model's pH
  std::vector<double> temperature_offset_c{};  ///< of thermometer and controller
  std::vector<double> vacuum_share{};          ///< of the loose waste that a vacuuming takes
  std::vector<double> evaporation_l_per_day{};
  Basis basis = Basis::readings;
  bool ph_read = false, hardness_known = false;
  std::vector<Sentence> assumed{};

  std::size_t size() const { return tanks.size(); }
};

/// Share of loose waste that a vacuuming of the open bottom takes.
/// Assumed: 30 to 90 %; nobody has measured it in a school's tank.
inline constexpr double vacuum_low_fraction = 0.3, vacuum_high_fraction = 0.9;

struct TankDraws {
  std::size_t count = 192;
  std::uint64_t seed = 1;
};

/// In      now: of the same moment as belief. filter: nullptr when not worked out.
/// Out     tanks as they stand at now.now_day.
/// Shape   well under a millisecond with the posterior's tanks; without them count * 3 * (days of season) * 0.2 microseconds.
WaterTanks water_tanks(const inference::Belief& belief, const inference::FilterCase& now, const FilterOutlook* filter, const Evaporation& evaporation,
                       const TankDraws& draws = {});

/// What each tank's new water holds: one draw a tank of all that is not known exactly.
std::vector<NewWaterDraw> new_water_draws(const NewWater& water, std::size_t count, std::uint64_t seed);

/// A draw from a middle and a 90 % interval, the two sides each half a normal curve; never negative.
double drawn_from(const Estimate<double>& e, double normal);

}  // namespace redd::planning
