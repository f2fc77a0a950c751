#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

const char* word_for(heat::Holding holding) {
  switch (holding) {
    case heat::Holding::never_reached: return "never_reached";
    case heat::Holding::refused: return "refused";
    case heat::Holding::tight: return "tight";
    case heat::Holding::held: return "held";
    case heat::Holding::not_needed: break;
  }
  return "not_needed";
}

const char* note_for(heat::Holding holding) {
  switch (holding) {
    case heat::Holding::never_reached: return "The chiller runs without pause and the water settles above the set-point: it is never reached.";
    case heat::Holding::refused: return "Above 95 % duty: do not plan on it. The first warm day or a dusty condenser undoes it.";
    case heat::Holding::tight: return "Above 80 % duty: little is left for warm days. Insulate before buying a bigger chiller.";
    case heat::Holding::not_needed: return "The water stays at or below the set-point without chilling; a heater may be needed.";
    case heat::Holding::held: break;
  }
  return nullptr;
}

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  const auto conductance = conductance_of(in, found);
  const heat::Chiller chiller = chiller_of(in, found);
  const Temperature set_point = temperature(in, "set_point_temperature_c"), room = temperature(in, "room_temperature_c");
  const auto with = [&](Conductance ua) {
    return heat::TankHeat{.capacity = heat::heat_capacity(Volume::from_l(1.0)), .conductance = ua, .pump = Power::from_w(in.number("pump_w"))};
  };
  const auto held = heat::held(with(conductance.mid), chiller, set_point, room);
  const auto low = heat::held(with(conductance.low), chiller, set_point, room), high = heat::held(with(conductance.high), chiller, set_point, room);
  heat::Chiller nearly = chiller;
  nearly.rated = heat::refused_duty * chiller.rated;
  found.add("duty_fraction", held.duty_fraction);
  found.add("duty_low_fraction", std::min(low.duty_fraction, high.duty_fraction));
  found.add("duty_high_fraction", std::max(low.duty_fraction, high.duty_fraction));
  found.add("holding", word_for(held.holding));
  found.add("settles_at_c", held.settles_at.c());
  found.add("coldest_to_plan_c", heat::settles_at(with(conductance.mid), nearly, room).c());
  found.add("to_remove_w", held.to_remove.w());
  found.add("electric_w", held.electric.w());
  found.add("electric_kwh_per_week", held.electric_per_week().kwh());
  if (const auto price = in.number_if("price_per_kwh")) found.add("cost_per_week", heat::cost_per_week(held.electric, *price));
  found.add("conductance_w_per_k", conductance.mid.w_per_k());
  if (const char* note = note_for(held.holding)) found.notes.insert(found.notes.begin(), note);
  const auto worst = low.duty_fraction > high.duty_fraction ? low.holding : high.holding;
  if (worst != held.holding)
    found.notes.push_back(std::string("At the cautious end of the conductance the answer is: ") + word_for(worst) + ".");
  return found;
}

}  // namespace

Formula chiller_duty() {
  return {.name = "chiller_duty",
          .summary = "Whether a chiller holds a temperature in a steady room, its duty, where the water settles, energy and cost a week.",
          .inputs = joined({one_of("tank", tank_volume_l()), one_of("tank", conductance_w_per_k()), room_temperature_c(),
                            tank_temperature_c("set_point_temperature_c", "temperature to hold", {1, 25}), pump_w()},
                           joined(chiller_inputs(), {optional(amount("price_per_kwh", "per kWh", "price of electricity, in any currency", {0, 1e6}))})),
          .outputs = {{"duty_fraction", "", "share of the time the chiller has to run; above 1 the set-point is never reached"},
                      {"duty_low_fraction", "", "the same at the low end of the conductance's doubt"},
                      {"duty_high_fraction", "", "at its high end"},
                      {"holding", "", "never_reached, refused (above 0.95), tight (above 0.80), held, not_needed"},
                      {"settles_at_c", "C", "water with the chiller running without pause"},
                      {"coldest_to_plan_c", "C", "temperature held at 95 % duty"},
                      {"to_remove_w", "W", "heat to take out at the set-point"},
                      {"electric_w", "W", "mean electric power of the chiller"},
                      {"electric_kwh_per_week", "kWh", "electric energy a week"},
                      {"cost_per_week", "", "what it costs, in the currency of the price"},
                      {"conductance_w_per_k", "W/K", "conductance used"}},
          .source = heat_source,
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
