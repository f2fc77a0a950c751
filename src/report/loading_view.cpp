#include "report/loading_view.h"

#include <algorithm>
#include <cmath>

#include "quantities/one_or_several.h"
#include "report/heat_text.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using planning::LoadingView;
using planning::LoadLimit;
using planning::LoadRow;
using season::LoadingLook;
using wire::Json;

std::string_view key_of(LoadLimit limit) {
  switch (limit) {
    case LoadLimit::oxygen: return "oxygen";
    case LoadLimit::ammonia: return "ammonia";
    case LoadLimit::space: break;
  }
  return "space";
}
std::string_view word_of(LoadLimit limit) { return limit == LoadLimit::space ? "room" : key_of(limit); }

std::string_view key_of(planning::AirBasis basis) {
  switch (basis) {
    case planning::AirBasis::on_record: return "on_record";
    case planning::AirBasis::read: return "read";
    case planning::AirBasis::assumed: break;
  }
  return "assumed";
}

std::string_view key_of(LoadingView::State state) {
  switch (state) {
    case LoadingView::State::nothing_planned: return "nothing_planned";
    case LoadingView::State::to_come: return "to_come";
    case LoadingView::State::in_tank: return "in_tank";
    case LoadingView::State::released: break;
  }
  return "released";
}

std::string_view key_of(planning::LoadOptionKind kind) {
  using enum planning::LoadOptionKind;
  switch (kind) {
    case early_release: return "early_release";
    case fewer_eggs: return "fewer_eggs";
    case larger_filter: return "larger_filter";
    case ripen_filter: return "ripen_filter";
    case more_air: return "more_air";
    case feed_less: return "feed_less";
    case colder_water: return "colder_water";
    case measure_oxygen: return "measure_oxygen";
    case describe_air: break;
  }
  return "describe_air";
}

std::string_view rule_text(planning::SpaceRule rule) {
  switch (rule) {
    case planning::SpaceRule::by_number: return "fry a litre";
    case planning::SpaceRule::by_mass: return "grams a litre";
    case planning::SpaceRule::density_index: return "density index";
    case planning::SpaceRule::flow_index: break;
  }
  return "flow index";
}

std::string_view animals_text(biology::LifeStage stage) {
  switch (stage) {
    case biology::LifeStage::green_egg:
    case biology::LifeStage::eyed_egg: return "eggs";
    case biology::LifeStage::alevin: return "alevins";
    case biology::LifeStage::fry: break;
  }
  return "fry";
}

/// More than this no classroom has; it would only look exact.
constexpr double most_told = 1000.0;
/// Whole animals, no finer than two digits.
std::string count_text(double animals) {
  if (animals >= most_told) return "1000+";
  if (animals < 10.0) return decimals(std::floor(animals), 0);
  const double unit = animals < 100.0 ? 1.0 : 10.0;
  return decimals(unit * std::floor(animals / unit), 0);
}
std::string range_text(const Estimate<double>& animals) {
  const std::string low = count_text(animals.low), high = count_text(animals.high);
  return low == high ? low : count_text(animals.mid) + " (" + low + "-" + high + ")";
}
/// Likely, and with nineteen chances in twenty at least.
std::string cautious_text(const Estimate<double>& animals) {
  const std::string mid = count_text(animals.mid), low = count_text(animals.low);
  return low == mid ? mid : mid + " (" + low + ")";
}

/// Today and the next weeks, and the days on which something changes.
std::vector<const LoadRow*> shown_days(const LoadingView& view) {
  std::vector<const LoadRow*> rows;
  if (view.days.empty()) return rows;
  const Date first = *view.days.front().day;
  constexpr int week = 7, weekly_until = 56, month = 28;
  for (std::size_t i = 0; i < view.days.size(); ++i) {
    const LoadRow& row = view.days[i];
    const auto since = (*row.day - first).count();
    const bool turn = i > 0 && row.stage != view.days[i - 1].stage;
    const bool marked = (view.reached && (*row.day == view.reached->day || *row.day == view.reached->worst_day)) || row.day == view.release_from || row.day == view.release_until;
    if (since == 0 || i + 1 == view.days.size() || turn || marked || (since <= weekly_until ? since % week == 0 : since % month == 0)) rows.push_back(&row);
  }
  return rows;
}

