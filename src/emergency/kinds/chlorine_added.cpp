// Tap water went in without its chlorine being neutralised.

#include "chemistry/dosing.h"
#include "emergency/holds.h"

namespace redd::emergency::kinds {
namespace {

/// The change of the last two days, the newest; nothing when none was logged.
std::optional<Volume> last_change(const Case& now) {
  std::optional<Volume> found;
  for (const records::Record& record : now.records)
    if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body); change && now.now - record.entry.at < std::chrono::hours(48)) found = change->volume;
  return found;
}

Sentence neutralise(const Case& now) {
  const auto& source = now.belief.source;
  if (!source || !source->chlorine_mg_per_l || *source->chlorine_mg_per_l <= 0.0)
    return "Neutralise it at once, dosed for the water that went in, by the label of your conditioner: how much chlorine your tap water holds is not on record.";
  const auto logged = last_change(now);
  const Volume water = logged.value_or(Volume::from_l(now.season.volume.l() * now.season.usual_change_fraction.value_or(0.2)));
  return {"Neutralise it at once: {0} of sodium thiosulfate for {1} of tap water at {2} chlorine, dissolved and spread over the surface.",
          {chemistry::thiosulfate_for(water, *source->chlorine_mg_per_l), water, Measured{*source->chlorine_mg_per_l, "mg/L"}}};
}

}  // namespace

Emergency chlorine_added(const Case& now) {
  Emergency e;
  e.key = "chlorine_added", e.rank = 3;
  e.name = "Chlorinated water added";
  e.sign = "Tap water went in untreated; fish gasp, dash or lie on the bottom, the water may smell.";
  e.hold.push_back({"chlorine harms gills and eggs", std::nullopt,
                    "Minutes to hours. US EPA's limit for life in fresh water is 0.019 mg/L over an hour (1984, from memory): below what drop kits and strips show."});
  e.steps = {neutralise(now), "Strong air and flow. No more raw tap water, not even to dilute.", "Test chlorine again after ten minutes; neutralise what is left."};
  e.measure = {test_of(now, records::Quantity::chlorine), test_of(now, records::Quantity::total_ammonia)};
  if (now.belief.source && now.belief.source->chloramine)
    e.measure.push_back("Your tap water holds chloramine: neutralised, it leaves ammonia behind. Test it again tomorrow; the filter may have suffered too.");
  e.call = {"Ring the egg supplier when animals gasp or die in spite of it."};
  e.cautions = {"Weigh chemicals by adult hands only, with gloves and eye protection, by the label. Never mix them dry or with acids or bleach.",
                "Too much thiosulfate takes oxygen: keep the air on."};
  e.sources = {"dose by stoichiometry (docs/science/water.md)", "US EPA 1984, chlorine (from memory)"};
  return e;
}

}  // namespace redd::emergency::kinds
