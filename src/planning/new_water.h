#pragma once
// The water that goes in at a change: what it brings, what must be done to it first, and how slowly it may be poured. Start at new_water().

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "inference/belief.h"

namespace redd::planning {

/// Total gas above which fish are at risk, and the most that a change may leave in the tank.
/// Source  Threat from 100 %, act at 110 % (Piper et al. 1982); thresholds of 104-113 % for juvenile trout (Connor 1988). Assumed: 103 %, below all of them.
inline constexpr double most_gas_fraction = 1.03;
/// New water stands and bubbles this long at the tank's temperature. Source  common practice for tap water: 24 h, no source.
inline constexpr double standing_hours = 24.0;

/// What is known of the new water, canonical units. Unknown things carry Support::assumed and a wide range.
struct NewWater {
  std::string key{};
  Phrase name{};                                 ///< as given, else in words
  records::RecordId record = 0;
  Estimate<double> total_ammonia_mg_n_per_l{};   ///< with what neutralised chloramine sets free
  double freed_ammonia_mg_n_per_l = 0;           ///< that part alone
  Estimate<double> nitrite_mg_n_per_l{}, nitrate_mg_n_per_l{}, alkalinity_meq_per_l{};
  std::optional<Estimate<double>> hardness_meq_per_l{};
  std::optional<Ph> ph{};
  std::optional<Temperature> temperature{};      ///< as it comes
  double chlorine_mg_per_l = 0;                  ///< to be neutralised; see chlorine_known
  bool chlorine_known = false;                   ///< false: the highest lawful is reckoned with
  bool chloramine = false;
  std::vector<Sentence> unknown{};               ///< what is not on record and what stands for it
};

/// In      source: nothing when none is on record; then all is assumed and said.
NewWater new_water(const std::optional<records::SourceWater>& source, records::RecordId record, const inference::Belief& belief);

/// Gas in water that held its fill of air at `from` once it is as warm as `to`: 1 is balance.
/// Source  ratio of oxygen saturations, [benson1984]; nitrogen follows within a percent.
double gas_fraction_on_warming(Temperature from, Temperature to);
/// Gas in a tank in balance after this part of it was replaced.
constexpr double gas_fraction_after(double fraction, double incoming) { return 1.0 + fraction * (incoming - 1.0); }

/// How a change is tempered: the temperatures the new water must lie between so that the tank moves by no more than `most`.
struct Tempering {
  bool as_it_comes = false;           ///< moves the tank by no more than untempered_step
  Temperature low, aim, high;
};
Tempering tempering(double fraction, Temperature tank, const std::optional<Temperature>& source);

/// Largest part of the tank that water at `incoming` may replace at once.
double largest_fraction_untempered(Temperature tank, Temperature incoming);

/// Minutes to pour so that the tank moves by no more than a degree an hour, up to the next five; at least a quarter of an hour.
/// Source  1 C an hour: common hatchery practice, from memory. Assumed: the least, for stirring; a bucket is not emptied onto eggs.
int minutes_to_refill(TemperatureChange step);

}  // namespace redd::planning
