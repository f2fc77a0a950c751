// The next change of the water programme, when it falls within the coming week.

#include <algorithm>
#include <cmath>

#include "advice/rule.h"
#include "planning/water_programme.h"

namespace redd::advice::rules {
namespace {

using planning::PlannedChange;
using planning::WaterProgramme;

std::vector<records::RecordId> judged_records(const Situation& s) {
  std::vector<records::RecordId> ids;
  for (const WaterKey key : {WaterKey::un_ionized_ammonia, WaterKey::nitrite, WaterKey::nitrate, WaterKey::alkalinity, WaterKey::hardness})
    ids.insert(ids.end(), s.of(key).records.begin(), s.of(key).records.end());
  std::ranges::sort(ids);
  ids.erase(std::ranges::unique(ids).begin(), ids.end());
  return ids;
}

Sentence dose_caution(const Situation& s, const WaterProgramme& p, const PlannedChange& c) {
  if (!p.source.chlorine_known)
    return {"Its chlorine is not on record: {0} of sodium thiosulfate (pentahydrate) binds the most that US tap water may carry, {1}. Test total chlorine before it goes in.",
            {*c.thiosulfate, Measured{p.source.chlorine_mg_per_l, "mg/L"}}};
  if (c.freed_ammonia_mg_n_per_l > 0.0)
    return {"Dechlorinate the new water first: {0} of sodium thiosulfate (pentahydrate), then test total chlorine. The chloramine's ammonia that is set free ({1} in the tank) is counted in.",
            {*c.thiosulfate, s.on_card(inference::Quantity::total_ammonia, c.freed_ammonia_mg_n_per_l)}};
  return {"Dechlorinate the new water first: {0} of sodium thiosulfate (pentahydrate), then test total chlorine.", {*c.thiosulfate}};
}

void say_how(const Situation& s, Action& a, const WaterProgramme& p, const PlannedChange& c) {
  if (c.temper.as_it_comes)
    a.cautions.push_back({"It may go in at its own temperature, {0}: it moves the tank by less than {1}.", {c.temper.aim, planning::untempered_step}});
  else
    a.cautions.push_back({"Bring the new water to {0} (between {1} and {2} at the most).", {c.temper.aim, c.temper.low, c.temper.high}});
  a.cautions.push_back({"Pour over at least {0} minutes, so that the tank moves by no more than {1} in an hour.", {Number{c.refill_minutes}, planning::largest_step}});
  if (c.thiosulfate) a.cautions.push_back(dose_caution(s, p, c));
  if (c.must_stand) a.cautions.push_back({"Let the new water stand and bubble for {0} hours first: set it up the day before.", {Number{static_cast<long long>(planning::standing_hours)}}});
  if (c.vacuum && c.bands.vacuumed_mg_n.high > 0.0)
    a.cautions.push_back({"Vacuum a third of the open bottom with it: that takes out {0} to {1} of waste nitrogen.",
                          {Mass::from_mg(c.bands.vacuumed_mg_n.low), Mass::from_mg(c.bands.vacuumed_mg_n.high)}});
  a.cautions.push_back({"Switch off and unplug what is under water before reaching in; dry hands for plugs."});
}

}  // namespace

std::vector<Action> water_programme(const Situation& s) {
  const WaterProgramme* p = s.looks.water;
  if (!p || p->stale || p->programme.changes.empty()) return {};
  const PlannedChange& next = p->programme.changes.front();
  const auto& without = p->none.forecast;
  if (!p->worth_asking()) return {};
  // What the list asks already is asked once; only that it is to be made sooner, or larger, is news.
  if (p->asked_today && p->asked_today->by <= next.day && next.fraction <= p->asked_today->fraction + 1e-9) return {};
  // A change weeks off can wait to be said, unless a limit is broken before it, as when a break lies between.
  const bool broken_before = !p->reached && without.first_mid_day && local_day(s.zone, after_days(p->begin, *without.first_mid_day)) < next.day;
  if (next.day > s.today() + std::chrono::days(7) && !broken_before) return {};
  Action a;
  a.rule = "water_programme";
  a.aim = Aim::animals;
  a.deeds = {Deed::change_water};
  a.tone = p->reached ? Tone::watch : Tone::act;
  a.concern = {"The water would leave its limits in the coming weeks."};
  a.what = {"Change {0} of the water {1}.", {Share{next.fraction}, next.day}};
  a.how_much = {"{0} out, {0} in: the first of {1} changes until {2}.", {next.volume, Number{static_cast<long long>(p->programme.changes.size())}, p->last}};
  a.by = s.end_of(next.day);
  a.by_text = by_text(s, next.day);
  a.effort_minutes = 30 + next.refill_minutes;
  a.benefit = Sentence{"{0} that a limit is broken by {1} without any change; {2} with this programme.",
                       {Chance{without.broken_probability}, p->last, Chance{p->programme.forecast.broken_probability}}};
  if (without.first && without.first_mid_day)
    a.because.push_back({{"Without changes {0} is what most often leaves its limit first, about {1}.",
                          {Word{std::string(planning::limit_name(*without.first))}, local_day(s.zone, after_days(p->begin, *without.first_mid_day))}}, judged_records(s)});
  if (!p->reached)
    a.because.push_back({{"Not all limits can be kept; this brings the water back soonest: some limit is broken {0} of the time, without any change {1}.",
                          {Share{p->programme.forecast.exposure}, Share{without.exposure}}}, {}});
  a.because.push_back({p->rests_on, {}});
  if (p->source.record != 0) a.because.push_back({{"With the source water on record as {0}.", {Word{p->source.name}}}, {p->source.record}});
  a.would_change_if.push_back({{"The next tests: the programme is worked out anew with each."}, {}});
  if (!p->source.unknown.empty()) a.would_change_if.push_back({p->source.unknown.front(), {}});
  say_how(s, a, *p, next);
  if (!p->reached) a.cautions.insert(a.cautions.end(), p->cautions.begin(), p->cautions.end());
  a.sources = {"limits as on the water cards", "1 °C an hour, stand 24 h: common practice, no source", "chance: share of simulated tanks"};
  if (p->asked_today)
    a.because.insert(a.because.begin(), {{"{0} on {1} instead of {2} by {3} keeps the water inside its limits for longer.", {Share{next.fraction}, next.day, Share{p->asked_today->fraction}, p->asked_today->by}}, judged_records(s)});
  a.water_change = planning::predict_change(s.season, s.belief, next.fraction);
  return {a};
}

}  // namespace redd::advice::rules