Sentence headline_of_known(const LoadingView& view) {
  using enum LoadingView::State;
  if (view.state == released) return {"The brood has been released: nothing is to be carried."};
  if (view.days.empty() && view.state == in_tank) return {"Nobody knows the dates of this brood, so no days are told: see by size what the tank carries."};
  if (view.days.empty()) return {"No egg day is on record: see by size what the tank carries."};
  if (view.reached) {
    const auto& r = *view.reached;
    const Word limit{std::string(word_of(r.limit))};
    const Number carried_then{planning::round_animals(r.carried_then)};
    if (view.animals_assumed)
      return {r.limit == LoadLimit::ammonia ? "Nobody has said how many eggs come. With the filter as it is this tank probably carries about {0} until {1}: {2} is the limit."
                                            : "Nobody has said how many eggs come. This tank probably carries about {0} until {1}: {2} is the limit.",
              {carried_then, *view.days.back().day, limit}};
    if (r.day == *view.days.front().day && view.state == in_tank)
      return {"The tank probably carries no more than {0} of the {1} that are in it: {2} is the limit.", {Number{r.carried}, Number{r.expected}, limit}};
    return {r.limit == LoadLimit::ammonia
                ? "From {0} on the {1} animals expected are probably more than the tank carries with the filter as it is today: {2} is the limit, and by {3} it would carry about {4}."
                : "From {0} on the {1} animals expected are probably more than the tank carries: {2} is the limit, and by {3} it carries about {4}.",
            {r.day, Number{r.expected}, limit, r.worst_day, carried_then}};
  }
  const Number animals{view.animals};
  const Date last = *view.days.back().day;
  const auto counted = [&](const char* one, const char* several) { return one_or_several(view.animals, one, several); };
  if (!view.filter_known)
    return {counted("{0} animal probably stays within what the tank carries until {1}, by oxygen and room; whether the filter carries it is not known here.",
                    "{0} animals probably stay within what the tank carries until {1}, by oxygen and room; whether the filter carries them is not known here."),
            {animals, last}};
  if (view.first_possible)
    return {counted("{0} animal probably stays within what the tank carries until {1}, but that is not sure: there is a chance of one in five or more that it is not so from {2} on.",
                    "{0} animals probably stay within what the tank carries until {1}, but that is not sure: there is a chance of one in five or more that it is not so from {2} on."),
            {animals, last, *view.first_possible}};
  return {counted("{0} animal probably stays within what the tank carries until {1}.", "{0} animals probably stay within what the tank carries until {1}."), {animals, last}};
}

/// The one thing to know first.
Sentence headline(const LoadingView& view) {
  const bool taken = view.animals_assumed && !view.reached && !view.days.empty();
  return taken ? joined({"Nobody said how many eggs: {0} are taken.", {Number{view.animals}}}, headline_of_known(view)) : headline_of_known(view);
}

Sentence by_changes_alone(const planning::LoadReached& reached) {
  return {"If the filter did nothing, ammonia would pass its limit from {0} on: water changes alone carry about {1} of the {2}.", {reached.day, Number{reached.carried}, Number{reached.expected}}};
}

/// What goes in and out of the water today, of all animals.
Sentence oxygen_sentence(const LoadRow& row) {
  const auto total = [&](const Estimate<double>& each) { return Measured{each.mid * row.animals, "mg/h"}; };
  return {"{0} {1} breathe about {2}, the filter and what rots use {3}: the water settles near {4} ({5} to {6}). Full it would hold {7}; at least {8} is wanted.",
          {Number{row.animals}, Word{std::string(animals_text(row.stage))}, total(row.one.breathed_mg_o2_per_h), total(row.one.bacteria_mg_o2_per_h), row.oxygen.mid, row.oxygen.low,
           row.oxygen.high, row.saturation, row.oxygen_limit}};
}

Sentence hold_sentence(const planning::OxygenHold& hold, const Reader& reader) {
  const Word what{text_of(hold.what, reader)};
  if (!hold.span) return {"{0}, to {1}: not before the temperature or the basket matter, unless something rots.", {what, hold.limit}};
  return {"{0}, to {1}: {2}", {what, hold.limit, Word{hold_text(*hold.span, reader)}}};
}

Json estimate_json(const Estimate<double>& e) { return {{"low", e.low}, {"mid", e.mid}, {"high", e.high}}; }
Json oxygen_json(const Estimate<OxygenConc>& e) { return {{"low", e.low.mg_o2_per_l()}, {"mid", e.mid.mg_o2_per_l()}, {"high", e.high.mg_o2_per_l()}}; }
Json day_json_of(const std::optional<Date>& day) { return day ? Json(iso_from_date(*day)) : Json(nullptr); }

