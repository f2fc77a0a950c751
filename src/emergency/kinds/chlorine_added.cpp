// Tap water went in without its chlorine being neutralised.

#include <algorithm>

#include "chemistry/dosing.h"
#include "chemistry/limits.h"
#include "chemistry/toxicants.h"
#include "emergency/holds.h"
#include "inference/water_belief.h"

namespace redd::emergency::kinds {
namespace {

namespace limits = chemistry::limits;

/// Total chlorine in the tank by a test of the last day: its high end.
std::optional<double> read_mg_per_l(const Case& now) {
  const auto* read = now.belief.find(records::Quantity::chlorine);
  if (!read || read->age_days > 1.0) return std::nullopt;
  return std::max(0.0, read->value.high);
}

/// Of the water that went in last, else of the water used when nobody says which.
std::optional<double> source_mg_per_l(const Case& now) {
  const auto* change = recent_change(now);
  const auto source = change ? inference::source_water(now.records, change->source_water) : now.belief.source;
  if (!source || !source->chlorine_mg_per_l || *source->chlorine_mg_per_l <= 0.0) return std::nullopt;
  return source->chlorine_mg_per_l;
}

std::optional<double> in_tank_mg_per_l(const Case& now) {
  if (const auto read = read_mg_per_l(now)) return read;
  const auto* change = recent_change(now);
  const auto source = source_mg_per_l(now);
  if (!change || !source) return std::nullopt;
  return std::min(1.0, change->volume.l() / std::max(1.0, now.season.volume.l())) * *source;
}

/// A dose only where volume and chlorine are both known.
Sentence neutralise(const Case& now) {
  if (const auto read = read_mg_per_l(now); read && *read >= limits::chlorine_chronic_mg_per_l)
    return {"Neutralise it at once: {0} of sodium thiosulfate for the tank's {1} at {2} chlorine as tested, dissolved and spread over the surface.",
            {chemistry::thiosulfate_for(now.season.volume, *read), now.season.volume, Measured{*read, "mg/L"}}};
  const auto source = source_mg_per_l(now);
  if (!source) return "Neutralise it at once, dosed for the water that went in, by the label of your conditioner: how much chlorine your tap water holds is not on record.";
  if (const auto* change = recent_change(now))
    return {"Neutralise it at once: {0} of sodium thiosulfate for {1} of tap water at {2} chlorine, dissolved and spread over the surface.",
            {chemistry::thiosulfate_for(change->volume, *source), change->volume, Measured{*source, "mg/L"}}};
  const auto ten_litres = Volume::from_l(10.0);
  return {"Neutralise it at once: {0} of sodium thiosulfate for every {1} of tap water that went in, at {2} chlorine, dissolved and spread over the surface.",
          {chemistry::thiosulfate_for(ten_litres, *source), ten_litres, Measured{*source, "mg/L"}}};
}

HoldTime harm(const Case& now) {
  const auto known = in_tank_mg_per_l(now);
  if (!known)
    return {"chlorine harms gills and eggs", std::nullopt,
            "Minutes to hours. US EPA's limit for life in fresh water is 0.019 mg/L over an hour (1984): below what drop kits and strips show."};
  const Measured found{*known, "mg/L"}, hour{limits::chlorine_acute_mg_per_l, "mg/L"}, days{limits::chlorine_chronic_mg_per_l, "mg/L"};
  const Sentence what{"chlorine at about {0} in the tank harms gills and eggs", {found}};
  if (*known < limits::chlorine_chronic_mg_per_l)
    return {what, std::nullopt, {"Below US EPA's limits (1984), {0} over an hour and {1} over four days; but no kit shows so little for sure: neutralise all the same.", {hour, days}}};
  if (*known < limits::chlorine_acute_mg_per_l)
    return {what, planning::HoldSpan{Hours(1.0), Hours(96.0), Hours(96.0)}, {"US EPA's limits (1984): {0} over an hour, {1} over four days.", {hour, days}}};
  const Hours half_dead(std::min(14400.0, chemistry::monochloramine_minutes_to_lc50(1000.0 * *known)) / 60.0);
  return {what, planning::HoldSpan{Hours(0.0), std::min(Hours(1.0), half_dead), half_dead},
          {"US EPA's limit is {0} over an hour (1984). So much monochloramine, lasting, kills half of juvenile chinook in {1} (Farrell and others 2001); for eggs no number was found, take the same.",
           {hour, Days(half_dead)}}};
}

}  // namespace

Emergency chlorine_added(const Case& now) {
  Emergency e;
  e.key = "chlorine_added", e.rank = 3;
  e.name = "Chlorinated water added";
  e.sign = "Tap water went in untreated; fish gasp, dash or lie on the bottom, the water may smell.";
  const auto read = read_mg_per_l(now);
  e.now = read && *read >= 2.0 * limits::chlorine_acute_mg_per_l;
  e.hold = {harm(now)};
  e.steps = {neutralise(now), "Strong air and flow. No more raw tap water, not even to dilute.", "Test total chlorine again after ten minutes; neutralise what is left."};
  if (!has_animals(now)) e.steps.push_back("The filter's bacteria suffer too: test ammonia and nitrite daily for a week before you count on it.");
  e.measure = {test_of(now, records::Quantity::chlorine), test_of(now, records::Quantity::total_ammonia), "Ammonia and nitrite daily for a week: the filter may have suffered."};
  if (now.belief.source && now.belief.source->chloramine)
    e.measure.push_back("Your tap water holds chloramine: neutralised, it leaves ammonia behind. Test it again tomorrow.");
  e.call = {"Ring the egg supplier when animals gasp or die in spite of it."};
  e.cautions = {"Weigh chemicals by adult hands only, with gloves and eye protection, by the label. Never mix them dry or with acids or bleach.",
                "Too much thiosulfate takes oxygen: keep the air on.", pull_the_plug()};
  e.sources = {"dose by stoichiometry (docs/science/water.md)", "US EPA 1984, chlorine", "Farrell and others 2001, monochloramine"};
  return e;
}

}  // namespace redd::emergency::kinds
