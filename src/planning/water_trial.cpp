#include "planning/water_trial.h"

#include <algorithm>
#include <cmath>

#include "chemistry/carbonate.h"
#include "chemistry/limits.h"
#include "inference/water_belief.h"
#include "planning/water_change.h"
#include "quantities/verbatim.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using TankQuantity = tank::Quantity;

Estimate<double> estimate_of(const WaterBand& band) { return {band.low, band.mid, band.high, Support::inferred}; }
Estimate<double> exactly(double value) { return {value, value, value, Support::inferred}; }

Estimate<double> around(double value, double within) { return {value - within, value, value + within, Support::assumed}; }

/// The same case with another source water, its draws made anew from the same seed.
WaterCase with_source(const WaterCase& made, const records::SourceWater& source, records::RecordId record) {
  WaterCase other = made;
  other.source = new_water(source, record, made.asked.belief);
  other.new_water = new_water_draws(other.source, other.tanks.size(), made.seed());
  return other;
}

/// pH of the tap's own carbon against that of the same water in balance with air: what unaired water adds to the jump, per tank share.
double unaired_ph_jump(const WaterCase& made, double fraction, Temperature water) {
  const auto alkalinity = made.tanks.tanks.column(TankQuantity::alkalinity);
  if (!made.source.ph || alkalinity.empty()) return 0.0;
  const auto tap = chemistry::carbonate_from_ph(water, Alkalinity::from_meq_per_l(std::max(0.02, made.source.alkalinity_meq_per_l.mid)), *made.source.ph);
  const auto aired = chemistry::carbonate_from_pco2(water, Alkalinity::from_meq_per_l(std::max(0.02, made.source.alkalinity_meq_per_l.mid)), chemistry::outdoor_co2_uatm);
  double tank_meq = 0.0;
  for (const double a : alkalinity) tank_meq += a / static_cast<double>(alkalinity.size());
  const auto tank = chemistry::carbonate_from_pco2(water, Alkalinity::from_meq_per_l(std::max(0.02, tank_meq)), chemistry::outdoor_co2_uatm);
  if (!tap || !aired || !tank) return 0.0;
  const auto mixed = [&](double carbon) {
    return chemistry::carbonate_from_dic(water, Alkalinity::from_meq_per_l(fraction * aired->alkalinity_meq_per_l + (1 - fraction) * tank->alkalinity_meq_per_l),
                                         fraction * carbon + (1 - fraction) * tank->dic_mmol_per_l);
  };
  const auto own = mixed(tap->dic_mmol_per_l), air = mixed(aired->dic_mmol_per_l);
  return own && air ? own->ph - air->ph : 0.0;
}

/// The forecast a day after the change.
const WaterDayBands* next_day(const WaterForecast& f, double at_day) {
  const auto found = std::ranges::find_if(f.bands, [&](const WaterDayBands& b) { return b.at_day >= at_day + 0.9; });
  return found == f.bands.end() ? nullptr : &*found;
}

std::vector<TriedRow> rows_of(const WaterCase& made, const TriedWater& tried, double unaired_jump, double step_c) {
  const ChangeBands& b = tried.change.bands;
  const WaterDayBands* next = next_day(tried.with, tried.change.at_day);
  std::vector<TriedRow> rows;
  const auto add = [&](TriedQuantity quantity, WaterBand WaterDayBands::*band) {
    TriedRow row{quantity, estimate_of(b.before.*band), estimate_of(b.after.*band), std::nullopt};
    if (next) row.next_day = estimate_of(next->*band);
    rows.push_back(row);
  };
  add(TriedQuantity::un_ionized_ammonia, &WaterDayBands::un_ionized_mg_n_per_l);
  add(TriedQuantity::total_ammonia, &WaterDayBands::total_ammonia_mg_n_per_l);
  add(TriedQuantity::nitrite, &WaterDayBands::nitrite_mg_n_per_l);
  add(TriedQuantity::nitrate, &WaterDayBands::nitrate_mg_n_per_l);
  add(TriedQuantity::ph, &WaterDayBands::ph);
  for (double Estimate<double>::*end : {&Estimate<double>::low, &Estimate<double>::mid, &Estimate<double>::high}) rows.back().after.*end += unaired_jump;
  add(TriedQuantity::alkalinity, &WaterDayBands::alkalinity_meq_per_l);
  if (made.tanks.hardness_known) add(TriedQuantity::hardness, &WaterDayBands::hardness_meq_per_l);
  constexpr double thermometer_c = 0.7;
  rows.push_back({TriedQuantity::temperature, around(tried.change.tank.c(), thermometer_c), around(tried.change.tank.c() + step_c, thermometer_c), around(tried.change.tank.c(), thermometer_c)});
  const double gas = tried.wished.stood || !tried.change.gas_as_it_comes ? 1.0 : gas_fraction_after(tried.change.fraction, *tried.change.gas_as_it_comes);
  if (tried.wished.stood || tried.change.gas_as_it_comes) rows.push_back({TriedQuantity::gas, exactly(1.0), exactly(std::max(1.0, gas)), exactly(1.0)});
  const double chlorine = tried.wished.dechlorinated ? 0.0 : tried.change.fraction * made.source.chlorine_mg_per_l;
  rows.push_back({TriedQuantity::chlorine, exactly(0.0), {tried.wished.dechlorinated || !made.source.chlorine_known ? 0.0 : chlorine, chlorine, chlorine, made.source.chlorine_known ? Support::inferred : Support::assumed}, std::nullopt});
  return rows;
}

