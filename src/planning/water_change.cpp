#include "planning/water_change.h"

#include <algorithm>
#include <cmath>

#include "chemistry/ammonia.h"
#include "chemistry/dosing.h"
#include "chemistry/mixing.h"

namespace redd::planning {
namespace {

using inference::Belief;
using inference::Quantity;
using inference::QuantityBelief;
using records::SourceWater;

std::optional<double> incoming(const SourceWater& source, Quantity quantity) {
  const auto n = [](const std::optional<NitrogenConc>& c) { return c ? std::optional(c->mg_n_per_l()) : std::nullopt; };
  switch (quantity) {
    case Quantity::total_ammonia: {
      // Neutralised chloramine leaves its ammonia behind.
      const double released = source.chloramine && source.chlorine_mg_per_l ? chemistry::ammonia_released_by(*source.chlorine_mg_per_l).mg_n_per_l() : 0.0;
      const auto own = n(source.total_ammonia);
      return own || released > 0.0 ? std::optional(own.value_or(0.0) + released) : std::nullopt;
    }
    case Quantity::nitrite: return n(source.nitrite);
    case Quantity::nitrate: return n(source.nitrate);
    case Quantity::alkalinity: return source.alkalinity ? std::optional(source.alkalinity->meq_per_l()) : std::nullopt;
    case Quantity::hardness: return source.hardness ? std::optional(source.hardness->meq_per_l()) : std::nullopt;
    case Quantity::chloride: return source.chloride_mg_per_l;
    default: return std::nullopt;
  }
}

Estimate<double> diluted(const Estimate<double>& tank, double fraction, std::optional<double> source) {
  const auto mix = [&](double value, double from_source) { return chemistry::mixed_value(fraction, from_source, value); };
  if (source) return {mix(tank.low, *source), mix(tank.mid, *source), mix(tank.high, *source), Support::inferred};
  return {mix(tank.low, 0.0), mix(tank.mid, tank.mid / 2.0), tank.high, Support::assumed};
}

struct PhAfter {
  Estimate<double> just_mixed;
  Estimate<double> next_day;
};

/// pH of the mixture for each end of the tank's pH range; the tank then breathes itself back to the CO2 it stood at. Less than air holds it cannot go back
/// to: a tank read below that takes CO2 up from the air, so that its pH falls to that of balance at the mixed KH.
std::optional<PhAfter> ph_after(const Belief& belief, double fraction, Temperature water) {
  const QuantityBelief* ph = belief.find(Quantity::ph);
  const QuantityBelief* alkalinity = belief.find(Quantity::alkalinity);
  if (!ph || !alkalinity || !belief.source || !belief.source->ph || !belief.source->alkalinity) return std::nullopt;
  const chemistry::BufferedWater source{water, *belief.source->ph, *belief.source->alkalinity};
  std::optional<PhAfter> result;
  // Every corner of what the pH and KH readings allow; the middle of both is the middle of the answer.
  for (const double from : {ph->value.mid, ph->value.low, ph->value.high})
    for (const double meq_per_l : {alkalinity->value.mid, alkalinity->value.low, alkalinity->value.high}) {
      const auto alk = Alkalinity::from_meq_per_l(std::max(meq_per_l, 0.01));
      const auto standing = chemistry::carbonate_from_ph(water, alk, Ph::from_ph(from));
      if (!standing || standing->pco2_uatm <= 0.0) continue;
      const auto mix = chemistry::mixed(source, {water, Ph::from_ph(from), alk}, fraction, std::max(standing->pco2_uatm, chemistry::outdoor_co2_uatm));
      if (!mix) continue;
      const double now = mix->just_mixed.ph, later = mix->after_aeration.ph;
      if (!result) result = PhAfter{{now, now, now, Support::inferred}, {later, later, later, Support::inferred}};
      result->just_mixed.low = std::min(result->just_mixed.low, now);
      result->just_mixed.high = std::max(result->just_mixed.high, now);
      result->next_day.low = std::min(result->next_day.low, later);
      result->next_day.high = std::max(result->next_day.high, later);
    }
  return result;
}

Estimate<double> un_ionized(const Estimate<double>& total, const Estimate<double>& ph, Temperature water) {
  const auto at = [&](double n, double p) { return chemistry::un_ionized(NitrogenConc::from_mg_n_per_l(n), water, Ph::from_ph(std::min(p, 14.0))).mg_n_per_l(); };
  return {at(total.low, ph.low), at(total.mid, ph.mid), at(total.high, ph.high), Support::inferred};
}

void set_temperature(WaterChange& change, const Belief& belief) {
  change.tank_after = change.tank_before;
  if (!belief.source || !belief.source->temperature || change.fraction <= 0.0) return;
  const TemperatureChange gap = *belief.source->temperature - change.tank_before;
  const double step_c = change.fraction * gap.c();
  if (std::abs(step_c) <= untempered_step.c()) {
    change.tank_after = change.tank_before + TemperatureChange::from_c(step_c);
  } else {
    change.temper_to = change.tank_before;
    change.notes.push_back({"Temperature as it will be if the new water is brought to {0} first.", {*change.temper_to}});
  }
}

void set_un_ionized(WaterChange& change, const Belief& belief) {
  const auto now = inference::un_ionized_ammonia(belief);
  const auto total = change.after.find(Quantity::total_ammonia);
  if (!now || total == change.after.end()) return;
  change.un_ionized_before = now->mg_n_per_l;
  const auto mixed_ph = change.after.find(Quantity::ph);
  const Estimate<double> ph = mixed_ph != change.after.end() ? mixed_ph->second : Estimate<double>{6.5, 7.5, 8.5, Support::assumed};
  const Temperature warm_end = change.tank_after + TemperatureChange::from_c(0.5);
  Estimate<double> worse = un_ionized(total->second, ph, warm_end);
  if (change.ph_next_day) {
    const Estimate<double> later = un_ionized(total->second, *change.ph_next_day, warm_end);
    if (later.high > worse.high) worse = later;
  }
  change.un_ionized_after = worse;
}

}  // namespace

WaterChange predict_change(const records::SeasonSetup& season, const Belief& belief, double fraction) {
  WaterChange change;
  change.fraction = fraction;
  change.volume = Volume::from_l(fraction * season.volume.l());
  change.tank_before = belief.temperature.latest.value_or(belief.temperature.set_point.value_or(season.target));
  set_temperature(change, belief);
  for (const auto& [quantity, known] : belief.water) {
    change.before[quantity] = known.value;
    if (quantity == Quantity::ph) {
      const auto ph = ph_after(belief, fraction, change.tank_after);
      // Not enough known to mix through the carbonate system: pH may move either way by as much as was changed.
      change.after[quantity] = ph ? ph->just_mixed : Estimate<double>{known.value.low - fraction, known.value.mid, known.value.high + fraction, Support::assumed};
      if (ph) change.ph_next_day = ph->next_day;
    } else if (quantity == Quantity::oxygen || quantity == Quantity::chlorine) {
      change.after[quantity] = known.value;
    } else {
      const auto source = belief.source ? incoming(*belief.source, quantity) : std::nullopt;
      change.after[quantity] = diluted(known.value, fraction, source);
      if (!source) change.notes.push_back({"The source water's {0} is not logged: test it, or the prediction stays wide.", {Word{records::quantity_text(quantity)}}});
    }
  }
  set_un_ionized(change, belief);
  if (belief.source && belief.source->chlorine_mg_per_l && *belief.source->chlorine_mg_per_l > 0.0)
    change.thiosulfate = chemistry::thiosulfate_for(change.volume, *belief.source->chlorine_mg_per_l);
  return change;
}

std::optional<WaterChange> smallest_change(const records::SeasonSetup& season, const Belief& belief,
                                           const std::function<bool(const WaterChange&)>& goal) {
  constexpr double step = 0.05;
  const int least = 2, most = static_cast<int>(std::lround(largest_fraction / step));
  for (int i = least; i <= most; ++i) {
    WaterChange change = predict_change(season, belief, step * i);
    if (goal(change)) return change;
  }
  return std::nullopt;
}

}  // namespace redd::planning