Json carried_json(const LoadRow& row, LoadLimit limit) {
  const auto& carried = row.by(limit);
  if (!carried) return nullptr;
  return {{"animals", estimate_json(carried->animals)}, {"text", range_text(carried->animals)}, {"over_probability", carried->over_probability}};
}

Json row_json(const LoadRow& row, const Reader& reader) {
  const double mass_g = row.animals * row.each_g.mid;
  Json out{{"day", day_json_of(row.day)}, {"day_text", row.day ? Json(short_date_text(*row.day, reader)) : Json(nullptr)}, {"stage", biology::name_of(row.stage)},
           {"stage_text", say(reader, animals_text(row.stage))}, {"water_c", row.water.c()}, {"animals", row.animals}, {"animals_text", std::to_string(row.animals)},
           {"each_g", estimate_json(row.each_g)}, {"each_text", text_of({"{0}", {Mass::from_g(row.each_g.mid)}}, reader)},
           {"mass_g", mass_g}, {"mass_text", text_of({"{0}", {Mass::from_g(mass_g)}}, reader)}};
  for (const LoadLimit limit : planning::all_load_limits) out[std::string(key_of(limit))] = carried_json(row, limit);
  out["space_rule"] = row.space_rule ? Json(say(reader, rule_text(*row.space_rule))) : Json(nullptr);
  out["binding"] = key_of(row.binding);
  out["binding_text"] = say(reader, word_of(row.binding));
  out["over"] = row.least().over_probability >= 0.5;
  out["over_probability"] = row.least().over_probability;
  out["oxygen_mg_o2_per_l"] = oxygen_json(row.oxygen);
  out["oxygen_limit_mg_o2_per_l"] = row.oxygen_limit.mg_o2_per_l();
  out["saturation_mg_o2_per_l"] = row.saturation.mg_o2_per_l();
  return out;
}

Json reached_json(const std::optional<planning::LoadReached>& reached) {
  if (!reached) return nullptr;
  return {{"day", iso_from_date(reached->day)}, {"limit", key_of(reached->limit)}, {"carried", reached->carried}, {"expected", reached->expected},
          {"worst_day", iso_from_date(reached->worst_day)}, {"carried_then", reached->carried_then}};
}

Json hold_json(const planning::OxygenHold& hold, const Reader& reader) {
  const auto hours = [](const std::optional<Hours>& h) { return h ? Json(h->count()) : Json(nullptr); };
  Json out{{"what", text_of(hold.what, reader)}, {"limit_mg_o2_per_l", hold.limit.mg_o2_per_l()}, {"text", text_of(hold_sentence(hold, reader), reader)}};
  out["soonest_h"] = hold.span ? hours(hold.span->soonest) : Json(nullptr);
  out["likely_h"] = hold.span ? hours(hold.span->likely) : Json(nullptr);
  out["latest_h"] = hold.span ? hours(hold.span->latest) : Json(nullptr);
  return out;
}

std::string padded(std::string text, std::size_t width, bool left = false) {
  const std::size_t columns = columns_of(text);
  if (columns >= width) return text;
  const std::string gap(width - columns, ' ');
  return left ? text + gap : gap + text;
}

/// A table of rows; the day and the number, or the size in front.
std::string table_text(const std::vector<const LoadRow*>& rows, bool filter_known, bool of_days, const Reader& reader) {
  constexpr std::size_t column = 14;
  const auto word = [&](std::string_view english) { return say(reader, english); };
  std::string out = of_days ? "  " + padded(word("day"), 8, true) + padded(word("animals"), 12, true) + padded(word("mass"), 7) : "  " + padded(word("of"), 9, true) + padded(word("each"), 9);
  for (const std::string_view title : {"oxygen", filter_known ? "ammonia" : "(no filter)", "room"}) out += padded(word(title), column);
  out += "  " + word("limit") + "\n";
  for (const LoadRow* row : rows) {
    const auto mass = [&](double g) { return say(reader, "{0}", {Mass::from_g(g)}); };
    const std::string who = word(animals_text(row->stage));
    out += of_days ? "  " + padded(short_date_text(*row->day, reader), 8, true) + padded(std::to_string(row->animals) + " " + who, 12, true) + padded(mass(row->animals * row->each_g.mid), 7)
                   : "  " + padded(who, 9, true) + padded(mass(row->each_g.mid), 9);
    for (const LoadLimit limit : planning::all_load_limits) out += padded(row->by(limit) ? cautious_text(row->by(limit)->animals) : "-", column);
    out += "  " + word(word_of(row->binding)) + (of_days && row->least().over_probability >= 0.5 ? " !" : "") + "\n";
  }
  return out;
}

