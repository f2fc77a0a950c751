#include <algorithm>
#include <cmath>

#include "advice/assess.h"
#include "chemistry/limits.h"
#include "chemistry/oxygen.h"
#include "inference/water_belief.h"

namespace redd::advice {
namespace {

using inference::Animals;
using inference::Quantity;
namespace marks = chemistry::limits;

/// Adds what the season's own chart says to a judgement that is otherwise good.
void judge_drift(Assessment& a, const Sentence& up, const Sentence& down) {
  if (!a.baseline || !a.baseline->drifts || a.tone != Tone::good) return;
  a.tone = Tone::watch;
  a.meaning = a.baseline->upwards ? up : down;
}

biology::LifeStage stage_of(Animals animals) {
  switch (animals) {
    case Animals::green_egg: return biology::LifeStage::green_egg;
    case Animals::alevin: return biology::LifeStage::alevin;
    case Animals::fry: return biology::LifeStage::fry;
    default: return biology::LifeStage::eyed_egg;
  }
}

}  // namespace

const records::Record* unmeasured_event(const Situation& s) {
  const auto& t = s.belief.temperature;
  if (!t.latest) return nullptr;
  const records::Record* newest = nullptr;
  for (const auto& record : s.records) {
    if (record.entry.at <= t.read_at) continue;
    if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body)) {
      const auto source = inference::source_water(s.records, change->source_water);
      const auto incoming = change->new_water ? change->new_water : source ? source->temperature : std::nullopt;
      const double fraction = std::min(1.0, change->volume.l() / s.season.volume.l());
      if (incoming && std::abs(fraction * (*incoming - *t.latest).c()) > planning::largest_step.c()) newest = &record;
    } else if (const auto* e = std::get_if<records::EquipmentEvent>(&record.entry.body)) {
      using Event = records::EquipmentEvent::Event;
      using Equipment = records::EquipmentEvent::Equipment;
      if ((e->event == Event::failed || e->event == Event::switched_off) &&
          (e->equipment == Equipment::chiller || e->equipment == Equipment::power || e->equipment == Equipment::heater))
        newest = &record;
    }
  }
  return newest;
}

Assessment assess_ph(const Situation& s) {
  Assessment a = read_of(s, WaterKey::ph, Quantity::ph);
  a.limits = {{"low", marks::ph_low.ph(), "lower end for fresh-water life", "US EPA criterion 6.5-9.0"},
              {"high", marks::ph_high.ph(), "upper end for fresh-water life", "US EPA criterion 6.5-9.0"}};
  if (!a.value) return a;
  a.baseline = baseline_of(s, Quantity::ph);
  const Ph low = Ph::from_ph(a.value->low), high = Ph::from_ph(a.value->high), mid = Ph::from_ph(a.value->mid);
  if (a.open_above) {
    a.tone = Tone::act;
    a.meaning = {"At or above the last step of its card: use a card that goes higher, or a meter."};
  } else if (mid < marks::ph_low || mid > marks::ph_high) {
    a.tone = Tone::act;
    a.meaning = {"About {0}, outside the range 6.5 to 9.0 that fresh-water life needs.", {mid}};
  } else if (low < marks::ph_low || high > marks::ph_high) {
    a.tone = Tone::watch;
    a.meaning = {"Between {0} and {1}: it may be outside the range 6.5 to 9.0.", {low, high}};
  } else {
    a.tone = Tone::good;
    a.meaning = {"Between {0} and {1}, inside the range 6.5 to 9.0.", {low, high}};
  }
  if (a.baseline)
    judge_drift(a, {"It has drifted above this season's normal of {0}: ammonia becomes more harmful as pH rises.", {Ph::from_ph(a.baseline->mean)}},
                {"It has drifted below this season's normal of {0}: look at KH, which holds pH up.", {Ph::from_ph(a.baseline->mean)}});
  return a;
}

Assessment assess_alkalinity(const Situation& s) {
  Assessment a = read_of(s, WaterKey::alkalinity, Quantity::alkalinity);
  const Alkalinity least = marks::alkalinity_least, filter = marks::alkalinity_for_nitrification;
  a.limits = {{"least", least.meq_per_l(), "least for fresh-water life", "US EPA criterion, 20 mg/L as CaCO3"},
              {"filter", filter.meq_per_l(), "the filter's need", "US EPA 1975, 40 mg/L as CaCO3, as quoted"}};
  if (!a.value) return a;
  a.baseline = baseline_of(s, Quantity::alkalinity);
  const auto meq = [](double v) { return Alkalinity::from_meq_per_l(v); };
  if (a.value->mid < least.meq_per_l()) {
    a.tone = Tone::act;
    a.meaning = {"About {0}: too little to hold pH; it can crash within days.", {meq(a.value->mid)}};
  } else if (a.value->mid < filter.meq_per_l()) {
    a.tone = Tone::watch;
    a.meaning = {"About {0}: below the {1} the filter needs to go on working.", {meq(a.value->mid), filter}};
  } else {
    a.tone = Tone::good;
    a.meaning = {"Between {0} and {1}: enough to hold pH.", {meq(a.value->low), meq(a.value->high)}};
  }
  if (a.baseline)
    judge_drift(a, {"It has drifted above this season's normal of {0}.", {meq(a.baseline->mean)}},
                {"It has drifted below this season's normal of {0}: the filter uses it up; a water change or bicarbonate restores it.", {meq(a.baseline->mean)}});
  return a;
}

