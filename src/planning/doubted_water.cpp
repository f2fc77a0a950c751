#include "planning/doubted_water.h"

#include <algorithm>
#include <cmath>

#include "chemistry/carbonate.h"

namespace redd::planning {
namespace {

using inference::Belief;
using inference::Quantity;
using inference::QuantityBelief;

/// Assumed: a kit that is off by less hides it between two steps of its card, and its reading is wide enough as it is.
constexpr double least_ph_error = 0.3, least_error_factor = 1.25;

Temperature water_of(const records::SeasonSetup& season, const Belief& belief) { return belief.temperature.latest.value_or(season.target); }

void widen(QuantityBelief& known, double also, const Sentence& why, const std::vector<records::RecordId>& records) {
  if (known.doubt) known.doubt->why = joined(known.doubt->why, why);
  else known.doubt = inference::ReadingDoubt{why, known.value, {}};
  known.doubt->records.insert(known.doubt->records.end(), records.begin(), records.end());
  known.value.low = std::min(known.value.low, also);
  known.value.high = std::max(known.value.high, also);
}

/// Whether the quantity's latest sitting was read with this kit's test: what another kit says is not in doubt.
bool rests_on(const QuantityBelief& known, const inference::DoubtedThing& kit) {
  return std::ranges::any_of(known.records, [&](records::RecordId id) { return std::ranges::find(kit.records, id) != kit.records.end(); });
}

void doubt_kits(Belief& belief, const FilterOutlook& filter) {
  for (const inference::DoubtedThing& kit : filter.doubts) {
    if (kit.what != inference::FilterDoubt::suspect_kit || !kit.kit_quantity) continue;
    const auto known = belief.water.find(*kit.kit_quantity);
    if (known == belief.water.end() || !rests_on(known->second, kit)) continue;
    const bool ph = *kit.kit_quantity == Quantity::ph;
    if (ph ? std::abs(kit.kit_error) < least_ph_error : kit.kit_error <= 0.0 || std::abs(std::log(kit.kit_error)) < std::log(least_error_factor)) continue;
    const Estimate<double>& read = known->second.value;
    const auto truth = [&](double v) { return ph ? v - kit.kit_error : v / kit.kit_error; };
    const bool reads_high = ph ? kit.kit_error > 0.0 : kit.kit_error > 1.0;
    widen(known->second, truth(reads_high ? read.low : read.high), {"The kit it is read with seems to be off time after time: compare it with another one."}, kit.records);
  }
}

void doubt_ph_and_kh(Belief& belief, const records::SeasonSetup& season) {
  const auto clash = ph_against_kh(season, belief);
  if (!clash) return;
  QuantityBelief &ph = belief.water.at(Quantity::ph), &kh = belief.water.at(Quantity::alkalinity);
  const double kh_end = clash->too_much_co2 ? kh.value.high : kh.value.low;
  const auto aired = chemistry::carbonate_from_pco2(water_of(season, belief), Alkalinity::from_meq_per_l(std::max(kh_end, 0.01)), chemistry::outdoor_co2_uatm);
  const Sentence why{"pH and KH contradict each other, so one of them is wrong: repeat both tests."};
  // At one pH the dissolved CO2 goes with KH.
  const double needed = clash->too_much_co2 ? kh.value.low * most_co2_mg_per_l / clash->co2_mg_per_l : kh.value.high * least_co2_mg_per_l / clash->co2_mg_per_l;
  if (aired) widen(ph, aired->ph, why, clash->records);
  widen(kh, needed, why, clash->records);
}

}  // namespace

std::optional<PhAgainstKh> ph_against_kh(const records::SeasonSetup& season, const Belief& belief) {
  const auto* ph = belief.find(Quantity::ph);
  const auto* kh = belief.find(Quantity::alkalinity);
  if (!ph || !kh || inference::is_stale(*ph) || inference::is_stale(*kh) || ph->open_above) return std::nullopt;
  if (std::abs(days_between(ph->read_at, kh->read_at).count()) > 2.0) return std::nullopt;
  const auto co2 = [&](double p, double alk) {
    const auto state = chemistry::carbonate_from_ph(water_of(season, belief), Alkalinity::from_meq_per_l(std::max(alk, 0.01)), Ph::from_ph(p));
    return state ? std::optional(state->co2_mg_per_l) : std::nullopt;
  };
  const auto least = co2(ph->as_read.high, kh->as_read.low), most = co2(ph->as_read.low, kh->as_read.high);
  if (!least || !most || (*least <= most_co2_mg_per_l && *most >= least_co2_mg_per_l)) return std::nullopt;
  PhAgainstKh clash{*least > most_co2_mg_per_l, *least > most_co2_mg_per_l ? *least : *most, ph->records};
  clash.records.insert(clash.records.end(), kh->records.begin(), kh->records.end());
  return clash;
}

Belief with_doubt(Belief belief, const records::SeasonSetup& season, const FilterOutlook* filter) {
  const auto marked = [](const auto& known) { return known.second.doubt.has_value(); };
  if (std::ranges::any_of(belief.water, marked)) return belief;
  if (filter) doubt_kits(belief, *filter);
  doubt_ph_and_kh(belief, season);
  return belief;
}

}  // namespace redd::planning