const TriedRow* row_of(const TriedWater& tried, TriedQuantity quantity) {
  const auto found = std::ranges::find(tried.rows, quantity, &TriedRow::quantity);
  return found == tried.rows.end() ? nullptr : &*found;
}

void warn_of_limits(TriedWater& tried, const WaterCase& made) {
  const WaterLimits& limits = made.limits;
  if (!limits.hold_on(tried.change.at_day)) return;
  const auto warn = [&](TriedQuantity quantity, double limit, Shown shown, const char* name) {
    const TriedRow* row = row_of(tried, quantity);
    if (row && row->after.high > limit && row->after.high > row->before.high)
      tried.warnings.push_back({"{0} may rise above its limit of {1} by this change: the new water brings it.", {Word{name}, std::move(shown)}});
    else if (row && row->after.high > limit)
      tried.warnings.push_back({"{0} may stay above its limit of {1}: this change alone is not enough.", {Word{name}, std::move(shown)}});
  };
  warn(TriedQuantity::un_ionized_ammonia, limits.un_ionized_mg_n_per_l, ShownNitrogen{NitrogenConc::from_mg_n_per_l(limits.un_ionized_mg_n_per_l), NitrogenBasis::nh3}, "Un-ionized ammonia");
  warn(TriedQuantity::nitrite, limits.nitrite_mg_n_per_l, inference::on_card(made.asked.belief, inference::Quantity::nitrite, limits.nitrite_mg_n_per_l), "Nitrite");
  warn(TriedQuantity::nitrate, limits.nitrate_mg_n_per_l, inference::on_card(made.asked.belief, inference::Quantity::nitrate, limits.nitrate_mg_n_per_l), "Nitrate");
}

void warn_of_jumps(TriedWater& tried, const WaterCase& made, double unaired_jump, double step_c) {
  const LargestJump& most = made.limits.jump;
  if (std::abs(step_c) > most.temperature_c)
    tried.warnings.push_back({"It moves the tank by {0}: more than {1}. Temper the new water to between {2} and {3}, or change at most {4} at once.",
                              {TemperatureChange::from_c(step_c), largest_step, std::max(tried.change.temper.low, Temperature::from_c(0.5)), tried.change.temper.high,
                               Share{largest_fraction_untempered(tried.change.tank, *tried.wished.new_water)}}});
  const WaterBand jump = tried.change.bands.ph_jump;
  const double worst = std::abs(jump.low + unaired_jump) > std::abs(jump.high + unaired_jump) ? jump.low + unaired_jump : jump.high + unaired_jump;
  if (std::abs(worst) > most.ph)
    tried.warnings.push_back({"It may move pH by {0} at once; more than half a unit is too much: do it in smaller parts on different days.", {Measured{std::abs(worst), "units"}}});
  for (const auto& [quantity, name] : {std::pair(TriedQuantity::alkalinity, "KH"), std::pair(TriedQuantity::hardness, "GH")})
    if (const TriedRow* row = row_of(tried, quantity); row && std::abs(row->after.mid - row->before.mid) > most.hardness_meq_per_l)
      tried.warnings.push_back({"It moves {0} by {1} at once; more than {2} is a shift to do in smaller parts.",
                                {Word{name}, Hardness::from_meq_per_l(std::abs(row->after.mid - row->before.mid)), Hardness::from_meq_per_l(most.hardness_meq_per_l)}});
  if (tried.change.fraction > largest_fraction)
    tried.warnings.push_back({"More than {0} at once: with animals in the tank the old water's stability is lost.", {Share{largest_fraction}}});
}

