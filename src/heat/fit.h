#pragma once
// What a temperature log says of the tank: conductance, cooling power and the tank's own heat, with their doubt. Start at fit_heat().
// Model: exact exponentials between readings; each stretch of at most a day starts afresh, so that an opened lid or a visit to the
// bucket costs a day and not the fit. Prior from dimensions and plate; a log that says nothing gives it back.

#include <optional>
#include <span>
#include <vector>

#include "heat/balance.h"
#include "heat/holdable.h"
#include "quantities/result.h"

namespace redd::heat {

/// One reading and what went on until the next.
struct HeatReading {
  Hours at;                                     ///< since any moment; rising
  Temperature water;
  Temperature room;
  std::optional<double> chiller_share = 0.0;    ///< of the time until the next reading that the chiller ran, 0-1; nothing: not known, the stretch ends
  Power known_heat = Power::from_w(0.0);        ///< until the next reading, beyond own_heat: light, heater
};

/// What is believed before the log.
struct HeatPrior {
  Estimate<Conductance> conductance;            ///< 90 %, log-normal about its middle; see conductance_estimate()
  Estimate<double> chiller_factor{0.7, 1.0, 1.4, Support::assumed};  ///< on the chiller's rated power, log-normal. Assumed
  Estimate<Power> own_heat;                     ///< pump and damp, normal, cut at zero; a width of zero: known exactly
};

/// One equally likely world.
struct HeatWorld {
  Conductance conductance;
  double chiller_factor;
  Power own_heat;
};

struct HeatFit {
  Estimate<Conductance> conductance;
  Estimate<double> chiller_factor;              ///< support `assumed` when the chiller never ran in a usable stretch
  Estimate<Power> own_heat;
  std::vector<HeatWorld> worlds;                ///< 200, for questions where the three hang together (duty, settling temperature)
  double residual_sd_c = 0.0;                   ///< of the readings about the most likely curve
  double credit_fraction = 1.0;                 ///< share of the readings the log counts for: 1 when their errors are independent
  bool follows_model = true;                    ///< false when the readings stray more than 0.5 C (sd) from any curve: do not use
  int readings_used = 0;
  int stretches = 0;
};

/// Joint posterior on a grid of log conductance, log chiller power and own heat. Start temperatures of the stretches and the size of the
/// reading error are integrated out exactly.
///
/// In      capacity: of the water with what follows it, taken as known: an error of 5 % of it goes into all three results.
///         chiller: rating and slopes; its power is multiplied by the factor sought. Nothing: no chiller.
///         readings: minutes to 3 h apart (a longer gap ends the stretch), at least 6 usable.  Any sensor step; 0.1 C suits best.
/// Out     90 % intervals: on 200 synthetic logs with independent errors they cover 89-93 %; where half the error hangs together over hours, 83 %.
///         Readings whose errors hang together count for less.
/// Shape   some 4000 n exponentials for n readings and half a million grid points: about 50 ms for a week of half-hours.
/// Errors  too few usable readings; times not rising; a share outside 0-1.
/// Source  Bayesian linear regression; noise prior scaled inverse chi-square with 4 degrees about 0.1 C. Assumed: both. Correlated errors by
///         the integrated autocorrelation time of the residuals, or that of first-order autoregressive noise if longer (from memory).
Result<HeatFit> fit_heat(HeatCapacity capacity, const std::optional<Chiller>& chiller, const HeatPrior& prior, std::span<const HeatReading> readings);

/// Chiller shares where only the set-point is known: surely running above the thermostat's band, surely not below it, unknown inside.
std::vector<HeatReading> with_chiller_from_set_point(std::vector<HeatReading> readings, const Thermostat& thermostat);

/// The fit as factors on a tank and a chiller, for holdable_range(): tank.conductance becomes the fit's middle by the caller.
HeatDoubt doubt_of(const HeatFit& fit);

}  // namespace redd::heat
