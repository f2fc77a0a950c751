#include "report/detail/water_words.h"

#include <cmath>

namespace redd::report {

using advice::WaterKey;
using planning::PlannedChange;
using wire::Json;

std::vector<Sentence> change_steps(const PlannedChange& c, const planning::NewWater& source, const inference::Belief& belief) {
  std::vector<Sentence> steps;
  if (c.asked_today) steps.push_back({"This is the change that today's list asks for; log it once."});
  if (c.gas_as_it_comes && *c.gas_as_it_comes > planning::most_gas_fraction)
    steps.push_back({"Let {0} of new water stand and bubble for {1} hours at the tank's temperature: as it comes it would hold {2} of the gas it can keep.",
                     {c.volume, Number{static_cast<long long>(planning::standing_hours)}, Share{*c.gas_as_it_comes}}});
  else
    steps.push_back({"Let {0} of new water stand and bubble for {1} hours.", {c.volume, Number{static_cast<long long>(planning::standing_hours)}}});
  if (c.thiosulfate)
    steps.push_back(source.chlorine_known ? Sentence{"Dechlorinate it: {0} of sodium thiosulfate (pentahydrate). Then test total chlorine; add more while any shows.", {*c.thiosulfate}}
                                          : Sentence{"Dechlorinate it: {0} of sodium thiosulfate (pentahydrate) binds {1}, the most that US tap water may carry. Then test total chlorine; add more while any shows.",
                                                     {*c.thiosulfate, Measured{source.chlorine_mg_per_l, "mg/L"}}});
  if (c.freed_ammonia_mg_n_per_l > 0.0)
    steps.push_back({"Its chloramine sets ammonia free: {0} in the tank, counted in.", {inference::on_card(belief, inference::Quantity::total_ammonia, c.freed_ammonia_mg_n_per_l)}});
  if (c.temper.as_it_comes) steps.push_back({"It may go in at its own temperature, {0}; the tank is at {1}.", {c.temper.aim, c.tank}});
  else steps.push_back({"Bring it to {0}, the tank's temperature; never outside {1} to {2}.", {c.temper.aim, c.temper.low, c.temper.high}});
  steps.push_back(c.vacuum ? Sentence{"Siphon {0} out, vacuuming a third of the open bottom with it.", {c.volume}} : Sentence{"Take {0} out, from clear water: nothing is stirred up.", {c.volume}});
  if (c.vacuum && c.bands.vacuumed_mg_n.high > 0.0)
    steps.push_back({"That takes out {0} to {1} of waste nitrogen before it becomes ammonia.", {Mass::from_mg(c.bands.vacuumed_mg_n.low), Mass::from_mg(c.bands.vacuumed_mg_n.high)}});
  steps.push_back({"Pour the new water in over at least {0} minutes.", {Number{c.refill_minutes}}});
  return steps;
}

std::vector<FollowedQuantity> followed_quantities(const planning::WaterLimits& l, bool hardness) {
  using planning::WaterDayBands;
  std::vector<FollowedQuantity> all{{WaterKey::un_ionized_ammonia, &WaterDayBands::un_ionized_mg_n_per_l, {}, l.un_ionized_mg_n_per_l},
                                    {WaterKey::total_ammonia, &WaterDayBands::total_ammonia_mg_n_per_l},
                                    {WaterKey::nitrite, &WaterDayBands::nitrite_mg_n_per_l, {}, l.nitrite_mg_n_per_l},
                                    {WaterKey::nitrate, &WaterDayBands::nitrate_mg_n_per_l, {}, l.nitrate_mg_n_per_l},
                                    {WaterKey::ph, &WaterDayBands::ph, l.ph_low, l.ph_high},
                                    {WaterKey::alkalinity, &WaterDayBands::alkalinity_meq_per_l, l.alkalinity_low_meq_per_l, l.alkalinity_high_meq_per_l}};
  if (hardness) all.push_back({WaterKey::hardness, &WaterDayBands::hardness_meq_per_l, l.hardness_low_meq_per_l, l.hardness_high_meq_per_l});
  return all;
}

std::string band_text(const ShownQuantity& shown, const planning::WaterBand& band, const Reader& reader) { return value_text(shown, band.low, band.high, false, reader); }

Json band_json(const ShownQuantity& shown, const planning::WaterBand& band) {
  return {{"low", band.low * shown.per_canonical}, {"mid", band.mid * shown.per_canonical}, {"high", band.high * shown.per_canonical}};
}

Json texts_json(const std::vector<Sentence>& sentences, const Reader& reader) {
  Json texts = Json::array();
  for (const Sentence& s : sentences) texts.push_back(text_of(s, reader));
  return texts;
}

Json change_json(const PlannedChange& c, const planning::NewWater& source, const season::DayView& day, const Reader& reader) {
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  Json row{{"day", iso_from_date(c.day)}, {"day_text", date_text(c.day, reader)}, {"fraction", c.fraction}, {"fraction_text", text({"{0}", {Share{c.fraction}}})},
           {"volume_l", c.volume.l()}, {"volume_text", text({"{0}", {c.volume}})}, {"source", source.key}, {"source_name", text_of(source.name, reader)}, {"tank_c", c.tank.c()},
           {"as_it_comes", c.temper.as_it_comes}, {"new_water_c", {{"low", c.temper.low.c()}, {"aim", c.temper.aim.c()}, {"high", c.temper.high.c()}}},
           {"asked_today", c.asked_today}, {"must_stand", c.must_stand}, {"stand_hours", planning::standing_hours}, {"gas_as_it_comes_fraction", c.gas_as_it_comes ? Json(*c.gas_as_it_comes) : Json(nullptr)},
           {"thiosulfate_g", c.thiosulfate ? Json(c.thiosulfate->g()) : Json(nullptr)}, {"thiosulfate_text", c.thiosulfate ? Json(text({"{0}", {*c.thiosulfate}})) : Json(nullptr)},
           {"chlorine_known", source.chlorine_known}, {"freed_ammonia_mg_n_per_l", c.freed_ammonia_mg_n_per_l}, {"refill_minutes", c.refill_minutes}, {"vacuum", c.vacuum},
           {"vacuumed_mg_n", {{"low", c.bands.vacuumed_mg_n.low}, {"mid", c.bands.vacuumed_mg_n.mid}, {"high", c.bands.vacuumed_mg_n.high}}}, {"steps", texts_json(change_steps(c, source, day.belief), reader)},
           {"effects", Json::array()}};
  for (const auto& q : followed_quantities({}, c.bands.after.hardness_meq_per_l.high > 0.0)) {
    const ShownQuantity shown = shown_quantity(q.key, day, reader);
    row["effects"].push_back({{"key", shown.key}, {"name", shown.name}, {"unit_text", shown.unit_text}, {"before", band_json(shown, c.bands.before.*q.band)}, {"after", band_json(shown, c.bands.after.*q.band)},
                              {"before_text", band_text(shown, c.bands.before.*q.band, reader)}, {"after_text", band_text(shown, c.bands.after.*q.band, reader)}});
  }
  return row;
}

}  // namespace redd::report
