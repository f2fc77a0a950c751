#include "planning/new_water.h"

#include <algorithm>
#include <cmath>

#include "chemistry/dosing.h"
#include "chemistry/limits.h"
#include "chemistry/oxygen.h"
#include "planning/water_change.h"
#include "quantities/verbatim.h"

namespace redd::planning {
namespace {

using inference::Quantity;

/// Assumed: what a supplier prints or a school has tested holds within 15 % on the day (9 times in 10).
constexpr double known_within = 0.15;

Estimate<double> known(double value) { return {value * (1.0 - known_within), value, value * (1.0 + known_within), Support::measured}; }

std::optional<double> first_read(const inference::Belief& belief, Quantity quantity) {
  const auto* found = belief.find(quantity);
  return found && !found->sittings.empty() ? std::optional(found->sittings.front().value.mid) : std::nullopt;
}

/// Chloramine's nitrogen comes free when the chlorine is bound. Not said to be free chlorine: reckoned as chloramine, the worse.
void set_chlorine(NewWater& water, const std::optional<records::SourceWater>& source) {
  water.chlorine_known = source && source->chlorine_mg_per_l.has_value();
  water.chloramine = source && source->chloramine;
  water.chlorine_mg_per_l = water.chlorine_known ? *source->chlorine_mg_per_l : chemistry::limits::chlorine_us_tap_maximum_mg_per_l;
  if (water.chloramine) water.freed_ammonia_mg_n_per_l = chemistry::ammonia_released_by(water.chlorine_mg_per_l).mg_n_per_l();
  if (!water.chlorine_known)
    water.unknown.push_back({"Its chlorine is not on record: {0} is reckoned with, the most that US tap water may carry. Test total chlorine, also after dosing.",
                             {Measured{water.chlorine_mg_per_l, "mg/L"}}});
}

void set_nitrogen(NewWater& water, const std::optional<records::SourceWater>& source, const inference::Belief& belief) {
  const Estimate<double> hardly_any{0.0, 0.02, 0.1, Support::assumed};  // Assumed: drinking water holds hardly any
  water.total_ammonia_mg_n_per_l = source && source->total_ammonia ? known(source->total_ammonia->mg_n_per_l()) : hardly_any;
  water.nitrite_mg_n_per_l = source && source->nitrite ? known(source->nitrite->mg_n_per_l()) : hardly_any;
  for (double Estimate<double>::*end : {&Estimate<double>::low, &Estimate<double>::mid, &Estimate<double>::high}) water.total_ammonia_mg_n_per_l.*end += water.freed_ammonia_mg_n_per_l;
  if (source && source->nitrate) {
    water.nitrate_mg_n_per_l = known(source->nitrate->mg_n_per_l());
  } else {
    // It may dilute fully or hardly at all.
    const auto* tank = belief.find(Quantity::nitrate);
    const double most = tank ? std::max(1.0, tank->value.mid) : 5.0;
    water.nitrate_mg_n_per_l = {0.0, 0.5 * most, most, Support::assumed};
  }
  const auto missing = [&](bool known, const char* name) {
    if (!known) water.unknown.push_back({"Its {0} is not on record: test it, or the forecast stays wide.", {Word{name}}});
  };
  missing(source && source->total_ammonia, "total ammonia");
  missing(source && source->nitrite, "nitrite");
  missing(source && source->nitrate, "nitrate");
}

void set_salts(NewWater& water, const std::optional<records::SourceWater>& source, const inference::Belief& belief) {
  constexpr double usual_alkalinity_meq_per_l = 1.5;  // Assumed: soft drinking water
  const auto doubtful = [](double value) { return Estimate<double>{0.6 * value, value, 1.4 * value, Support::assumed}; };
  if (source && source->alkalinity) {
    water.alkalinity_meq_per_l = known(source->alkalinity->meq_per_l());
  } else {
    water.alkalinity_meq_per_l = doubtful(first_read(belief, Quantity::alkalinity).value_or(usual_alkalinity_meq_per_l));
    water.unknown.push_back({"Its KH is not on record: {0} is taken.", {Alkalinity::from_meq_per_l(water.alkalinity_meq_per_l.mid)}});
  }
  if (source && source->hardness) {
    water.hardness_meq_per_l = known(source->hardness->meq_per_l());
  } else if (const auto read = first_read(belief, Quantity::hardness)) {
    water.hardness_meq_per_l = doubtful(*read);
    water.unknown.push_back({"Its GH is not on record: {0}, the tank's first, is taken.", {Hardness::from_meq_per_l(*read)}});
  }
}

}  // namespace

NewWater new_water(const std::optional<records::SourceWater>& source, records::RecordId record, const inference::Belief& belief) {
  NewWater water;
  water.record = record;
  water.key = source ? source->key : "";
  water.name = source ? verbatim(source->name.empty() ? source->key : source->name) : Phrase("new water");
  if (!source) water.unknown.push_back({"No source water is on record: describe the tap's water, or the forecast stays wide."});
  set_chlorine(water, source);
  set_nitrogen(water, source, belief);
  set_salts(water, source, belief);
  if (source) {
    water.ph = source->ph;
    water.temperature = source->temperature;
  }
  if (!water.temperature) water.unknown.push_back({"Its temperature is not on record: measure it, and bring it to the tank's before it goes in."});
  return water;
}

double gas_fraction_on_warming(Temperature from, Temperature to) {
  return chemistry::oxygen_saturation(from).mg_o2_per_l() / chemistry::oxygen_saturation(to).mg_o2_per_l();
}

Tempering tempering(double fraction, Temperature tank, const std::optional<Temperature>& source) {
  const auto room = TemperatureChange::from_c(fraction > 0.0 ? largest_step.c() / fraction : 30.0);
  Tempering t{false, tank - room, tank, tank + room};
  if (source && std::abs(fraction * (*source - tank).c()) <= untempered_step.c()) {
    t.as_it_comes = true;
    t.aim = *source;
  }
  return t;
}

double largest_fraction_untempered(Temperature tank, Temperature incoming) {
  const double gap_c = std::abs((incoming - tank).c());
  return gap_c <= largest_step.c() ? 1.0 : largest_step.c() / gap_c;
}

int minutes_to_refill(TemperatureChange step) {
  constexpr double five = 5.0;
  constexpr int least = 15;
  const double minutes = 60.0 * std::abs(step.c()) / largest_step.c();
  return std::max(least, static_cast<int>(five * std::ceil(minutes / five - 1e-9)));
}

}  // namespace redd::planning
