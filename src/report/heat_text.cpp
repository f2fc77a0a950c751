#include "report/heat_text.h"

#include <algorithm>
#include <cmath>

#include "report/wrapped.h"

namespace redd::report {
namespace {

using heat::Holding;
using planning::HeatView;
using planning::HoldSpan;
using wire::Json;

std::string_view holding_key(Holding holding) {
  switch (holding) {
    case Holding::never_reached: return "never_reached";
    case Holding::refused: return "refused";
    case Holding::tight: return "tight";
    case Holding::held: return "held";
    case Holding::not_needed: return "not_needed";
  }
  broken_promise("holding_key", "unknown holding");
}

/// Whole hours up to a day, then whole days: nobody can say it finer.
std::string about(Hours hours, const Reader& reader) { return days_text(hours.count() / 24.0, reader); }

std::string or_never(const std::optional<Hours>& hours, const Reader& reader) { return hours ? about(*hours, reader) : say(reader, "never"); }

/// The room's warmest hours, where the room is not the same all day.
Sentence hold_in_warmest_hours(const planning::HoldAnswer& hold) {
  const Share duty{std::min(1.0, hold.duty_fraction.mid)};
  switch (hold.likely) {
    case Holding::never_reached:
      return {"Never reached: in the room's warmest hours ({0}) the chiller, running without pause, settles at {1} ({2} to {3}) and not at {4}.",
              {hold.room, hold.settles_at.mid, hold.settles_at.low, hold.settles_at.high, hold.target}};
    case Holding::refused:
      return {"In the room's warmest hours ({0}) the chiller would have to run {1} of the time to hold {2}. That leaves nothing for a warm day or a dirty condenser: do not plan on it.",
              {hold.room, duty, hold.target}};
    case Holding::tight:
      return {"In the room's warmest hours ({0}) the chiller just holds {1}: it runs {2} of the time.", {hold.room, hold.target, duty}};
    case Holding::held:
      return {hold.cautious < Holding::tight ? "In the room's warmest hours ({0}) the chiller probably holds {1}, running {2} of the time."
                                             : "In the room's warmest hours ({0}) the chiller holds {1}, running {2} of the time.",
              {hold.room, hold.target, duty}};
    case Holding::not_needed: return {"In the room's warmest hours ({0}) the water stays at or below {1} by itself.", {hold.room, hold.target}};
  }
  broken_promise("hold_in_warmest_hours", "unknown holding");
}

Sentence hold_at_one_room(const planning::HoldAnswer& hold) {
  const Share duty{std::min(1.0, hold.duty_fraction.mid)};
  switch (hold.likely) {
    case Holding::never_reached:
      return {"Never reached: in a room at {0} the chiller, running without pause, settles at {1} ({2} to {3}) and not at {4}.",
              {hold.room, hold.settles_at.mid, hold.settles_at.low, hold.settles_at.high, hold.target}};
    case Holding::refused:
      return {"In a room at {0} the chiller would have to run {1} of the time to hold {2}. That leaves nothing for a warm day or a dirty condenser: do not plan on it.",
              {hold.room, duty, hold.target}};
    case Holding::tight:
      return {"In a room at {0} the chiller just holds {1}: it runs {2} of the time.", {hold.room, hold.target, duty}};
    case Holding::held:
      return {hold.cautious < Holding::tight ? "In a room at {0} the chiller probably holds {1}, running {2} of the time." : "In a room at {0} the chiller holds {1}, running {2} of the time.",
              {hold.room, hold.target, duty}};
    case Holding::not_needed: return {"In a room at {0} the water stays at or below {1} by itself.", {hold.room, hold.target}};
  }
  broken_promise("hold_at_one_room", "unknown holding");
}

/// Whether the room is warmer at times than on the mean. Assumed: less than half a degree is one room.
bool has_warmest_hours(const HeatView& view) { return view.rooms.warmest.c() - view.rooms.mean.c() >= 0.5; }

Sentence hold_sentence(const HeatView& view) { return has_warmest_hours(view) ? hold_in_warmest_hours(*view.hold) : hold_at_one_room(*view.hold); }

/// What may be worse than likely; nothing when even the cautious case holds.
std::optional<Sentence> hold_caution(const planning::HoldAnswer& hold) {
  if (hold.cautious >= Holding::held || hold.cautious == hold.likely) return std::nullopt;
  return Sentence{"Tank and chiller are not known exactly: {0} that it holds with something to spare.", {Chance{hold.held_probability}}};
}

/// The one thing to know first.
Sentence headline(const HeatView& view) {
  if (view.model.power_down) return {"The power is logged as off: see how long the water stays below {0}, and what bottles of ice buy.", {view.limits.red_above}};
  if (view.model.chiller_down) return {"The chiller is logged as failed or off: see how long the water stays below {0}, and what bottles of ice buy.", {view.limits.red_above}};
  if (!view.hold)
    return {has_warmest_hours(view) ? "What the chiller holds can't be said: its cooling power is not on record. To hold {0} in the room's warmest hours ({1}) it must take away {2} at least (cooling power at that water temperature)."
                                    : "What the chiller holds can't be said: its cooling power is not on record. To hold {0} in a room at {1} it must take away {2} at least (cooling power at that water temperature).",
            {view.target, view.rooms.warmest, Measured{view.chiller_wanted.w(), "W"}}};
  return hold_sentence(view);
}

Json span_json(const HoldSpan& span, const Reader& reader) {
  const auto hours = [](const std::optional<Hours>& h) { return h ? Json(h->count()) : Json(nullptr); };
  return {{"soonest_h", hours(span.soonest)}, {"likely_h", hours(span.likely)}, {"latest_h", hours(span.latest)}, {"text", hold_text(span, reader)}};
}

template <class T, class Unit>
Json estimate_json(const Estimate<T>& e, Unit unit) {
  return {{"low", unit(e.low)}, {"mid", unit(e.mid)}, {"high", unit(e.high)}};
}
Json or_null(const std::optional<double>& x) { return x ? Json(*x) : Json(nullptr); }
const auto plain = [](double x) { return x; };
const auto in_w = [](Power p) { return p.w(); };
const auto in_c = [](Temperature t) { return t.c(); };

Json limits_json(const std::vector<planning::LimitTime>& times, const Reader& reader) {
  Json rows = Json::array();
  for (const auto& time : times) {
    Json row = span_json(time.span, reader);
    row["limit_c"] = time.limit.c();
    row["name"] = text_of(time.name, reader);
    rows.push_back(std::move(row));
  }
  return rows;
}

Sentence bottle_sentence(const planning::BottleAnswer& bottle, const Reader& reader) {
  const Measured each{bottle.each.g() / 1000.0, "kg"};
  if (!bottle.shortest || !bottle.a_day) return {"A frozen bottle of {0}: not needed, no heat comes in.", {each}};
  return {"A frozen bottle of {0} holds the water for {1} ({2} at the worst): up to {3} a day.",
          {each, Word{or_never(bottle.likely, reader)}, Word{about(*bottle.shortest, reader)}, Number{*bottle.a_day}}};
}

Sentence change_sentence(const planning::ChangeAnswer& change) {
  if (change.largest_fraction >= 1.0) return {"The source water, at {0}, is near enough to change any share.", {change.source}};
  return {"With source water at {0} change at most {1} at once, or the tank moves by more than {2}. For a change of {3} the new water must lie between {4} and {5}.",
          {change.source, Share{change.largest_fraction}, change.most, Share{change.usual_fraction}, change.usual_source_from, change.usual_source_to}};
}

Sentence foam_sentence(const planning::FoamAnswer& foam, const Reader& reader) {
  if (!foam.duty_before || !foam.duty_after)
    return {"{0}: heat flowing in falls from {1} to {2}.", {Word{text_of(foam.what, reader)}, Measured{foam.gain_before.w(), "W"}, Measured{foam.gain_after.w(), "W"}}};
  const Word what{text_of(foam.what, reader)};
  const Measured before{foam.gain_before.w(), "W"}, after{foam.gain_after.w(), "W"};
  const Share duty_after{std::min(1.0, *foam.duty_after)};
  if (!foam.same_by_chiller) return {"{0}: heat flowing in falls from {1} to {2}, and the chiller hardly has to run.", {what, before, after}};
  if (*foam.duty_before >= 1.0)
    return {"{0}: heat flowing in falls from {1} to {2}. The chiller, not strong enough now, would then run {3} of the time; without the foam that takes one of {4} at this temperature.",
            {what, before, after, duty_after, Measured{foam.same_by_chiller->w(), "W"}}};
  return {"{0}: heat flowing in falls from {1} to {2}, the chiller's share of the time from {3} to {4}, by {5} kWh a week. Without the foam that share takes a chiller of {6} at this temperature.",
          {what, before, after, Share{*foam.duty_before}, duty_after, Word{two_digits(foam.saved_kwh_per_week.value_or(0.0))}, Measured{foam.same_by_chiller->w(), "W"}}};
}

std::vector<Sentence> damp_sentences(const planning::DampAnswer& damp) {
  std::vector<Sentence> out;
  if (damp.sweats_above_fraction >= 1.0) out.push_back("The glass does not sweat at any humidity.");
  else
    out.push_back({!damp.sweats             ? "The glass sweats above {0} relative humidity: keep sockets and plugs dry and above the drip loop."
                   : damp.humidity_assumed ? "The glass sweats above {0} relative humidity (at 60 %, which is taken, it does): keep sockets and plugs dry and above the drip loop."
                                           : "The glass sweats above {0} relative humidity (it does now): keep sockets and plugs dry and above the drip loop.",
                   {Share{damp.sweats_above_fraction}}});
  if (damp.brings.w() >= 1.0)
    out.push_back({"At {0} relative humidity damp brings {1} of heat into the water; it is part of what the chiller has to take away.", {Share{damp.humidity_fraction}, Measured{damp.brings.w(), "W"}}});
  if (damp.surface_gains_above_fraction < 1.0 && damp.surface_gain.w() > 0.0)
    out.push_back({"Open cold water gains heat from moist air above {0} relative humidity, {1} now: evaporation does not cool this tank.",
                   {Share{damp.surface_gains_above_fraction}, Measured{damp.surface_gain.w(), "W"}}});
  return out;
}

std::string week_text(const HeatView& view, const Reader& reader) {
  const auto& week = *view.week;
  const Word mid{two_digits(week.electric_kwh.mid)}, low{two_digits(week.electric_kwh.low)}, high{two_digits(week.electric_kwh.high)};
  if (!week.cost) return say(reader, "A week's electricity: {0} kWh ({1} to {2}).", {mid, low, high});
  return say(reader, "A week's electricity: {0} kWh ({1} to {2}), {3}.", {mid, low, high, Measured{week.cost->mid, view.model.currency}});
}

/// The days ahead on which the target is not held with something to spare.
std::vector<const planning::HeatDayAhead*> hard_days(const HeatView& view) {
  std::vector<const planning::HeatDayAhead*> out;
  if (!view.hold) return out;
  for (const auto& day : view.days)
    if (day.ability.holding < Holding::tight) out.push_back(&day);
  return out;
}

Sentence hard_days_sentence(const std::vector<const planning::HeatDayAhead*>& days) {
  return {"Cautiously reckoned (a leakier tank, a weaker chiller than likely) it does not hold the target in the warmest hour of {0} of the next 14 days, first on {1}, when the room is planned at {2}.",
          {Number{static_cast<long long>(days.size())}, days.front()->day, days.front()->room_warmest}};
}

}  // namespace

std::string hold_text(const HoldSpan& span, const Reader& reader) {
  const auto about = [&](Hours hours) { return report::about(hours, reader); };
  if (!span.soonest) return say(reader, "never");
  const auto gone = [](const std::optional<Hours>& hours) { return hours && hours->count() <= 0.0; };
  if (gone(span.latest)) return say(reader, "beyond it already");
  if (gone(span.likely)) return span.latest ? say(reader, "no time to lose, at the latest {0}", about(*span.latest)) : say(reader, "beyond it already");
  if (gone(span.soonest) && !span.likely) return say(reader, "perhaps none left");
  if (gone(span.soonest)) return span.latest ? say(reader, "perhaps none left, else {0} (at the latest {1})", about(*span.likely), about(*span.latest)) : say(reader, "perhaps none left, else {0} or more, perhaps never", about(*span.likely));
  if (!span.likely) return say(reader, "perhaps never, at the soonest after {0}", about(*span.soonest));
  if (!span.latest) return say(reader, "{0} or more, perhaps never (at the soonest {1})", about(*span.likely), about(*span.soonest));
  return say(reader, "{0} (at the soonest {1}, at the latest {2})", about(*span.likely), about(*span.soonest), about(*span.latest));
}

Json heat_json(const season::HeatLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.zone;
  const HeatView& view = look.view;
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  Json out{{"sentence", text(headline(view))}, {"rests_on", text(view.model.rests_on)}, {"assumed", Json::array()}};
  for (const Sentence& s : view.model.assumed) out["assumed"].push_back(text(s));
  out["water_c"] = view.water.c();
  out["water_measured"] = view.water_measured;
  out["target_c"] = view.target.c();
  out["room"] = {{"mean_c", view.rooms.mean.c()}, {"coldest_c", view.rooms.coldest.c()}, {"warmest_c", view.rooms.warmest.c()}, {"asked", view.room_asked}};
  out["animals"] = view.limits.animals;
  out["animals_to_come"] = view.limits.planned;
  out["conductance_w_per_c"] = estimate_json(view.model.conductance, [](Conductance c) { return c.w_per_k(); });
  out["time_constant_h"] = estimate_json(view.time_constant_h, plain);
  out["to_remove_w"] = estimate_json(view.to_remove, in_w);
  out["chiller_wanted_w"] = view.chiller_wanted.w();
  out["hold"] = nullptr;
  if (view.hold) {
    const auto caution = hold_caution(*view.hold);
    out["hold"] = {{"state", holding_key(view.hold->likely)}, {"cautious_state", holding_key(view.hold->cautious)}, {"sentence", text(hold_sentence(view))},
                   {"caution", caution ? Json(text(*caution)) : Json(nullptr)}, {"duty_fraction", estimate_json(view.hold->duty_fraction, plain)},
                   {"held_probability", view.hold->held_probability}, {"settles_c", estimate_json(view.hold->settles_at, in_c)}};
  }
  out["week"] = nullptr;
  if (view.week) {
    out["week"] = {{"electric_kwh", estimate_json(view.week->electric_kwh, plain)}, {"duty_fraction", estimate_json(view.week->duty_fraction, plain)}, {"text", week_text(view, reader)}};
    out["week"]["cost"] = view.week->cost ? estimate_json(*view.week->cost, plain) : Json(nullptr);
    out["week"]["currency"] = view.model.currency;
  }
  out["cooling"] = view.cooling ? span_json(*view.cooling, reader) : Json(nullptr);
  out["power_cut"] = limits_json(view.power_cut, reader);
  out["chiller_dead"] = limits_json(view.chiller_dead, reader);
  out["stuck_on"] = limits_json(view.stuck_on, reader);
  out["bottles"] = Json::array();
  for (const auto& bottle : view.bottles)
    out["bottles"].push_back({{"kg", bottle.each.g() / 1000.0}, {"shortest_h", bottle.shortest ? Json(bottle.shortest->count()) : Json(nullptr)},
                              {"likely_h", bottle.likely ? Json(bottle.likely->count()) : Json(nullptr)}, {"a_day", bottle.a_day ? Json(*bottle.a_day) : Json(nullptr)},
                              {"text", text(bottle_sentence(bottle, reader))}});
  out["most_ice_an_hour_kg"] = view.most_ice_an_hour.g() / 1000.0;
  out["change"] = nullptr;
  if (view.change)
    out["change"] = {{"source_c", view.change->source.c()}, {"largest_fraction", view.change->largest_fraction}, {"text", text(change_sentence(*view.change))}};
  out["foam"] = Json::array();
  for (const auto& foam : view.foam)
    out["foam"].push_back({{"what", text(foam.what)}, {"gain_before_w", foam.gain_before.w()}, {"gain_after_w", foam.gain_after.w()}, {"duty_before_fraction", or_null(foam.duty_before)},
                           {"duty_after_fraction", or_null(foam.duty_after)}, {"saved_kwh_per_week", or_null(foam.saved_kwh_per_week)},
                           {"same_by_chiller_w", foam.same_by_chiller ? Json(foam.same_by_chiller->w()) : Json(nullptr)},
                           {"outage_before_h", foam.outage_before ? Json(foam.outage_before->count()) : Json(nullptr)},
                           {"outage_after_h", foam.outage_after ? Json(foam.outage_after->count()) : Json(nullptr)}, {"text", text(foam_sentence(foam, reader))}});
  out["damp"] = {{"humidity_fraction", view.damp.humidity_fraction}, {"humidity_assumed", view.damp.humidity_assumed}, {"coldest_surface_c", view.damp.coldest_surface.c()},
                 {"sweats_above_fraction", view.damp.sweats_above_fraction}, {"sweats", view.damp.sweats}, {"brings_w", view.damp.brings.w()}, {"texts", Json::array()}};
  for (const Sentence& s : damp_sentences(view.damp)) out["damp"]["texts"].push_back(text(s));
  out["days"] = Json::array();
  for (const auto& day : view.days)
    out["days"].push_back({{"day", iso_from_date(day.day)}, {"room_mean_c", day.room_mean.c()}, {"room_warmest_c", day.room_warmest.c()}, {"coldest_c", day.ability.coldest.c()},
                           {"warmest_c", day.ability.warmest.c()}, {"duty_fraction", std::min(day.ability.duty_fraction, 9.99)}, {"state", holding_key(day.ability.holding)}});
  return out;
}

std::string heat_text(const season::HeatLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  const HeatView& view = look.view;
  std::string out = wrapped(text_of(headline(view), reader), width, "", "");
  const auto line = [&](const std::string& words, std::string_view first = "  ") { out += wrapped(words, width, first, "    "); };
  if (view.hold && (view.model.chiller_down || view.model.power_down)) line(text_of(hold_sentence(view), reader), "");
  if (view.hold)
    if (const auto caution = hold_caution(*view.hold)) line(text_of(*caution, reader), "");
  if (const auto hard = hard_days(view); !hard.empty()) line(text_of(hard_days_sentence(hard), reader), "");
  out += "\n" + say(reader, "What it takes") + "\n";
  line(text_of({"To hold {0} in the warmest room, {1}: {2} of heat to take away ({3} to {4}).",
                {view.target, view.rooms.warmest, Measured{view.to_remove.mid.w(), "W"}, Measured{view.to_remove.low.w(), "W"}, Measured{view.to_remove.high.w(), "W"}}}, reader));
  if (view.week) line(week_text(view, reader));
  if (view.cooling) line(text_of({"To cool from {0} to {1}: {2}.", {view.water, view.target, Word{hold_text(*view.cooling, reader)}}}, reader));
  const auto section = [&](const char* title, const std::vector<planning::LimitTime>& times) {
    if (times.empty()) return;
    out += "\n" + text_of({title, {view.water}}, reader) + "\n";
    for (const auto& time : times) line(text_of({"{0} ({1}): {2}", {time.limit, Word{text_of(time.name, reader)}, Word{hold_text(time.span, reader)}}}, reader));
  };
  section("Power cut, water at {0}", view.power_cut);
  section("Chiller dead, pump running, water at {0}", view.chiller_dead);
  section("Chiller that does not stop, water at {0}", view.stuck_on);
  out += "\n" + say(reader, "Frozen bottles, with everything off") + "\n";
  for (const auto& bottle : view.bottles) line(text_of(bottle_sentence(bottle, reader), reader));
  line(say(reader, "Hang them in closed, never against eggs or fish, and no more than {0} kg an hour: that cools the tank by a degree.", two_digits(view.most_ice_an_hour.g() / 1000.0)));
  if (view.change) {
    out += "\n" + say(reader, "Water changes") + "\n";
    line(text_of(change_sentence(*view.change), reader));
  }
  out += "\n" + say(reader, "Insulation and damp") + "\n";
  for (const auto& foam : view.foam) line(text_of(foam_sentence(foam, reader), reader));
  for (const Sentence& s : damp_sentences(view.damp)) line(text_of(s, reader));
  out += "\n" + say(reader, "What this rests on") + "\n";
  line(text_of(view.model.rests_on, reader), "  - ");
  for (const Sentence& s : view.model.assumed) line(text_of(s, reader), "  - ");
  return out;
}

}  // namespace redd::report
