#include "biology/species.h"

#include <algorithm>
#include <cmath>

#include "quantities/verbatim.h"

namespace redd::biology {

namespace species {
#define REDD_ITEM(name) SpeciesProfile name();
#include "biology/species_list.inc"
#undef REDD_ITEM
}  // namespace species

namespace {

// The shares of hatch were read over most of 0-9.5 C [crisp1988]; a derived stage is tested only where both were.
constexpr Temperature share_test_low = Temperature::from_c(0.0);
constexpr Temperature share_test_high = Temperature::from_c(9.5);

std::optional<DevelopmentModel> direct_model(const SpeciesProfile& species, Stage stage, std::string_view key) {
  for (const DevelopmentModel& each : species.models)
    if (each.stage == stage && (key.empty() || each.key == key)) return each;
  return std::nullopt;
}

DevelopmentModel derived_from_hatch(const SpeciesProfile& species, Stage stage, DevelopmentModel hatch) {
  hatch.stage = stage;
  hatch.factor *= stage == Stage::eyed ? species.eyed_share : species.swim_up_share;
  hatch.test_low = std::max(hatch.test_low, share_test_low);
  hatch.test_high = std::min(hatch.test_high, share_test_high);
  return hatch;
}

template <class Names>
std::string listed(const Names& names) {
  std::string text;
  for (const auto& each : names) {
    if (!text.empty()) text += ", ";
    text += each;
  }
  return text;
}

}  // namespace

const ThermalBand& SpeciesProfile::band(LifeStage stage) const {
  switch (stage) {
    case LifeStage::green_egg:
      return green_egg;
    case LifeStage::eyed_egg:
      return eyed_egg;
    case LifeStage::alevin:
      return alevin;
    case LifeStage::fry:
      break;
  }
  return fry;
}

ThermalLight thermal_light(const ThermalBand& band, Temperature water) {
  if (water >= band.green_low && water <= band.green_high) return ThermalLight::green;
  if (water >= band.red_below && water <= band.red_above) return ThermalLight::amber;
  return ThermalLight::red;  // also for a temperature that is not a number
}

std::vector<SpeciesProfile> all_species() {
  std::vector<SpeciesProfile> all;
#define REDD_ITEM(name) all.push_back(species::name());
#include "biology/species_list.inc"
#undef REDD_ITEM
  return all;
}

Result<SpeciesProfile> find_species(std::string_view name) {
  std::vector<std::string> known;
  for (SpeciesProfile& each : all_species()) {
    const bool is_alias = std::find(each.aliases.begin(), each.aliases.end(), name) != each.aliases.end();
    if (each.key == name || is_alias) return std::move(each);
    std::string entry{each.key};
    for (const std::string_view alias : each.aliases) entry += " (or " + std::string(alias) + ")";
    known.push_back(std::move(entry));
  }
  return Problem{"unknown_species", "species",
                 said("There is no species \"{0}\". Known are: {1}.", verbatim(name), verbatim(listed(known)))};
}

std::vector<std::string_view> model_keys(const SpeciesProfile& species, Stage stage) {
  std::vector<std::string_view> keys;
  for (const Stage source : {stage, Stage::hatch})
    for (const DevelopmentModel& each : species.models)
      if (each.stage == source && std::find(keys.begin(), keys.end(), each.key) == keys.end()) keys.push_back(each.key);
  return keys;
}

Result<DevelopmentModel> model_for(const SpeciesProfile& species, Stage stage, std::string_view key) {
  if (auto direct = direct_model(species, stage, key)) return *std::move(direct);
  if (auto hatch = direct_model(species, Stage::hatch, key))
    return derived_from_hatch(species, stage, *std::move(hatch));
  return Problem{"unknown_model", "model",
                 said("There is no model \"{0}\" for {1} of {2}. Choose one of: {3}.", verbatim(key), name_of(stage), species.common_name, verbatim(listed(model_keys(species, stage))))};
}

double lot_log_sd(const SpeciesProfile& species, Stage stage) {
  return stage == Stage::eyed ? std::hypot(species.lot_log_sd, eyed_share_log_sd) : species.lot_log_sd;
}

}  // namespace redd::biology
