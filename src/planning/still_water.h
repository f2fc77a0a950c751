#pragma once
// Oxygen of water that stands still with animals in it: what it holds, what they breathe, what comes in through the surface. Start at time_to().

#include <optional>

#include "quantities/heat.h"
#include "quantities/water.h"

namespace redd::planning {

/// Well mixed in itself: dC/dt = (transfer / depth) (saturation - C) - use.
struct StillWater {
  OxygenConc start, saturation;
  double use_mg_o2_per_l_per_h = 0.0;        ///< >= 0
  double transfer_m_per_h = 0.0;      ///< through the surface; 0: closed
  double depth_m = 0.4;               ///< volume by surface, > 0
};

/// Oxygen after so long (>= 0); never below zero.
OxygenConc oxygen_after(const StillWater& water, Hours span);

/// When it is down to a limit: zero where it is already, nothing when it settles above.
std::optional<Hours> time_to(const StillWater& water, OxygenConc limit);

/// Oxygen that passes a quiet, covered surface, m/h. Common practice, no source (from memory): 0.02, of a range of 0.005 to 0.05.
inline constexpr double quiet_surface_m_per_h = 0.02, poor_surface_m_per_h = 0.005;

/// What diffuses through quiet water of this thickness and area for a difference of so much oxygen, mg/h: why a still basket lives on what it holds.
/// Source  Fick's law; 1.5e-9 m2/s for oxygen in water near 10 C, from memory.
double diffusing_mg_o2_per_h(double area_m2, double thickness_m, double difference_mg_per_l);

}  // namespace redd::planning
