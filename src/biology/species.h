#pragma once
// What Redd knows of each kind of salmon or trout: its development curves, its temperature bands, its size at swim-up.
// Start at find_species(). One file in biology/species/ is one species; adding a species is adding a file.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "biology/development_model.h"
#include "biology/stages.h"
#include "quantities/estimate.h"
#include "quantities/result.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::biology {

/// Where the water may stand in one life stage: green between the inner limits, red outside the outer ones, amber
/// between.
struct ThermalBand {
  Temperature red_below;
  Temperature green_low;
  Temperature green_high;
  Temperature red_above;
  std::string_view source;
};

enum class ThermalLight { green, amber, red };

/// The limits themselves belong to the milder colour.
ThermalLight thermal_light(const ThermalBand& band, Temperature water);

/// How fast tank water may change, for any life stage in the tank. Planning limits, not lethal ones.
/// Source  common hatchery practice, from memory; sudden cooling of eyed eggs and hatchlings is the known harm
/// [peterson1977].
struct TemperatureRateLimits {
  TemperatureChange per_hour = TemperatureChange::from_c(1.0);
  TemperatureChange per_day = TemperatureChange::from_c(3.0);
};

struct SpeciesProfile {
  std::string_view key;
  std::string_view common_name;
  std::string_view scientific_name;
  std::vector<std::string_view> aliases = {};

  /// Rival curves, the default of each stage first. A stage without any is derived from hatch by `eyed_share`,
  /// `swim_up_share`.
  std::vector<DevelopmentModel> models;
  double eyed_share = 0.5;     ///< days to eyed / days to hatch [crisp1988]
  double swim_up_share = 1.7;  ///< days to swim-up / days to hatch [crisp1988]; unused where a swim-up curve exists

  /// sd of ln(observed/model) between lots, for hatch and swim-up.
  /// Source  0.07-0.08 worked out from published rows: see docs/science/development.md, "How wrong the curves are".
  double lot_log_sd = 0.08;

  ThermalBand green_egg;
  ThermalBand eyed_egg;
  ThermalBand alevin;
  ThermalBand fry;

  Estimate<Mass> swim_up_weight = {Mass::from_g(0.0), Mass::from_g(0.0), Mass::from_g(0.0), Support::assumed};  ///< wet
  std::string_view swim_up_weight_source = {};

  /// Thermal growth coefficient (times 1000) of farmed fry fed to satiation; log-normal between low and high.
  /// Source  1 is the published line [iwama1981]; 0.6-1.4 is the usual range of series worked back (docs/science/growth.md).
  Estimate<double> growth_coefficient = {0.6, 1.0, 1.4, Support::assumed};
  double condition = 1.0;  ///< condition factor of grown fish, 100 g/cm3; see usual_condition()

  const ThermalBand& band(LifeStage stage) const;
};

/// All species, sorted by key.
std::vector<SpeciesProfile> all_species();

/// The species of this key or alias ("pink" is the even-year line, "steelhead" is rainbow trout).
/// Errors  unknown_species, naming all that are known.
Result<SpeciesProfile> find_species(std::string_view name);

/// Which rival a stage uses; empty means the species' default.
struct ModelChoice {
  std::string hatch = {};
  std::string swim_up = {};  ///< also takes a hatch curve's key: swim-up is then that curve times the species' share
  std::string eyed = {};     ///< takes a hatch curve's key: eyed is that curve times the species' share
};

/// The curve of one stage.
///
/// In      key: empty for the default.
/// Out     the stage's own curve of that key, else the hatch curve of that key times the published share of hatch.
/// Errors  unknown_model, naming the keys this species and stage accept.
/// Source  [crisp1988], summary: eyed = 0.5 and swim-up = 1.7 of hatch, over most of 0-9.5 C; test range narrowed to
/// that.
Result<DevelopmentModel> model_for(const SpeciesProfile& species, Stage stage, std::string_view key = {});

/// Keys model_for() accepts for this stage, the default first.
std::vector<std::string_view> model_keys(const SpeciesProfile& species, Stage stage);

/// sd of ln(observed/model) of the lot's date of this stage.
double lot_log_sd(const SpeciesProfile& species, Stage stage);

/// What deriving the eyed stage from hatch adds to the lot's error.
/// Assumed: published shares run from 0.49 to 0.6; a normal of this sd about 0.5 puts both ends inside its 99 %
/// interval.
inline constexpr double eyed_share_log_sd = 0.08;

/// Added to a lot's log sd for each C outside the curve's tested range, in quadrature.
/// Assumed: rivals of one species part by about this much for each C beyond their common range (chinook, rainbow).
inline constexpr double extrapolation_log_sd_per_c = 0.05;

}  // namespace redd::biology
