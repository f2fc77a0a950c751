#pragma once
// The fields of every kind of record, once: key, type, range, meaning. Reader, writer and schema all walk these.
// A visitor offers: number, whole, truth, text, date, word (enumerations), numbers, texts, list; each takes the field
// by reference. std::optional fields may be absent; others must be given unless the visitor call passes Absent::keeps.

#include <array>
#include <string_view>

#include "records/record.h"
#include "wire/fields.h"

namespace redd::wire {

/// Whether a field that is not optional may be left out and then keeps its default.
enum class Absent { is_an_error, keeps_default };

namespace words {
using std::string_view;
inline constexpr std::array<string_view, 9> quantity{"total_ammonia", "nitrite", "nitrate", "ph", "alkalinity",
                                                     "hardness", "oxygen", "chlorine", "chloride"};
inline constexpr std::array<string_view, 3> method{"colour_steps", "drop_count", "meter"};
inline constexpr std::array<string_view, 13> test_unit{
    "mg_n_per_l", "mg_nh3_per_l", "mg_nh4_per_l", "mg_no2_per_l", "mg_no3_per_l", "ph", "german_degrees",
    "french_degrees", "english_degrees", "mg_caco3_per_l", "mmol_per_l", "meq_per_l", "mg_per_l"};
inline constexpr std::array<string_view, 6> step_do{"fill", "drops", "powder", "mix", "wait", "read"};
inline constexpr std::array<string_view, 6> form{"step", "between", "below_first", "above_last", "drops", "number"};
inline constexpr std::array<string_view, 3> place{"tank", "room", "source"};
inline constexpr std::array<string_view, 6> substance{"sodium_bicarbonate", "calcium_chloride_dihydrate",
                                                      "magnesium_sulfate_heptahydrate", "ammonium_chloride",
                                                      "sodium_thiosulfate_pentahydrate", "other"};
inline constexpr std::array<string_view, 3> start{"fertilised_on", "thermal_sum", "eyed"};
inline constexpr std::array<string_view, 2> origin{"farmed", "wild"};
inline constexpr std::array<string_view, 6> counted_what{"dead_eggs", "dead_alevins", "dead_fry", "hatched", "alive", "swum_up"};
inline constexpr std::array<string_view, 3> counted_how{"counted", "estimated", "sampled"};
inline constexpr std::array<string_view, 4> filter_work{"rinsed", "media_replaced", "media_added", "seeded"};
inline constexpr std::array<string_view, 7> equipment{"chiller", "pump", "air", "heater", "power", "light", "other"};
inline constexpr std::array<string_view, 5> equipment_event{"failed", "restored", "switched_off", "switched_on", "serviced"};
inline constexpr std::array<string_view, 8> milestone{"first_eyes", "half_eyed", "first_hatch", "half_hatched",
                                                      "all_hatched", "first_swim_up", "half_swim_up", "first_feed"};
inline constexpr std::array<string_view, 3> answer{"done", "skipped", "not_now"};
inline constexpr std::array<string_view, 5> tank_side{"front", "back", "left", "right", "floor"};
inline constexpr std::array<string_view, 4> tank_wall{"unknown", "glass", "acrylic", "foam"};
inline constexpr std::array<string_view, 4> tank_lid{"unknown", "none", "sheet", "foam"};
inline constexpr std::array<string_view, 4> tank_base{"unknown", "open_frame", "board", "foam"};
}  // namespace words

// Ranges below are what a keeper can mean, wide enough for any school tank and narrow enough to catch a slipped digit
// or unit. Assumed, from the sizes of the job; formulae state their own fitted ranges.
namespace limits {
inline constexpr Range water_c{-2, 45};
inline constexpr Range litres{0.01, 20000};
inline constexpr Range change_l{0.01, 20000};
inline constexpr Range grams{0.0001, 20000};
inline constexpr Range animals{0, 1000000};
inline constexpr Range fraction{0, 1};
inline constexpr Range room_c{-20, 50};
inline constexpr Range tank_cm{5, 2000};
inline constexpr Range watts{0, 20000};
inline constexpr Range hour{0, 24};
}  // namespace limits

template <class V>
void describe(V& v, records::SeasonSetup& s) {
  v.text("name", s.name, "what the season is called");
  v.text("place", s.place, "school or room, not a person", Absent::keeps_default);
  v.text("time_zone", s.time_zone, "IANA time zone of the school, e.g. America/Denver");
  v.date("first_day", s.first_day, "the day the tank is filled");
  v.number("volume", litres(), s.volume, limits::litres, "water in the whole system");
  v.number("elevation_m", plain(), s.elevation_m, Range{-450, 5000}, "height above the sea", Absent::keeps_default);
  v.text("species", s.species, "species key, e.g. brook_trout");
  v.date("egg_day", s.egg_day, "the day the eggs arrive");
  v.truth("egg_day_assumed", s.egg_day_assumed, "true while nobody knows that day and it is only assumed");
  v.whole("egg_count", s.egg_count, limits::animals, "eggs expected");
  v.number("target", celsius(), s.target, limits::water_c, "temperature for the eggs");
  v.number("warm", celsius(), s.warm, limits::water_c, "temperature while the filter ripens");
  v.number("nitrate_act_mg_no3_per_l", plain(), s.nitrate_act_mg_no3_per_l, Range{0.1, 25}, "own nitrate mark; may only be lower");
  v.number("nitrate_ceiling_mg_no3_per_l", plain(), s.nitrate_ceiling_mg_no3_per_l, Range{0.1, 40}, "own nitrate ceiling; may only be lower");
  v.text("development_model", s.development_model, "source key of the development model");
  v.number("usual_change_fraction", plain(), s.usual_change_fraction, limits::fraction, "part of the water usually changed in a week");
  v.number("ready_test_dose_mg_n_per_l", plain(), s.ready_test_dose_mg_n_per_l, Range{0.1, 5}, "the filter is ready when this dose of ammonia (as N) is gone in time");
  v.number("ready_within_hours", plain(), s.ready_within_hours, Range{6, 96}, "the time it may take");
  v.number("ready_total_ammonia_mg_n_per_l", plain(), s.ready_total_ammonia_mg_n_per_l, Range{0.02, 1}, "ammonia (as N) that may be left of the dose");
  v.number("ready_nitrite_mg_n_per_l", plain(), s.ready_nitrite_mg_n_per_l, Range{0.02, 1}, "nitrite (as N) that may be left of the dose");
  v.number("filter_media", litres(), s.filter_media, limits::litres, "media the filter bacteria live on");
  v.date("release_from", s.release_from, "first day the permit allows a release");
  v.date("release_until", s.release_until, "last day the permit allows a release");
  v.text("permit", s.permit, "the permit in short: its number, its place");
  v.text("school_weekdays", s.school_weekdays, "days of the week with school, e.g. \"mon tue wed thu fri\"");
  v.whole("seed", s.seed, Range{0, 2147483647}, "seed for chance");
  v.truth("invented", s.invented, "true marks demo data");
}

template <class V>
void describe(V& v, records::TimedStep& s) {
  v.word("do", words::step_do, s.what, "what the hands do");
  v.text("text", s.text, "in the keeper's own words", Absent::keeps_default);
  v.whole("seconds", s.seconds, Range{0, 86400}, "how long");
  v.whole("count", s.count, Range{0, 1000}, "drops or spoons");
  v.whole("read_by_seconds", s.read_by_seconds, Range{0, 86400}, "read before this long after the wait");
}

template <class V>
void describe(V& v, records::KitTest& t) {
  v.text("key", t.key, "short name used in readings");
  v.word("quantity", words::quantity, t.quantity, "what is measured");
  v.word("method", words::method, t.method, "how it is read");
  v.word("unit", words::test_unit, t.unit, "unit and basis printed on the card");
  v.numbers("steps", t.steps, Range{0, 100000}, "printed steps, rising (colour_steps)");
  v.texts("colour_names", t.colour_names, "own words for the colours, one a step");
  v.texts("swatches", t.swatches, "#rrggbb, one a step");
  v.number("per_drop", plain(), t.per_drop, Range{0.000001, 1000}, "value of one drop (drop_count)");
  v.number("accuracy", plain(), t.accuracy, Range{0, 1000}, "plus or minus (meter)");
  v.list("timed_steps", t.timed_steps, "the steps in order");
}

template <class V>
void describe(V& v, records::Kit& k) {
  v.text("key", k.key, "short name used in readings");
  v.text("name", k.name, "name of the kit, the keeper's own");
  v.list("tests", k.tests, "the tests of the kit");
}

template <class V>
void describe(V& v, records::SourceWater& w) {
  v.text("key", w.key, "short name used in water changes");
  v.text("name", w.name, "e.g. tap, rain barrel");
  v.number("", ph_number(), w.ph, Range{3, 12}, "pH");
  v.number("alkalinity", equivalents<Alkalinity>(), w.alkalinity, Range{0, 50}, "alkalinity (KH)");
  v.number("hardness", equivalents<Hardness>(), w.hardness, Range{0, 100}, "hardness (GH)");
  v.number("total_ammonia", as_nitrogen(), w.total_ammonia, Range{0, 100}, "total ammonia as N");
  v.number("nitrite", as_nitrogen(), w.nitrite, Range{0, 100}, "nitrite as N");
  v.number("nitrate", as_nitrogen(), w.nitrate, Range{0, 1000}, "nitrate as N");
  v.number("chloride_mg_per_l", plain(), w.chloride_mg_per_l, Range{0, 40000}, "chloride");
  v.number("chlorine_mg_per_l", plain(), w.chlorine_mg_per_l, Range{0, 20}, "total chlorine as Cl2");
  v.truth("chloramine", w.chloramine, "the chlorine is bound as chloramine");
  v.number("temperature", celsius(), w.temperature, limits::water_c, "temperature at the tap");
}

template <class V>
void describe(V& v, records::Reading& r) {
  v.text("kit", r.kit, "key of the kit");
  v.text("test", r.test, "key of the test");
  v.word("form", words::form, r.form, "how the answer was read");
  v.number("value", plain(), r.value, Range{0, 100000}, "the step, the lower of two steps, the drops or the number");
  v.number("upper_value", plain(), r.upper_value, Range{0, 100000}, "the upper of two steps");
  v.text("team", r.team, "team label of a replicate");
  v.text("session", r.session, "label shared by readings of one sitting");
}

template <class V>
void describe(V& v, records::TemperatureReading& t) {
  v.number("temperature", celsius(), t.temperature, Range{-40, 60}, "temperature");
  v.word("place", words::place, t.place, "where it was read", Absent::keeps_default);
}

template <class V>
void describe(V& v, records::WaterChange& w) {
  v.number("volume", litres(), w.volume, limits::change_l, "water taken out and replaced");
  v.text("source_water", w.source_water, "key of the source water");
  v.number("new_water", celsius(), w.new_water, limits::water_c, "temperature of the new water");
  v.truth("vacuumed", w.vacuumed, "waste was drawn off the bottom");
  v.truth("dechlorinated", w.dechlorinated, "the new water was dechlorinated first");
}

template <class V>
void describe(V& v, records::Dose& d) {
  v.word("substance", words::substance, d.substance, "what was added");
  v.number("mass", grams(), d.mass, limits::grams, "how much");
  v.text("name", d.name, "name of an other substance");
}

template <class V>
void describe(V& v, records::SetPoint& s) {
  v.number("temperature", celsius(), s.temperature, limits::water_c, "what the controller is set to");
}

template <class V>
void describe(V& v, records::EggReceipt& e) {
  v.whole("count", e.count, Range{1, 1000000}, "eggs received");
  v.word("start", words::start, e.start, "what the hatchery says of their age");
  v.date("fertilised_on", e.fertilised_on, "day of fertilisation");
  v.number("start_doubt_days", plain(), e.start_doubt_days, Range{0, 60}, "plus or minus, days");
  v.number("thermal_sum", celsius_days(), e.thermal_sum, Range{0, 2000}, "accumulated thermal units so far");
  v.number("thermal_sum_doubt", celsius_days(), e.thermal_sum_doubt, Range{0, 500}, "plus or minus");
  v.number("incubation", celsius(), e.incubation, Range{0, 20}, "temperature at the hatchery");
  v.number("box", celsius(), e.box, limits::water_c, "temperature in the box on arrival");
  v.word("origin", words::origin, e.origin, "farmed or wild stock", Absent::keeps_default);
  v.text("supplier", e.supplier, "hatchery, not a person");
}

template <class V>
void describe(V& v, records::Count& c) {
  v.word("what", words::counted_what, c.what, "dead taken out, hatched so far, or alive in the tank");
  v.whole("count", c.count, limits::animals, "how many");
  v.word("method", words::counted_how, c.how, "counted, estimated, or sampled: counted in a part of the places they may be", Absent::keeps_default);
  v.number("looked_at_fraction", plain(), c.looked_at_fraction, limits::fraction, "sampled: the part that was looked at");
}

template <class V>
void describe(V& v, records::Feeding& f) {
  v.number("mass", grams(), f.mass, limits::grams, "food given");
  v.text("food", f.food, "kind of food");
  v.number("spoons", plain(), f.spoons, Range{0.1, 1000}, "food given in level spoons, instead of grams");
}

template <class V>
void describe(V& v, records::FilterWork& f) {
  v.word("work", words::filter_work, f.work, "what was done");
  v.number("fraction", plain(), f.fraction, limits::fraction, "part of the media touched");
}

template <class V>
void describe(V& v, records::EquipmentEvent& e) {
  v.word("equipment", words::equipment, e.equipment, "which");
  v.word("event", words::equipment_event, e.event, "what happened");
  v.text("remark", e.remark, "anything to add");
}

template <class V>
void describe(V& v, records::Milestone& m) {
  v.word("milestone", words::milestone, m.which, "which");
  v.truth("seen", m.seen, "false: somebody looked, none yet");
}

template <class V>
void describe(V& v, records::Note& n) {
  v.text("text", n.text, "what to remember");
}

template <class V>
void describe(V& v, records::Release& r) {
  v.whole("count", r.count, Range{1, 1000000}, "fish released");
  v.text("place", r.place, "where, as the permit names it");
  v.number("tank", celsius(), r.tank, limits::water_c, "tank temperature");
  v.number("site", celsius(), r.site, limits::water_c, "stream temperature");
}

template <class V>
void describe(V& v, records::Closure& c) {
  v.text("name", c.name, "what it is, e.g. winter break");
  v.date("from", c.from, "first day the school is closed");
  v.date("to", c.to, "last day it is closed");
  v.text("shut_from", c.shut_from, "early closing of that one day, e.g. 12:30");
}

template <class V>
void describe(V& v, records::Duty& d) {
  v.text("label", d.label, "who looks after the tank: a team, not a person's name");
  v.date("from", d.from, "first day");
  v.date("to", d.to, "last day");
}

template <class V>
void describe(V& v, records::TankFace& f) {
  v.word("side", words::tank_side, f.side, "which face");
  v.word("wall", words::tank_wall, f.wall, "what it is made of");
  v.number("wall_thickness", millimetres(), f.wall_thickness_mm, Range{0.5, 100}, "its thickness");
  v.number("foam_thickness", millimetres(), f.foam_thickness_mm, Range{0, 300}, "insulation on it");
}

template <class V>
void describe(V& v, records::TankBuild& b) {
  v.number("length", centimetres(), b.length_cm, limits::tank_cm, "inside length");
  v.number("width", centimetres(), b.width_cm, limits::tank_cm, "inside width");
  v.number("water_height", centimetres(), b.water_height_cm, limits::tank_cm, "height of the water");
  v.word("wall", words::tank_wall, b.wall, "what the walls are made of", Absent::keeps_default);
  v.number("wall_thickness", millimetres(), b.wall_thickness_mm, Range{0.5, 100}, "thickness of the walls");
  v.number("foam_thickness", millimetres(), b.foam_thickness_mm, Range{0, 300}, "insulation on the walls");
  v.whole("bare_long_sides", b.bare_long_sides, Range{0, 2}, "long sides without insulation");
  v.word("lid", words::tank_lid, b.lid, "what covers it", Absent::keeps_default);
  v.word("base", words::tank_base, b.base, "what it stands on", Absent::keeps_default);
  v.list("faces", b.faces, "faces made otherwise");
  v.number("pump", watts(), b.pump, limits::watts, "electric power of the pumps");
  v.number("flow_l_per_min", plain(), b.flow_l_per_min, Range{0, 1000}, "litres a minute that the pump moves through the tank");
  v.number("air_l_per_min", plain(), b.air_l_per_min, Range{0, 200}, "litres of air a minute blown through air stones");
  v.number("light", watts(), b.light, limits::watts, "electric power of the light");
  v.whole("light_from_hour", b.light_from_hour, limits::hour, "lit from this hour");
  v.whole("light_until_hour", b.light_until_hour, limits::hour, "to this hour");
  v.number("chiller_cooling", cooling_watts(), b.chiller_cooling, limits::watts, "heat the chiller takes from the water, as its plate says");
  v.number("chiller_rated_water", celsius(), b.chiller_rated_water, limits::water_c, "water temperature the plate speaks of");
  v.number("chiller_rated_room", celsius(), b.chiller_rated_room, limits::room_c, "room temperature the plate speaks of");
  v.number("chiller_electric", watts(), b.chiller_electric, limits::watts, "electric power of the chiller");
  v.number("heater", watts(), b.heater, limits::watts, "electric power of the heater");
  v.number("controller_band", celsius_change(), b.controller_band, Range{0.05, 10}, "degrees between switching on and off");
  v.number("price_per_kwh", plain(), b.price_per_kwh, Range{0, 1000}, "price of a kilowatt-hour");
  v.text("currency", b.currency, "currency of the price");
  v.number("room_day", celsius(), b.room_day, limits::room_c, "usual room temperature in use, in the coldest part of the year");
  v.number("room_summer_day", celsius(), b.room_summer_day, limits::room_c, "in use, in the warmest part of the year");
  v.number("room_night", celsius(), b.room_night, limits::room_c, "at night");
  v.number("room_weekend", celsius(), b.room_weekend, limits::room_c, "at weekends");
  v.number("room_break", celsius(), b.room_break, limits::room_c, "in school breaks");
  v.whole("room_used_from_hour", b.room_used_from_hour, limits::hour, "room in use from this hour");
  v.whole("room_used_until_hour", b.room_used_until_hour, limits::hour, "to this hour");
  v.whole("warmest_month", b.warmest_month, Range{1, 12}, "warmest month of the year");
}

template <class V>
void describe(V& v, records::TopUp& t) {
  v.number("volume", litres(), t.volume, limits::change_l, "water added for what evaporated");
  v.text("source_water", t.source_water, "key of the source water");
}

template <class V>
void describe(V& v, records::Spoon& s) {
  v.whole("spoons", s.spoons, Range{1, 1000}, "level spoons weighed together");
  v.number("mass", grams(), s.mass, limits::grams, "what they weighed");
  v.text("food", s.food, "kind of food");
}

template <class V>
void describe(V& v, records::FishSample& s) {
  v.whole("count", s.count, Range{1, 10000}, "animals in the sample");
  v.number("mass", grams(), s.mass, limits::grams, "of all of them together, without water");
  v.numbers("lengths_mm", s.lengths_mm, Range{5, 2000}, "snout to fork of the tail in mm, one an animal");
}

template <class V>
void describe(V& v, records::AdviceAnswer& a) {
  v.word("answer", words::answer, a.answer, "what became of it");
  v.text("action", a.action, "key of the action answered");
  v.date("until", a.until, "not_now: the day to ask again");
  v.text("remark", a.remark, "anything to add");
}

template <class V>
void describe(V& v, records::Guess& g) {
  v.text("question", g.question, "key of the question answered");
  v.text("team", g.team, "who guesses: a team label, not a person's name");
  v.number("low", plain(), g.low, Range{-1000, 1000000}, "low end of the range that is to hold the reading 8 times in 10");
  v.number("high", plain(), g.high, Range{-1000, 1000000}, "its high end");
  v.numbers("chips", g.chips, Range{0, 10}, "chips on each step of the card, lowest first; 10 in all");
}

template <class V>
void describe(V& v, records::Undo& u) {
  v.whole("target", u.target, Range{1, 9e15}, "record taken back");
}

}  // namespace redd::wire
