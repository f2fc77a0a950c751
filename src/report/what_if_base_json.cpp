// The base of a what-if as JSON and back; every field is named once, in describe().
#include <algorithm>

#include "report/detail/two_way_fields.h"
#include "report/what_if_view.h"

namespace redd::report {

template <>
struct Empty<heat::HeatWorld> {
  static heat::HeatWorld made() { return {Conductance::from_w_per_k(1), 1.0, Power::from_w(0)}; }
};
template <>
struct Empty<heat::Chiller> {
  static heat::Chiller made() { return {Power::from_w(0)}; }
};
template <>
struct Empty<planning::HeldWater> {
  static planning::HeldWater made() { return {Temperature::from_c(0), Temperature::from_c(0), false, {}, {}}; }
};

namespace {

using planning::WhatIfBase;
using wire::Json;

/// A typed quantity as the number it travels as.
template <class V, class T, class In, class Out>
void as_number(V& v, const char* key, T& field, In in, Out out) {
  double number = out(field);
  v.number(key, number);
  field = in(number);
}
template <class V>
void celsius(V& v, const char* key, Temperature& field) { as_number(v, key, field, Temperature::from_c, [](Temperature t) { return t.c(); }); }
template <class V>
void watts(V& v, const char* key, Power& field) { as_number(v, key, field, Power::from_w, [](Power p) { return p.w(); }); }

template <class V>
void describe(V& v, Estimate<double>& e) {
  v.number("low", e.low);
  v.number("mid", e.mid);
  v.number("high", e.high);
}
constexpr auto fields_of_estimate = [](auto& v, Estimate<double>& e) { describe(v, e); };

template <class V>
void describe_columns(V& v, planning::WaterTanks& w, std::vector<planning::NewWaterDraw>& new_water) {
  const std::size_t n = planning::what_if_tanks;
  const auto column = [&](const std::string& key, std::span<double> values) {
    std::vector<double> copy(values.begin(), values.end());
    v.numbers(key.c_str(), copy);
    if (copy.size() == values.size()) std::ranges::copy(copy, values.begin());
    else v.spoil();
  };
  for (std::size_t q = 0; q < tank::quantity_count; ++q) column("q" + std::to_string(q), w.tanks.column(static_cast<tank::Quantity>(q)));
  for (std::size_t p = 0; p < tank::parameter_count; ++p) column("p" + std::to_string(p), w.tanks.column(static_cast<tank::Parameter>(p)));
  column("step_days", std::span(w.tanks.step_days(), n));
  for (const auto& [key, values] : {std::pair{"ph_offset", &w.ph_offset}, {"temperature_offset_c", &w.temperature_offset_c}, {"vacuum_share", &w.vacuum_share}, {"evaporation_l_per_day", &w.evaporation_l_per_day}}) {
    values->resize(n);
    column(key, *values);
  }
  new_water.resize(n);
  using Draw = planning::NewWaterDraw;
  for (const auto& [key, member] : {std::pair{"new_ammonia_mg_n_per_l", &Draw::total_ammonia_mg_n_per_l}, {"new_nitrite_mg_n_per_l", &Draw::nitrite_mg_n_per_l}, {"new_nitrate_mg_n_per_l", &Draw::nitrate_mg_n_per_l},
                                    {"new_alkalinity_meq_per_l", &Draw::alkalinity_meq_per_l}, {"new_hardness_meq_per_l", &Draw::hardness_meq_per_l}}) {
    std::vector<double> values;
    for (const Draw& draw : new_water) values.push_back(draw.*member);
    column(key, values);
    for (std::size_t i = 0; i < n; ++i) new_water[i].*member = values[i];
  }
}

template <class V>
void describe(V& v, planning::WaterLimits& l) {
  v.number("from_day", l.from_day);
  v.number("un_ionized_mg_n_per_l", l.un_ionized_mg_n_per_l);
  v.number("nitrite_mg_n_per_l", l.nitrite_mg_n_per_l);
  v.number("nitrate_mg_n_per_l", l.nitrate_mg_n_per_l);
  v.number("ph_low", l.ph_low);
  v.number("ph_high", l.ph_high);
  v.number("alkalinity_low_meq_per_l", l.alkalinity_low_meq_per_l);
  v.number("alkalinity_high_meq_per_l", l.alkalinity_high_meq_per_l);
  v.number("hardness_low_meq_per_l", l.hardness_low_meq_per_l);
  v.number("hardness_high_meq_per_l", l.hardness_high_meq_per_l);
  v.list("temperatures", l.temperatures, [](auto& inner, planning::StageTemperatures& s) {
    inner.number("from_day", s.from_day);
    inner.number("low_c", s.low_c);
    inner.number("high_c", s.high_c);
    inner.text("animals", s.animals);
  });
}

template <class V>
void describe(V& v, planning::WhatIfHeat& h) {
  v.list("worlds", h.worlds, [](auto& inner, heat::HeatWorld& w) {
    as_number(inner, "conductance_w_per_k", w.conductance, Conductance::from_w_per_k, [](Conductance c) { return c.w_per_k(); });
    inner.number("chiller_factor", w.chiller_factor);
    watts(inner, "own_w", w.own_heat);
  });
  v.number("capacity_j_per_k", h.capacity_j_per_k);
  v.number("heater_w", h.heater_w);
  v.number("band_c", h.band_c);
  v.maybe("plate", h.plate, [](auto& inner, heat::Chiller& c) {
    watts(inner, "rated_w", c.rated);
    celsius(inner, "rated_water_c", c.rated_water);
    celsius(inner, "rated_room_c", c.rated_room);
    inner.number("water_slope_per_c", c.water_slope_per_c);
    inner.number("room_slope_per_c", c.room_slope_per_c);
  });
  v.truth("chiller_down", h.chiller_down);
  v.truth("heater_known", h.heater_known);
  v.maybe("held", h.held, [](auto& inner, planning::HeldWater& held) {
    celsius(inner, "water_c", held.water);
    celsius(inner, "room_c", held.room);
  });
  v.numbers("plan_c", h.plan_c);
  v.numbers("room_c", h.room_c);
  v.numbers("room_warmest_c", h.room_warmest_c);
  v.numbers("damp_w", h.damp_w);
}

template <class V>
void describe(V& v, planning::WhatIfDates& d) {
  v.text("species", d.species);
  v.text("hatch_model", d.hatch_model);
  v.text("swim_up_model", d.swim_up_model);
  v.whole("from_index", d.from_index);
  v.list("lots", d.lots, [](auto& inner, planning::Lot& lot) {
    inner.number("weight", lot.weight);
    inner.number("hatch_need", lot.hatch.need);
    inner.number("hatch_done", lot.hatch.done);
    inner.number("swim_up_need", lot.swim_up.need);
    inner.number("swim_up_done", lot.swim_up.done);
  });
}

template <class V>
void describe(V& v, planning::WhatIfWindow& w) {
  v.number("low", w.low);
  v.number("mid", w.mid);
  v.number("high", w.high);
  v.truth("past", w.past);
}

template <class V>
void describe(V& v, planning::WhatIfSummary& s) {
  for (std::size_t k = 0; k < planning::what_if_limit_count; ++k) {
    const std::string key(planning::what_if_limit_key(static_cast<planning::WhatIfLimit>(k)));
    v.object(key.c_str(), [&](auto& inner) {
      inner.number("probability", s.chances[k].probability);
      inner.number("early_index", s.chances[k].early_index);
      inner.number("mid_index", s.chances[k].mid_index);
    });
  }
  v.object("hatch", [&](auto& inner) { describe(inner, s.hatch); });
  v.object("swim_up", [&](auto& inner) { describe(inner, s.swim_up); });
  v.number("warmest_low_c", s.warmest_c.low);
  v.number("warmest_mid_c", s.warmest_c.mid);
  v.number("warmest_high_c", s.warmest_c.high);
}

template <class V>
void describe(V& v, WhatIfAsked& a) {
  WhatIfBase& b = a.base;
  v.date("today", b.today);
  v.number("now_day", b.now_day);
  v.number("volume_l", b.volume_l);
  v.object("tanks", [&](auto& inner) {
    bool posterior = b.tanks.basis == planning::WaterTanks::Basis::posterior;
    inner.truth("posterior", posterior);
    b.tanks.basis = posterior ? planning::WaterTanks::Basis::posterior : planning::WaterTanks::Basis::readings;
    inner.truth("ph_read", b.tanks.ph_read);
    inner.truth("hardness_known", b.tanks.hardness_known);
    describe_columns(inner, b.tanks, b.new_water);
  });
  v.number("top_up_hardness_meq_per_l", b.top_up_hardness_meq_per_l);
  v.number("top_up_alkalinity_meq_per_l", b.top_up_alkalinity_meq_per_l);
  v.object("limits", [&](auto& inner) { describe(inner, b.limits); });
  v.number("air_co2_uatm", b.air_co2_uatm);
  v.number("air_pressure_mmhg", b.air_pressure_mmhg);
  v.list("doses", b.doses, [](auto& inner, std::pair<double, tank::Dose>& dose) {
    inner.number("at_day", dose.first);
    inner.number("ammonium_mg_n", dose.second.ammonium_chloride_mg_n);
    inner.number("bicarbonate_meq", dose.second.bicarbonate_meq);
    inner.number("hardness_meq", dose.second.hardness_meq);
  });
  v.numbers("change_days", b.change_days);
  v.number("usual_fraction", b.usual_fraction);
  v.maybe("brood", b.brood, [](auto& inner, inference::BroodCourse& c) {
    inner.date("received", c.received);
    inner.date("begun", c.begun);
    inner.date("hatch", c.hatch);
    inner.date("swim_up", c.swim_up);
    inner.number("fry_mass_g", c.fry_mass_g);
    inner.number("ration_fraction", c.ration_fraction);
  });
  v.number("alive", b.alive);
  v.number("fry_now_g", b.fry_now_g);
  v.object("heat", [&](auto& inner) { describe(inner, b.heat); });
  v.maybe("dates", b.dates, [](auto& inner, planning::WhatIfDates& d) { describe(inner, d); });
  v.object("oxygen", [&](auto& inner) {
    inner.object("transfer_l_per_h", [&](auto& e) { describe(e, b.oxygen.transfer_l_per_h); });
    inner.number("transfer_at_c", b.oxygen.transfer_at_c);
    inner.number("elevation_m", b.oxygen.elevation_m);
    inner.object("egg_g", [&](auto& e) { describe(e, b.oxygen.egg_g); });
    inner.object("alevin_g", [&](auto& e) { describe(e, b.oxygen.alevin_g); });
    inner.list("fry_g", b.oxygen.fry_g, fields_of_estimate);
  });
  v.object("as_planned", [&](auto& inner) { describe(inner, b.as_planned); });
  std::vector<ShownQuantity> shown(a.shown.begin(), a.shown.end());
  v.list("shown", shown, [](auto& inner, ShownQuantity& s) {
    inner.text("key", s.key);
    inner.text("name", s.name);
    inner.text("unit_text", s.unit_text);
    inner.number("per_canonical", s.per_canonical);
    inner.whole("places", s.places);
  });
  if (shown.size() == a.shown.size()) std::ranges::copy(shown, a.shown.begin());
  else v.spoil();
  v.truth("doubted", a.doubted);
}

bool within(double v, double low, double high) { return v >= low && v <= high; }
bool all_within(std::span<const double> values, double low, double high) {
  return std::ranges::all_of(values, [&](double v) { return within(v, low, high); });
}

/// Sizes that fit one another and numbers that no formula trips over.
bool usable(WhatIfBase& b) {
  const auto& h = b.heat;
  const std::size_t count = h.plan_c.size();
  if (count <= static_cast<std::size_t>(planning::what_if_days) || count > static_cast<std::size_t>(planning::what_if_longest_days) || h.room_c.size() != count || h.room_warmest_c.size() != count) return false;
  if (h.worlds.size() != planning::what_if_worlds || b.limits.temperatures.empty() || b.oxygen.fry_g.empty() || b.change_days.size() > static_cast<std::size_t>(planning::what_if_days)) return false;
  if (!h.damp_w.empty() && h.damp_w.size() != planning::WhatIfHeat::damp_room_c.size() * planning::WhatIfHeat::damp_water_c.size()) return false;
  if (!all_within(h.plan_c, -10, 45) || !all_within(h.room_c, -60, 60) || !all_within(h.room_warmest_c, -60, 60) || !all_within(h.damp_w, 0, 1e5)) return false;
  for (const auto& world : h.worlds)
    if (!within(world.conductance.w_per_k(), 1e-3, 1e5) || !within(world.chiller_factor, 0, 100) || !within(world.own_heat.w(), -1e5, 1e5)) return false;
  if (h.plate && (!within(h.plate->rated.w(), 0, 1e6) || !within(h.plate->water_slope_per_c, 0, 1) || !within(h.plate->room_slope_per_c, -1, 1))) return false;
  if (!within(h.capacity_j_per_k, 1, 1e10) || !within(h.heater_w, 0, 1e5) || !within(h.band_c, 0, 20)) return false;
  if (!within(b.now_day, 0, 1e5) || !within(b.volume_l, 1, 1e6) || !within(b.usual_fraction, 0, 1) || !within(b.alive, 0, 1e7) || !within(b.fry_now_g, 0, 1e4)) return false;
  if (!all_within(b.change_days, b.now_day, b.now_day + planning::what_if_days + 1)) return false;
  for (const auto& [at_day, dose] : b.doses)
    if (!within(at_day, b.now_day, b.now_day + planning::what_if_days) || !within(dose.ammonium_chloride_mg_n + dose.bicarbonate_meq + dose.hardness_meq, 0, 1e9)) return false;
  if (!within(b.oxygen.transfer_at_c, -5, 45) || !within(b.oxygen.elevation_m, -500, 6000) || !within(b.air_co2_uatm, 0, 1e5) || !within(b.air_pressure_mmhg, 200, 900)) return false;
  if (b.dates && (!within(b.dates->from_index, 0, static_cast<double>(count)) || b.dates->lots.empty())) return false;
  for (std::size_t q = 0; q < tank::quantity_count; ++q)
    if (!all_within(b.tanks.tanks.column(static_cast<tank::Quantity>(q)), 0, 1e6)) return false;
  for (std::size_t p = 0; p < tank::parameter_count; ++p)
    if (!all_within(b.tanks.tanks.column(static_cast<tank::Parameter>(p)), 0, 1e6)) return false;
  return true;
}

}  // namespace

Json json_from_what_if_asked(const WhatIfAsked& asked) {
  WhatIfAsked copy = asked;  // describe() reads and writes alike
  Json out = Json::object();
  Writer writer(out);
  describe(writer, copy);
  return out;
}

Result<WhatIfAsked> what_if_asked_from_json(const Json& json) {
  const Problem useless{"not_a_base", "/base", "The base of a what-if is handed back just as it came, as \"asked\" of the answer to what_if_base."};
  if (!json.is_object()) return useless;
  const auto volume = json.find("volume_l");
  if (volume == json.end() || !volume->is_number() || !within(volume->get<double>(), 1, 1e6)) return useless;
  WhatIfAsked asked{{.tanks = {tank::Ensemble(planning::what_if_tanks, volume->get<double>())}}};
  bool ok = true;
  Taker taker(json, ok);
  describe(taker, asked);
  asked.base.tanks.at_day = asked.base.now_day;
  if (!ok || !usable(asked.base)) return useless;
  return asked;
}

}  // namespace redd::report