void warn_of_new_water(TriedWater& tried, const WaterCase& made) {
  const TriedRow* chlorine = row_of(tried, TriedQuantity::chlorine);
  if (chlorine && chlorine->after.high > chemistry::limits::chlorine_acute_mg_per_l)
    tried.warnings.insert(tried.warnings.begin(), Sentence{"Not dechlorinated it may bring {0} of chlorine; fish bear {1} for an hour. It kills the filter too. Dose {2} of sodium thiosulfate first and test.",
                              {Measured{chlorine->after.high, "mg/L"}, Measured{chemistry::limits::chlorine_acute_mg_per_l, "mg/L"}, tried.change.thiosulfate.value_or(Mass::from_g(0))}});
  const TriedRow* gas = row_of(tried, TriedQuantity::gas);
  if (gas && gas->after.high > most_gas_fraction)
    tried.warnings.push_back({"It brings too much gas: {0} of balance in the tank. Let the new water stand and bubble for {1} hours at the tank's temperature.",
                              {Share{gas->after.high}, Number{static_cast<long long>(standing_hours)}}});
  if (!tried.wished.stood && !tried.change.gas_as_it_comes) tried.warnings.push_back({"The new water's temperature as it comes is not on record, so its gas cannot be told: let it stand and bubble for a day."});
  if (tried.wished.vacuum && (inference::are_eggs(made.asked.belief.brood.most_sensitive) || made.asked.belief.brood.most_sensitive == inference::Animals::alevin))
    tried.warnings.push_back({"Do not vacuum under eggs or alevins: they lie on the bottom and in the gravel."});
}

void say_notes(TriedWater& tried, const inference::Belief& belief) {
  if (tried.change.freed_ammonia_mg_n_per_l > 0.0)
    tried.notes.push_back({"Neutralising its chloramine sets ammonia free: {0} in the tank, counted above.", {inference::on_card(belief, inference::Quantity::total_ammonia, tried.change.freed_ammonia_mg_n_per_l)}});
  if (tried.wished.vacuum)
    tried.notes.push_back({"Vacuuming takes out {0} to {1} of waste nitrogen that would have become ammonia.",
                           {Mass::from_mg(tried.vacuumed_mg_n.low), Mass::from_mg(tried.vacuumed_mg_n.high)}});
  tried.notes.insert(tried.notes.end(), tried.source.unknown.begin(), tried.source.unknown.end());
}

}  // namespace

std::string_view tried_key(TriedQuantity quantity) {
  constexpr std::string_view keys[tried_quantity_count] = {"un_ionized_ammonia", "total_ammonia", "nitrite", "nitrate", "ph", "alkalinity", "hardness", "temperature", "gas", "chlorine"};
  return keys[static_cast<std::size_t>(quantity)];
}

Result<TriedWater> try_change(const WaterCase& given, const ChangeWished& asked) {
  ChangeWished wished = asked;
  if (!(wished.fraction > 0.0 && wished.fraction <= 1.0)) return Problem{"out_of_range", "/fraction", "A change is more than nothing and at most the whole tank."};
  std::optional<WaterCase> other;
  if (wished.source) {
    records::RecordId id = 0;
    const auto source = inference::source_water(given.asked.records, wished.source, &id);
    if (!source || source->key != *wished.source) return Problem{"unknown_source", "/source", said("No source water \"{0}\" is on record.", verbatim(*wished.source))};
    other.emplace(with_source(given, *source, id));
  }
  const WaterCase& made = other ? *other : given;
  // Water that has not stood comes as cold or warm as the tap gives it.
  if (!wished.new_water && !wished.stood) wished.new_water = made.source.temperature;
  TriedWater tried;
  tried.wished = wished;
  tried.source = made.source;
  tried.change = planned_change(made, made.asked.now.now_day, wished.fraction, wished.vacuum);
  if (wished.new_water && !made.source.temperature) tried.change.gas_as_it_comes = gas_fraction_on_warming(*wished.new_water, tried.change.tank);
  const double gap_c = wished.new_water ? (*wished.new_water - tried.change.tank).c() : 0.0, step_c = wished.fraction * gap_c;
  if (wished.new_water) tried.change.refill_minutes = minutes_to_refill(TemperatureChange::from_c(step_c));
  tried.day = tried.change.day;
  tried.last = made.date_of(made.until_day);
  WaterCourse course = made.course();
  course.watch_from_day = made.asked.now.now_day;
  const WaterDeed deed{tried.change.at_day, wished.fraction, wished.vacuum, step_c};
  tried.with = forecast_water(made.tanks, course, std::span(&deed, 1), {.bands = true});
  tried.without = forecast_water(made.tanks, course, {});
  if (!tried.with.sound || tried.with.changes.empty()) return Problem{"no_forecast", "", "The simulated tanks came to no number: check the latest readings and the set-up."};
  tried.change.bands = tried.with.changes.front();
  tried.vacuumed_mg_n = estimate_of(tried.change.bands.vacuumed_mg_n);
  const double unaired_jump = wished.stood ? 0.0 : unaired_ph_jump(made, wished.fraction, tried.change.tank);
  tried.rows = rows_of(made, tried, unaired_jump, step_c);
  if (made.limits.from_day && *made.limits.from_day <= made.asked.now.now_day) warn_of_jumps(tried, made, unaired_jump, step_c);
  warn_of_new_water(tried, made);
  warn_of_limits(tried, made);
  say_notes(tried, given.asked.belief);
  return tried;
}

}  // namespace redd::planning
