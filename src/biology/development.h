#pragma once
// Development in water whose temperature varies: each stretch of time adds its share of the way, length / D(T).
// Start at progress_over(). For a batch with a start, observations and a future, see development_forecast.h.

#include <optional>
#include <span>

#include "biology/development_model.h"
#include "quantities/temperature.h"
#include "quantities/time.h"

namespace redd::biology {

/// A stretch of time at one mean temperature: a day, an hour, or whatever the record holds.
struct TemperatureSpell {
  Days length;
  Temperature mean;
};

/// Share of the way from fertilisation to the model's stage covered by these spells, one after the other; 1 is the
/// stage.
///
/// Out     >= 0; adds up over spells, so cutting a spell into parts changes nothing.
/// Source  fractional daily development; hatching in stream boxes came almost when the laboratory curve at the mean
///         temperature said [elliott1998], plain degree-days fail when temperature varies [steel2012].
double progress_over(const DevelopmentModel& model, std::span<const TemperatureSpell> spells);

/// Time from the start of the first spell until progress reaches 1 - progress_before; nothing if the spells end too
/// soon.
std::optional<Days> time_to_stage(const DevelopmentModel& model, std::span<const TemperatureSpell> spells,
                                  double progress_before = 0.0);

/// Progress of eggs that have gathered a thermal sum at one incubation temperature: sum / (T D(T)).
/// Out     0 where development stands still.
double progress_from_thermal_sum(const DevelopmentModel& model, ThermalSum sum, Temperature incubation);

}  // namespace redd::biology
