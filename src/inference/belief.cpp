#include "inference/belief.h"

#include <algorithm>

#include "chemistry/ammonia.h"
#include "inference/brood_belief.h"
#include "inference/temperature_belief.h"
#include "inference/water_belief.h"

namespace redd::inference {
namespace {

/// How far ahead the plan's temperatures reach. Assumed: the coldest batch from fertilisation to swim-up takes less than this.
constexpr std::chrono::days horizon{300};

constexpr Quantity weekly_tests[] = {Quantity::total_ammonia, Quantity::nitrite, Quantity::nitrate,
                                     Quantity::ph,            Quantity::alkalinity, Quantity::hardness};

void collect_gaps(Belief& belief) {
  std::vector<Sentence> missing;
  for (const Quantity quantity : weekly_tests) {
    const QuantityBelief* known = belief.find(quantity);
    const Word name{records::quantity_text(quantity)};
    if (!known) belief.gaps.push_back({"No {0} has been tested yet, so nothing can be said of it.", {name}});
    else if (is_stale(*known)) belief.gaps.push_back({"The latest {0} test is {1} old: too old to say how the water is now.", {name, Days(known->age_days)}});
  }
  if (!belief.temperature.latest)
    belief.gaps.push_back("No tank temperature has been logged yet: the set-point or target is assumed.");
  else if (belief.temperature.age_days > 4.0)
    belief.gaps.push_back({"The latest tank temperature is {0} old: days since then are filled in.", {Days(belief.temperature.age_days)}});
  if (!belief.source) belief.gaps.push_back("The source water is not described, so what a water change would do is only partly known.");
}

}  // namespace

const QuantityBelief* Belief::find(Quantity quantity) const {
  const auto found = water.find(quantity);
  return found == water.end() ? nullptr : &found->second;
}

ShownNitrogen on_card(const Belief& belief, Quantity quantity, double mg_n_per_l) {
  NitrogenBasis basis = quantity == Quantity::nitrate ? NitrogenBasis::no3 : NitrogenBasis::n;
  if (const QuantityBelief* known = belief.find(quantity)) {
    switch (known->unit) {
      case records::TestUnit::mg_nh3_per_l: basis = NitrogenBasis::nh3; break;
      case records::TestUnit::mg_nh4_per_l: basis = NitrogenBasis::nh4; break;
      case records::TestUnit::mg_no2_per_l: basis = NitrogenBasis::no2; break;
      case records::TestUnit::mg_no3_per_l: basis = NitrogenBasis::no3; break;
      default: basis = NitrogenBasis::n; break;
    }
  }
  return {NitrogenConc::from_mg_n_per_l(mg_n_per_l), basis};
}

std::optional<Sentence> egg_day_assumed(const records::SeasonSetup& season, const BroodBelief& brood) {
  if (!season.egg_day_assumed || !season.egg_day || brood.animals != Animals::none) return std::nullopt;
  return Sentence{"The day the eggs arrive is not known: {0} is assumed, {1} after filling. Ask the hatchery, and write it into the set-up.", {*season.egg_day, Days(*season.egg_day - season.first_day)}};
}

Belief estimate(const records::SeasonSetup& season, std::span<const records::Record> records, const ZoneOffsets& zone, Instant now) {
  Belief belief;
  belief.temperature = temperature_belief(season, records, zone, now, std::max(local_day(zone, now), season.first_day) + horizon);
  const Temperature water_now = belief.temperature.latest.value_or(belief.temperature.set_point.value_or(season.target));
  belief.water = water_belief(season, records, zone, now, water_now, belief.gaps);
  belief.source = source_water(records, std::nullopt, &belief.source_record);
  if (const QuantityBelief* chloride = belief.find(Quantity::chloride)) belief.chloride_mg_per_l = chloride->value.low;
  else if (belief.source) belief.chloride_mg_per_l = belief.source->chloride_mg_per_l;
  collect_gaps(belief);
  belief.brood = brood_belief(season, records, zone, now, belief.temperature, belief.gaps);
  if (auto assumed = egg_day_assumed(season, belief.brood)) belief.gaps.push_back(std::move(*assumed));
  return belief;
}

std::optional<UnIonized> un_ionized_ammonia(const Belief& belief) {
  const QuantityBelief* total = belief.find(Quantity::total_ammonia);
  if (!total) return std::nullopt;
  const QuantityBelief* ph = belief.find(Quantity::ph);
  // Without any pH the usual range of a school tank is taken, so that the high end still warns.
  const Estimate<double> ph_range = ph ? ph->value : Estimate<double>{6.5, 7.5, 8.5, Support::assumed};
  if (belief.temperature.days.empty()) return std::nullopt;
  constexpr double thermometer_doubt_c = 0.5;  // Assumed: a school thermometer, +- 0.5 C
  const Temperature water = belief.temperature.latest.value_or(belief.temperature.days.back().mean);
  const auto at = [&](double n, double p, double dt) {
    return chemistry::un_ionized(NitrogenConc::from_mg_n_per_l(n), water + TemperatureChange::from_c(dt), Ph::from_ph(std::min(p, 14.0))).mg_n_per_l();
  };
  UnIonized result;
  result.mg_n_per_l = {at(total->value.low, ph_range.low, -thermometer_doubt_c), at(total->value.mid, ph_range.mid, 0.0),
                       at(total->value.high, ph_range.high, thermometer_doubt_c), Support::inferred};
  result.open_above = total->open_above || (ph && ph->open_above);
  result.ph_known = ph != nullptr;
  result.records = total->records;
  if (ph) result.records.insert(result.records.end(), ph->records.begin(), ph->records.end());
  if (belief.temperature.record) result.records.push_back(belief.temperature.record);
  return result;
}

}  // namespace redd::inference
