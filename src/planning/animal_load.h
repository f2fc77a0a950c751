#pragma once
// What one egg, alevin or fry asks of the water and the filter: oxygen, and nitrogen for the filter to turn over. A brood's load is that times its number.
// Start at load_of_one().

#include "quantities/estimate.h"
#include "quantities/temperature.h"
#include "tank/load.h"

namespace redd::planning {

/// Food a day as a share of a fry's mass where none is planned. Assumed: as the filter's outlook takes it (inference::usual_ration_fraction).
inline constexpr double planned_ration_fraction = 0.02;

struct LoadPoint {
  tank::Stage stage = tank::Stage::fry;
  Estimate<double> each_g{0.15, 0.15, 0.15, Support::assumed};  ///< of fry
  Temperature water = Temperature::from_c(10);
  double ration_fraction = planned_ration_fraction;             ///< of its mass a day, 0-0.1; fry only
};

/// Per animal. All ends >= 0.
struct AnimalLoad {
  Estimate<double> breathed_mg_o2_per_h{};   ///< by the animal
  Estimate<double> bacteria_mg_o2_per_h{};   ///< by the filter for its nitrogen and by what rots of its food
  Estimate<double> nitrogen_mg_n_per_day{};  ///< ammonia given off, and what rots into it
  double feed_g_per_day = 0.0;
  Estimate<double> oxygen_mg_o2_per_h() const;
};

/// Eggs count as near hatch, when they ask most. Rises with mass and temperature (0-20 C).
///
/// Source  Middle of what is breathed and given off: tank/load.h. Doubt of oxygen: eggs 3 to 5 of 4 ug/h, alevins 0.45 to 0.70 of 0.57 mg a day (from the
///         dry mass they lose). Fry breathe once to 2.4 times the routine rate of [wieser1985], 1.5 times in the mean, because they are fed: sockeye between
///         170 and 370 mg/(kg h) over a day ([brett1975]), salmon fry in tanks up to 12 mg/(kg min) at 16 C ([fivelstad1999]), 2.4 times routine.
///         Doubt of nitrogen: as tank/prior.h takes it (load_factor, sd 0.3 of the logarithm); for fry also the ration, 0.75 to 1.5 times (assumed).
///         Bacteria: 4.57 mg of oxygen per mg of nitrogen (chemistry/nitrification.h), and 50 mg (0 to 150) per gram of food for what rots: a whole system
///         uses up to 0.5 g per gram of food, fish half of it ([timmons2007], from memory).
AnimalLoad load_of_one(const LoadPoint& point);

}  // namespace redd::planning