std::vector<const LoadRow*> all_of(const std::vector<LoadRow>& rows) {
  std::vector<const LoadRow*> out;
  for (const LoadRow& row : rows) out.push_back(&row);
  return out;
}

}  // namespace

Json loading_json(const LoadingLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.zone;
  const LoadingView& view = look.view;
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  Json out{{"state", key_of(view.state)}, {"sentence", text(headline(view))}, {"animals", view.animals}, {"animals_assumed", view.animals_assumed},
           {"reached", reached_json(view.reached)}, {"by_changes_alone", reached_json(view.by_changes_alone)},
           {"by_changes_alone_text", view.by_changes_alone ? Json(text(by_changes_alone(*view.by_changes_alone))) : Json(nullptr)},
           {"first_possible", day_json_of(view.first_possible)}, {"release_from", day_json_of(view.release_from)}, {"release_until", day_json_of(view.release_until)}};
  const LoadRow* today = view.today();
  out["oxygen"] = {{"air", key_of(view.air_basis)}, {"transfer_l_per_h", estimate_json(view.transfer_l_per_h)}, {"sentence", today ? Json(text(oxygen_sentence(*today))) : Json(nullptr)},
                   {"records", view.oxygen_records}};
  out["filter"] = {{"known", view.filter_known}, {"doubted", view.filter_doubted}, {"turns_over_mg_n_per_day", estimate_json(view.filter_mg_n_per_day)},
                   {"total_ammonia_limit_mg_n_per_l", estimate_json(view.total_ammonia_limit_mg_n_per_l)}};
  out["reserve"] = Json::array();
  for (const auto& hold : view.reserve) out["reserve"].push_back(hold_json(hold, reader));
  out["shown"] = Json::array();
  for (const LoadRow* row : shown_days(view)) out["shown"].push_back(row_json(*row, reader));
  out["days"] = Json::array();
  for (const LoadRow& row : view.days) {
    Json day{{"day", iso_from_date(*row.day)}, {"animals", row.animals}, {"mass_g", row.animals * row.each_g.mid}, {"binding", key_of(row.binding)}};
    for (const LoadLimit limit : planning::all_load_limits) day[std::string(key_of(limit))] = row.by(limit) ? estimate_json(row.by(limit)->animals) : Json(nullptr);
    out["days"].push_back(std::move(day));
  }
  out["sizes"] = Json::array();
  for (const LoadRow& row : view.sizes) out["sizes"].push_back(row_json(row, reader));
  out["options"] = Json::array();
  for (const auto& option : view.reached ? view.reached->options : std::vector<planning::LoadOption>{}) out["options"].push_back({{"kind", key_of(option.kind)}, {"text", text(option.what)}});
  out["assumed"] = Json::array();
  for (const Sentence& s : view.assumed) out["assumed"].push_back(text(s));
  return out;
}

std::string loading_text(const LoadingLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  const LoadingView& view = look.view;
  std::string out = wrapped(text_of(headline(view), reader), width, "", "");
  const auto line = [&](const Sentence& words, std::string_view first = "  ") { out += wrapped(text_of(words, reader), width, first, "    "); };
  if (view.by_changes_alone) out += wrapped(text_of(by_changes_alone(*view.by_changes_alone), reader), width, "", "");
  if (view.state == LoadingView::State::released) return out;
  if (!view.days.empty()) out += "\n" + say(reader, "How many the tank carries: likely, in brackets cautiously; ! more are expected") + "\n" + table_text(shown_days(view), view.filter_known, true, reader);
  if (view.reached && !view.reached->options.empty()) {
    out += "\n" + say(reader, "What could be done") + "\n";
    for (const auto& option : view.reached->options) line(option.what, "  - ");
  }
  if (const LoadRow* today = view.today()) {
    out += "\n" + say(reader, "Oxygen today") + "\n";
    line(oxygen_sentence(*today));
  }
  if (!view.reserve.empty()) {
    out += "\n" + say(reader, "Oxygen when pump and air stop") + "\n";
    for (const auto& hold : view.reserve) line(hold_sentence(hold, reader));
  }
  out += "\n" + say(reader, "By size, at {0}", {look.season.target}) + "\n" + table_text(all_of(view.sizes), view.filter_known, false, reader);
  out += "\n" + say(reader, "What this rests on") + "\n";
  for (const Sentence& s : view.assumed) line(s, "  - ");
  return out;
}

}  // namespace redd::report
