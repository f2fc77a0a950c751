#include "emergency/holds.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planning/oxygen_reserve.h"
#include "quantities/verbatim.h"

namespace redd::emergency {
namespace {

planning::ReserveCase reserve_case(const Case& now) { return planning::reserve_case(now.season, now.records, now.belief, now.heat, now.now); }

Sentence oxygen_basis(const Case& now, const Sentence& what) {
  const auto start = planning::oxygen_at_first(now.season, now.belief, now.heat.water);
  const Number count{planning::count_of(now.season, now.belief)};
  const Sentence basis = joined({start.support == Support::measured ? "Worked out for {0} {1} at {2}, from {3} oxygen as last read." : "Worked out for {0} {1} at {2}, from {3} oxygen (full; nobody measured it).",
                                 {count, Word{animals_word(now)}, now.heat.water, start.mid}},
                                what);
  return planning::count_is_assumed(now.season, now.belief) ? joined({"Nobody said how many eggs: {0} are taken.", {count}}, basis) : basis;
}

}  // namespace

Life life_of(const Case& now) { return planning::life_of(now.belief); }
bool has_animals(const Case& now) { return life_of(now) != Life::none; }
std::string animals_word(const Case& now) { return std::string(word_of(life_of(now))); }

Hours since_failure(const Case& now, std::initializer_list<Equipment> which, bool water_read_counts) {
  const auto failed = open_failures(now.records);
  std::optional<Instant> begun;
  for (const Equipment each : which)
    if (const auto found = failed.find(each); found != failed.end()) begun = std::min(begun.value_or(found->second->entry.at), found->second->entry.at);
  if (!begun) return Hours(0.0);
  if (water_read_counts)
    for (const records::Record& record : now.records)
      if (const auto* read = std::get_if<records::TemperatureReading>(&record.entry.body); read && read->place == records::TemperatureReading::Place::tank && record.entry.at <= now.now)
        begun = std::max(*begun, record.entry.at);
  return std::max(Hours(0.0), std::chrono::duration_cast<Hours>(now.now - *begun));
}

planning::HoldSpan less(planning::HoldSpan span, Hours gone) {
  for (auto* end : {&span.soonest, &span.likely, &span.latest})
    if (*end) **end = std::max(Hours(0.0), **end - gone);
  return span;
}

HoldTime still_basket(const Case& now) {
  return {{"a still basket of {0} runs short of oxygen", {Word{animals_word(now)}}}, planning::basket_reserve(reserve_case(now)), oxygen_basis(now, "A basket of a litre is taken.")};
}

HoldTime still_tank(const Case& now) {
  HoldTime time{"the whole tank runs short of oxygen", planning::tank_reserve(reserve_case(now)), oxygen_basis(now, "What comes in through a quiet surface counts only for the latest times.")};
  if (!planning::may_be_told(*time.span)) return {time.what, std::nullopt, "Not before the temperature or the basket matter, unless something rots: look and smell."};
  return time;
}

HoldTime out_of_water(const Case& now) {
  const Life life = life_of(now);
  const Word who{animals_word(now)};
  switch (life) {
    case Life::none:
    case Life::eggs:
      return {"eggs kept damp, dark and cold, out of water", planning::HoldSpan{Hours(24.0), Hours(72.0), Hours(12.0 * 24.0)},
              "Over 80 % of chinook eggs lived through 12 days damp at 10 °C in a trial (Becker and others 1982). A day is a cautious end; it is over when the first one hatches."};
    case Life::eggs_near_hatch:
      return {{"{0} out of water", {who}}, planning::HoldSpan{Hours(0.0), Hours(1.0), Hours(4.0)},
              "Hatching ends the grace that eggs have: of newly hatched alevins 4 hours a day out of water killed half (Becker and others 1982). Keep them under water."};
    case Life::alevins:
      return {{"{0} out of water", {who}}, planning::HoldSpan{Hours(0.0), Hours(1.0), Hours(4.0)},
              "4 hours a day out of water killed half of newly hatched alevins (Becker and others 1982)."};
    case Life::alevins_near_emergence:
    case Life::fry: break;
  }
  return {{"{0} out of water", {who}}, planning::HoldSpan{Hours(0.0), Hours(0.0), Hours(1.0)},
          "After hatching there is no grace: an hour a day out of water killed nearly all alevins near emergence (Becker and others 1982)."};
}

HoldTime still_filter() {
  return {"a closed filter's water goes foul and its bacteria begin to die", planning::HoldSpan{Hours(2.0), Hours(4.0), Hours(24.0)}, "Common practice, no source. Open or wet media in air bear more."};
}

std::vector<HoldTime> temperature_times(const std::vector<planning::LimitTime>& times, const Case& now, const Sentence& unknown, Hours gone) {
  if (times.empty()) return {{"the water leaves what the animals bear", std::nullopt, unknown}};
  Sentence basis = now.heat.model.rests_on;
  if (!now.heat.water_measured)
    basis = joined(basis, {"Nobody has read the water's temperature lately, {0} is taken: read it now.", {now.heat.water}});
  if (gone > Hours(0.25)) basis = joined(basis, {"{0} are taken off: so long ago it failed, or the temperature was last read since.", {Days(gone)}});
  else gone = Hours(0.0);
  std::vector<HoldTime> out;
  for (const auto& time : times) out.push_back({joined({"the water reaches {0}:", {time.limit}}, time.name), less(time.span, gone), basis});
  return out;
}

std::vector<HoldTime> without_flow(const Case& now, std::initializer_list<Equipment> which) {
  std::vector<HoldTime> times;
  if (in_basket(life_of(now))) times.push_back(still_basket(now));
  times.push_back(has_animals(now) ? still_tank(now) : still_filter());
  if (const Hours gone = since_failure(now, which); gone > Hours(0.0))
    for (HoldTime& time : times)
      if (time.span) {
        time.span = less(*time.span, gone);
        time.basis = joined(time.basis, {"The {0} since it failed are taken off, as if nobody had made flow or air by hand.", {Days(gone)}});
      }
  for (HoldTime& time : temperature_times(now.heat.power_cut, now, "The tank is not described.", since_failure(now, {Equipment::power, Equipment::chiller}, true))) times.push_back(std::move(time));
  return times;
}

Sentence flow_first(const Case& now) {
  if (!has_animals(now)) return "No animals yet, so only the filter can be lost: keep its media wet and in air, or give it air from a battery pump.";
  if (!in_basket(life_of(now))) return "Air first: a battery air stone. Without one, lift water out and pour it back from a hand's height, five minutes in every half hour.";
  return {"Flow first: pour tank water gently through the basket every {0} minutes, day and night, or hang a battery air stone under it.", {Number{pour_every_minutes(now)}}};
}

std::vector<Sentence> eggs_into_the_damp(const Case& now) {
  if (life_of(now) != Life::eggs) return {};
  return {"If nobody can make flow: lift the basket of eggs out, let it drain, and keep it under a wet cloth, dark and at the tank's temperature; dip it in tank water every 6 hours. "
          "Only for eggs, never once one has hatched."};
}

int pour_every_minutes(const Case& now) {
  const double half_minutes = 30.0 * still_basket(now).span->soonest.value_or(Hours(24.0)).count();
  for (const int round : {120, 90, 60, 45, 30, 20, 15, 10})
    if (half_minutes >= round) return round;
  return 5;
}

Sentence pull_the_plug() {
  return "People first: dry hands, and pull the plug before touching wet equipment. A protected socket that trips has a reason: do not bridge or bypass it; call a licensed electrician if it trips "
         "again.";
}

Sentence moving_needs_the_permit() { return "Ring the permit office before animals go to another tank or place: the permit decides."; }

Sentence supplier_by_temperature(const Case& now) {
  if (!has_animals(now) && now.season.egg_day)
    return {now.season.egg_day_assumed ? "Ring the egg supplier when the tank may not be right for eggs, and ask when they come: {0} is only assumed."
                                       : "Ring the egg supplier when the tank may not be right by {0}: eggs can often come later.",
            {*now.season.egg_day}};
  return {"Ring the egg supplier when the water stands above {0} or below {1}, or will before somebody is back.", {now.heat.limits.red_above, now.heat.limits.red_below}};
}

Sentence test_of(const Case& now, records::Quantity quantity) {
  for (const records::Record& record : now.records)
    if (const auto* kit = std::get_if<records::Kit>(&record.entry.body))
      for (const records::KitTest& test : kit->tests)
        if (test.quantity == quantity) return {"Test {0} (kit \"{1}\").", {Word{records::quantity_text(quantity)}, Word{verbatim(kit->name)}}};
  return {"Find a test of {0}: none of your kits has one.", {Word{records::quantity_text(quantity)}}};
}

const records::WaterChange* recent_change(const Case& now) {
  const records::WaterChange* found = nullptr;
  for (const records::Record& record : now.records)
    if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body); change && record.entry.at <= now.now && now.now - record.entry.at < std::chrono::hours(48)) found = change;
  return found;
}

Sentence time_sentence(const planning::HoldSpan& span) {
  const auto gone = [](const std::optional<Hours>& hours) { return hours && hours->count() <= 0.0; };
  if (gone(span.likely)) return "already.";
  if (gone(span.soonest) && !span.likely) return "perhaps already.";
  if (gone(span.soonest)) return {span.latest ? "perhaps already, else likely after {0}." : "perhaps already, else after {0} or more, perhaps never.", {Days(*span.likely)}};
  if (!span.likely) return {"perhaps never, at the soonest after {0}.", {Days(*span.soonest)}};
  return {span.latest ? "likely after {0}, at the soonest after {1}." : "after {0} or more, perhaps never; at the soonest after {1}.", {Days(*span.likely), Days(*span.soonest)}};
}

}  // namespace redd::emergency
