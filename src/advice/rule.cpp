#include "advice/rule.h"

#include <algorithm>
#include <cmath>

#include "chemistry/limits.h"
#include "planning/water_programme.h"

namespace redd::advice {

using std::chrono::days;

std::vector<records::RecordId> ids_of(std::initializer_list<const std::vector<records::RecordId>*> lists) {
  std::vector<records::RecordId> all;
  for (const auto* list : lists)
    for (const records::RecordId id : *list)
      if (std::ranges::find(all, id) == all.end()) all.push_back(id);
  return all;
}

std::vector<records::RecordId> setup_records(const Situation& s) {
  for (std::size_t i = s.records.size(); i-- > 0;)
    if (std::holds_alternative<records::SeasonSetup>(s.records[i].entry.body)) return {s.records[i].id};
  return {};
}

Date open_day_from(const Situation& s, Date day) {
  if (s.school.is_open(day)) return day;
  const auto next = s.school.next_open_day(day);
  const bool can_wait = next && (*next - day <= longest_wait || !inference::has_animals(s.belief.brood.animals));
  return can_wait ? *next : day;
}

Date next_school_day(const Situation& s) {
  const Date day = open_day_from(s, s.today() + days(1));
  return !s.school.is_open(day) && s.school.is_open(s.today()) ? s.today() : day;
}

Sentence by_text(const Situation& s, Date day) {
  if (day <= s.today()) return {"today"};
  if (day == s.today() + days(1)) return {"tomorrow"};
  return {"by {0}", {day}};
}

Date next_weekly_test(const Situation& s) {
  // Ammonia and nitrite tested in between are no weekly sitting: the third newest of the six tells when half of them were last read together.
  std::vector<Instant> read;
  for (const auto quantity : weekly_quantities)
    if (const auto* known = s.belief.find(quantity)) read.push_back(known->read_at);
  std::ranges::sort(read, std::greater<>());
  constexpr std::size_t half = weekly_quantities.size() / 2;
  const std::optional<Instant> newest = read.empty() ? std::nullopt : std::optional(read[std::min(read.size(), half) - 1]);
  return newest ? local_day(s.zone, *newest) + days(7) : s.today();
}

Date weekly_test_day(const Situation& s, Date due) {
  using std::chrono::days;
  if (const Date habitual = by_habit(s.habits, s.school, due); habitual >= s.today()) due = habitual;
  if (s.school.is_open(due)) return due;
  if (const auto near = s.school.next_open_day(due - days(3)); near && *near < due) return *near;
  if (const auto before = s.school.last_open_day_before(due); before && *before >= std::max(s.today(), due - days(4))) return *before;
  return open_day_from(s, due);
}

std::optional<Reason> habit_reason(const Situation& s, Date due) {
  constexpr std::array names{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  const Date day = by_habit(s.habits, s.school, due);
  if (day == due || day < s.today()) return std::nullopt;
  const unsigned due_weekday = std::chrono::weekday(due).c_encoding();
  const Word planned{names[std::chrono::weekday(day).c_encoding()]};
  for (const auto& avoided : s.habits.avoided)
    if (avoided.weekday == due_weekday)
      return Reason{{"You skip tests on a {0} ({1} of the last {2}), so {3} is planned.", {Word{names[due_weekday]}, Number{avoided.times}, Number{avoided.of}, planned}}, avoided.records};
  return Reason{{"You test on a {0} ({1} of the last {2} sittings), so that is planned.", {planned, Number{s.habits.usual->times}, Number{s.habits.usual->of}}}, s.habits.usual->records};
}

std::vector<records::RecordId> filter_readings(const Situation& s) {
  std::vector<records::RecordId> ids;
  for (const auto quantity : {inference::Quantity::total_ammonia, inference::Quantity::nitrite})
    if (const auto* known = s.belief.find(quantity)) ids = ids_of({&ids, &known->records});
  return ids.empty() ? setup_records(s) : ids;
}

std::string key_word(inference::Quantity quantity) {
  using enum inference::Quantity;
  switch (quantity) {
    case total_ammonia: return "total_ammonia";
    case nitrite: return "nitrite";
    case nitrate: return "nitrate";
    case ph: return "ph";
    case alkalinity: return "alkalinity";
    case hardness: return "hardness";
    case oxygen: return "oxygen";
    case chlorine: return "chlorine";
    case chloride: break;
  }
  return "chloride";
}

bool needs_repeat(const Situation& s, inference::Quantity quantity) {
  const auto* known = s.belief.find(quantity);
  return known && known->disagree && !inference::is_stale(*known);
}

planning::WaterChange bearable(const Situation& s, planning::WaterChange change) {
  constexpr double step = 0.05, least = 0.1;
  const double mark = chemistry::limits::action_un_ionized_ammonia.mg_n_per_l();
  const double most = s.looks.water ? std::max(least, s.looks.water->largest_fraction) : planning::largest_fraction;
  const auto harms = [&](const planning::WaterChange& c) {
    return c.fraction > most + 1e-9 || (c.un_ionized_before && c.un_ionized_after && c.un_ionized_before->high < mark && c.un_ionized_after->high >= mark);
  };
  while (harms(change) && change.fraction > least + 1e-9) change = planning::predict_change(s.season, s.belief, std::max(least, change.fraction - step));
  return change;
}

bool only_by_doubt(const Situation& s) {
  const auto is_doubted = [&](const auto& known) { return known.second.doubt.has_value(); };
  if (std::ranges::none_of(s.belief.water, is_doubted)) return false;
  inference::Belief read;
  read.temperature = s.belief.temperature;
  read.water = s.belief.water;
  for (auto& [quantity, known] : read.water)
    if (known.doubt) known.value = known.doubt->unwidened;
  const auto un = inference::un_ionized_ammonia(read);
  return un && !un->open_above && un->mg_n_per_l.high < chemistry::limits::action_un_ionized_ammonia.mg_n_per_l();
}

void await_repeat(const Situation& s, Action& change) {
  if (!change.water_change) return;
  change.what = {"If the repeat test reads high too, change {0} of the water.", {Share{change.water_change->fraction}}};
  change.how_much = {"Make {0} of new water ready meanwhile.", {change.water_change->volume}};
  change.deeds = {Deed::wait};
  change.from = s.now + std::chrono::hours(1);  // Assumed: a repeat and a second pair of eyes
  change.water_change.reset();
}

Action water_change_action(const Situation& s, planning::WaterChange change, Tone tone, Date by) {
  Action a;
  a.tone = tone;
  a.deeds = {Deed::change_water};
  a.again = Days(1);
  a.what = {"Change {0} of the water.", {Share{change.fraction}}};
  a.how_much = {"{0} out, {0} in.", {change.volume}};
  a.by = s.end_of(by);
  a.by_text = by_text(s, by);
  a.effort_minutes = 30;
  if (change.thiosulfate)
    a.cautions.push_back({"Dechlorinate the new water first: {0} sodium thiosulfate for {1}, then check with a total-chlorine test.", {*change.thiosulfate, change.volume}});
  else if (!s.belief.source || !s.belief.source->chlorine_mg_per_l)
    a.cautions.push_back({"Tap water may hold chlorine or chloramine, which kill at 0.02 mg/L: dechlorinate it and test before it goes in."});
  if (change.temper_to)
    a.cautions.push_back({"Bring the new water to about {0} first: as it comes it would move the tank by more than {1}.", {*change.temper_to, planning::untempered_step}});
  else
    a.cautions.push_back({"Pour slowly, so that the tank moves by less than {0} in an hour.", {planning::largest_step}});
  const auto ph_before = change.before.find(inference::Quantity::ph), ph_after = change.after.find(inference::Quantity::ph);
  if (ph_before != change.before.end() && ph_after != change.after.end()) {
    // Source: at most half a unit of man-made change in salmonid waters (Directive 2006/44/EC, annex I).
    constexpr double half_unit = 0.5;
    if (std::abs(ph_after->second.mid - ph_before->second.mid) > half_unit)
      a.cautions.push_back({"It moves pH from about {0} to {1}: do it in two or three parts, an hour or more apart.",
                            {Ph::from_ph(ph_before->second.mid), Ph::from_ph(ph_after->second.mid)}});
  }
  a.cautions.push_back({"Cold tap water can hold too much gas: let it stand and bubble for a day before use."});
  a.cautions.push_back({"Switch off and unplug what is under water before reaching in; dry hands for plugs."});
  a.water_change = std::move(change);
  return a;
}

}  // namespace redd::advice
