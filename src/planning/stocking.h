#pragma once
// How many fry a tank has room for, by published indices and by common practice. Start at carried_by_space().
// The indices were made for troughs with new water running through; a tank that goes round and round is taken to bear less, and its ceilings are
// rules of thumb. Neither knows ammonia or oxygen: planning/loading.h does.

#include <optional>
#include <string_view>

#include "quantities/estimate.h"
#include "quantities/water.h"

namespace redd::planning {

/// Length of a fry by its mass, cm. Source  Fulton's condition of 1: g = cm^3 / 100 (a fry is leaner or fatter by a tenth or two).
double fry_length_cm(double each_g);

/// Published units to ours, by definition of pound, foot, inch and US gallon.
double density_index_kg_per_m3_cm(double lb_per_ft3_in);
double flow_index_kg_min_per_l_cm(double lb_per_gpm_in);

/// Mass of fish that a density index allows: index x length x volume.
/// Source  [hinshaw_inventory]: trout 0.5-1 lb/(ft3 in), with water running through.
Mass mass_by_density(double index_kg_per_m3_cm, double length_cm, Volume water);

/// Mass of fish that a flow index allows: index x length x flow, less where the inflow holds less oxygen than the index was made for.
/// Source  [hinshaw_inventory]: trout 0.5-1 lb/(gpm in); scaled by (inflow - 5) / (reference - 5), [piper1982].
Mass mass_by_flow(double index_kg_min_per_l_cm, double length_cm, double flow_l_per_min, OxygenConc inflow, OxygenConc reference);

/// Density index of a species, kg/(m3 cm): rainbow trout 3.0 and steelhead 1.5, chinook and Atlantic salmon 1.8, coho 2.4 (slides of a fish health course); others
/// the lowest of these.
double density_index_of(std::string_view species_key);

/// Load for each time water is used again: less by 25 to 30 %. Source  the same slides. A school's tank uses it again all day; taken once, its ammonia
/// and oxygen being reckoned apart.
inline constexpr double reuse_fraction = 0.725;

/// What decides the room.
enum class SpaceRule { by_number, by_mass, density_index, flow_index };

struct SpaceCarry {
  Estimate<double> animals{};
  SpaceRule rule = SpaceRule::by_number;
};

/// How many fry of a mass there is room for: the least of four.
///
/// In      each_g > 0. flow: of the pump through the tank, when on record, with the oxygen it brings and what full water would hold at 10 C.
/// Source  One fry a litre (0.5-2) until 0.3 g, half of that from 1 g, and 1 g a litre (0.5-1.5): common practice for a recirculated classroom tank, no source.
///         Indices as above, half to twice as much.
SpaceCarry carried_by_space(double each_g, Volume water, std::string_view species_key, std::optional<double> flow_l_per_min, OxygenConc inflow, OxygenConc reference);

/// Eggs in one layer for each 100 cm2 of basket.
/// Source  pink salmon eggs in one layer, 1.29-2.58 a cm2 (thesis of Oregon State University, Poon).
inline constexpr Estimate<double> eggs_per_100_cm2{130.0, 190.0, 260.0, Support::measured};

}  // namespace redd::planning