Assessment assess_hardness(const Situation& s) {
  Assessment a = read_of(s, WaterKey::hardness, Quantity::hardness);
  if (!a.value) return a;
  a.baseline = baseline_of(s, Quantity::hardness);
  const auto meq = [](double v) { return Hardness::from_meq_per_l(v); };
  a.tone = Tone::good;
  a.meaning = a.baseline ? Sentence{"Steady near this season's normal of {0}; being steady is what matters.", {meq(a.baseline->mean)}}
                         : Sentence{"Between {0} and {1}; being steady is what matters, and a normal needs four tests.", {meq(a.value->low), meq(a.value->high)}};
  if (a.baseline)
    judge_drift(a, {"It has drifted above this season's normal of {0}: evaporation leaves minerals behind; top up with purer water.", {meq(a.baseline->mean)}},
                {"It has drifted below this season's normal of {0}: is the source water softer than before?", {meq(a.baseline->mean)}});
  return a;
}

Assessment assess_oxygen(const Situation& s) {
  Assessment a = read_of(s, WaterKey::oxygen, Quantity::oxygen);
  const bool early = s.belief.brood.most_sensitive != Animals::fry;
  const OxygenConc minimum = early ? marks::oxygen_early_stage_minimum : marks::oxygen_later_stage_minimum;
  const OxygenConc mean = early ? marks::oxygen_early_stage_week_mean : marks::oxygen_later_stage_week_mean;
  const Temperature water = s.belief.temperature.latest.value_or(s.season.target);
  const OxygenConc full = chemistry::oxygen_saturation(water, chemistry::pressure_mmhg_at_elevation(s.season.elevation_m));
  a.limits = {{"minimum", minimum.mg_o2_per_l(), "never below", "US EPA 1986 (from memory)"},
              {"week_mean", mean.mg_o2_per_l(), "week's mean", "US EPA 1986 (from memory)"},
              {"saturation", full.mg_o2_per_l(), "in balance with air here", "Benson & Krause 1984, at this height"}};
  if (!a.value) {
    a.meaning = {"Not measured. Water in full balance with air would hold {0} at {1} and this height.", {full, water}};
    return a;
  }
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  if (!inference::has_animals(s.belief.brood.animals)) {
    a.tone = Tone::good;
    a.meaning = {"About {0}; no animals depend on it yet.", {mg(a.value->mid)}};
  } else if (a.value->mid < minimum.mg_o2_per_l()) {
    a.tone = Tone::alarm;
    a.meaning = {"About {0}, below the {1} they need at all times.", {mg(a.value->mid), minimum}};
  } else if (a.value->low < minimum.mg_o2_per_l()) {
    a.tone = Tone::act;
    a.meaning = {"It may be as low as {0}; they need {1} at all times.", {mg(a.value->low), minimum}};
  } else if (a.value->mid < mean.mg_o2_per_l()) {
    a.tone = Tone::watch;
    a.meaning = {"About {0}, under the week's mean of {1} they should have.", {mg(a.value->mid), mean}};
  } else {
    a.tone = Tone::good;
    a.meaning = {"About {0} of the {1} that water here can hold.", {mg(a.value->mid), full}};
  }
  // More than a tenth above balance is gas supersaturation or a slip of the test.
  if (a.value->low > 1.1 * full.mg_o2_per_l()) {
    a.tone = std::max(a.tone, Tone::watch);
    a.meaning = {"More than water here can hold ({0}): repeat the test, and mind gas bubbles from cold new water.", {full}};
  }
  return a;
}

Assessment assess_temperature(const Situation& s) {
  Assessment a;
  a.key = WaterKey::temperature;
  const auto& t = s.belief.temperature;
  const bool animals = inference::has_animals(s.belief.brood.animals);
  if (s.belief.brood.species && animals) {
    const biology::ThermalBand& band = s.belief.brood.species->band(stage_of(s.belief.brood.most_sensitive));
    a.limits = {{"red_below", band.red_below.c(), "too cold", std::string(band.source)},
                {"green_low", band.green_low.c(), "best range begins", std::string(band.source)},
                {"green_high", band.green_high.c(), "best range ends", std::string(band.source)},
                {"red_above", band.red_above.c(), "too warm", std::string(band.source)}};
  }
  if (!t.latest) {
    a.meaning = {"No temperature has been logged."};
    return a;
  }
  a.value = Estimate<double>{t.latest->c(), t.latest->c(), t.latest->c(), Support::measured};
  a.read_at = t.read_at;
  a.age_days = t.age_days;
  a.records = {t.record};
  constexpr double stale_temperature_days = 4.0;  // Assumed: a long weekend
  a.stale = t.age_days > stale_temperature_days;
  if (!animals || !s.belief.brood.species) {
    a.tone = Tone::good;
    a.meaning = {"{0}; no animals are in the tank.", {*t.latest}};
    if (animals) {
      a.tone = Tone::unknown;
      a.meaning = {"{0}; the species is not known, so its bands are not either.", {*t.latest}};
    }
    return a;
  }
  const biology::ThermalBand& band = s.belief.brood.species->band(stage_of(s.belief.brood.most_sensitive));
  switch (biology::thermal_light(band, *t.latest)) {
    case biology::ThermalLight::green:
      a.tone = Tone::good;
      a.meaning = {"{0}, inside the best range of {1} to {2} for this stage.", {*t.latest, band.green_low, band.green_high}};
      break;
    case biology::ThermalLight::amber:
      a.tone = Tone::watch;
      a.meaning = {"{0}, bearable but outside the best range of {1} to {2} for this stage.", {*t.latest, band.green_low, band.green_high}};
      break;
    case biology::ThermalLight::red:
      a.tone = Tone::alarm;
      a.meaning = {"{0}, outside the {1} to {2} this stage bears.", {*t.latest, band.red_below, band.red_above}};
      break;
  }
  if (unmeasured_event(s) && a.tone < Tone::watch) {
    a.tone = Tone::unknown;
    a.meaning = {"{0} when last measured, and it may have moved since: measure again.", {*t.latest}};
  }
  return a;
}

}  // namespace redd::advice
