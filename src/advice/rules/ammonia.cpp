// Un-ionized ammonia above a mark with animals in the tank: dilute it, feed less, test again.

#include "advice/rule.h"
#include "chemistry/ammonia.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {
namespace {

Action without_this_water(const Situation& s, Tone tone) {
  Action a;
  a.tone = tone;
  a.key = "ammonia/other_water";
  a.deeds = {Deed::ask_for_help};
  a.again = Days(1);
  a.what = {"Don't change water with this source: it would not lower the ammonia. Find other water and call the egg supplier."};
  a.how_much = tone == Tone::alarm ? Sentence{"Stop all food, take out dead eggs and waste, keep the tank cool and well aired, test again in two hours."}
                                   : Sentence{"Take out dead eggs, leftovers and waste, keep the tank cool and well aired, test again in two hours."};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.effort_minutes = 30;
  a.because.push_back({{"With this source's own ammonia, pH and KH, even half the tank changed would leave as much un-ionized ammonia or more."}, {s.belief.source_record}});
  return a;
}

/// Little is read, but at this pH the card can't tell little from too much.
Action look_closer(const Situation& s, const Assessment& un) {
  const auto nh3 = [](double v) { return ShownNitrogen{NitrogenConc::from_mg_n_per_l(v), NitrogenBasis::nh3}; };
  const double goal = chemistry::limits::action_un_ionized_ammonia.mg_n_per_l();
  Action a;
  a.rule = "ammonia";
  a.key = "ammonia/closer";
  a.deeds = {Deed::test};
  a.again = Days(7);
  a.tone = Tone::watch;
  a.concern = {"The card is too coarse to say that ammonia is low enough at this pH."};
  a.what = {"Test ammonia and pH once more, with a finer card or meter if you can get one."};
  a.how_much = {"Two people read, in daylight, after the full waiting time."};
  const Date day = next_school_day(s);
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 15;
  a.benefit = {"It tells {0}, where one would act, from next to nothing.", {nh3(goal)}};
  a.because.push_back({{"Un-ionized ammonia is between {0} and {1}, about {2}; act at {3}.", {nh3(un.value->low), nh3(un.value->high), nh3(un.value->mid), nh3(goal)}}, un.records});
  a.would_change_if.push_back({{"A finer reading: below the mark this ends, above it water is changed."}, un.records});
  a.sources = {"Emerson et al. 1975 (fraction)", "Meade 1985 (0.0125 mg/L as NH3)"};
  return a;
}

/// No ammonia on the card, but a pH that may be anything above its own.
Action read_ph_higher(const Situation& s, const Assessment& un) {
  Action a = look_closer(s, un);
  a.tone = un.tone;
  a.concern = {"pH is off the top of its card, so nobody knows how harmful a trace of ammonia is."};
  a.what = {"Read pH with a card or meter that goes higher, and ammonia once more."};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  return a;
}

/// In numbers, and what was seen of eggs kept in more.
Sentence averted(const planning::WaterChange& change, const Estimate<double>& now, bool open_above, bool changes) {
  const auto nh3 = [](double v) { return ShownNitrogen{NitrogenConc::from_mg_n_per_l(v), NitrogenBasis::nh3}; };
  const Shown killed = nh3(chemistry::limits::un_ionized_ammonia_killed_new_eggs.mg_n_per_l());
  if (!changes) return {"Keeps water that would not help out of a tank that may hold {0}; kept in {1} from fertilisation, seven in ten trout eggs died.", {nh3(now.high), killed}};
  if (open_above || !change.un_ionized_after)
    return {"Takes out {0} of an ammonia that has no known upper bound; kept in {1} from fertilisation, seven in ten trout eggs died.", {Share{change.fraction}, killed}};
  return {"Takes un-ionized ammonia from at most {0} to at most {1}; kept in {2} from fertilisation, seven in ten trout eggs died.", {nh3(now.high), nh3(change.un_ionized_after->high), killed}};
}

}  // namespace

std::vector<Action> ammonia(const Situation& s) {
  const Assessment& un = s.of(WaterKey::un_ionized_ammonia);
  if (!inference::has_animals(s.belief.brood.animals) || !un.value || un.tone < Tone::watch) return {};
  if (un.tone == Tone::watch) return {look_closer(s, un)};
  const double goal = chemistry::limits::action_un_ionized_ammonia.mg_n_per_l();
  const auto small_enough = [&](const planning::WaterChange& c) { return c.un_ionized_after && c.un_ionized_after->high < goal; };
  auto change = planning::smallest_change(s.season, s.belief, small_enough);
  const bool enough = change.has_value();
  if (!change) change = planning::predict_change(s.season, s.belief, planning::largest_fraction);
  // A source with ammonia of its own, or one that lifts pH, can make it worse. One that brings none at least takes total ammonia out: where the harmful part
  // stays as it was for now (KH that pH follows), the next change lowers it.
  const auto* tan = s.belief.find(inference::Quantity::total_ammonia);
  const bool brings_little = s.belief.source && s.belief.source->total_ammonia && tan && s.belief.source->total_ammonia->mg_n_per_l() < 0.25 * tan->value.mid;
  const double gain = brings_little ? 1.05 : 0.95;
  const bool helps = change->un_ionized_after && change->un_ionized_before && change->un_ionized_after->high < gain * change->un_ionized_before->high;
  const bool source_known = s.belief.source && s.belief.source->ph && s.belief.source->alkalinity && s.belief.source->total_ammonia;
  const bool repeat_first = only_by_doubt(s) || ((needs_repeat(s, inference::Quantity::total_ammonia) || needs_repeat(s, inference::Quantity::ph)) && un.value->low < goal);
  // Nothing is said against a source on readings that contradict each other.
  Action a = helps || !source_known || repeat_first ? water_change_action(s, *change, un.tone, s.today()) : without_this_water(s, un.tone);
  a.rule = "ammonia";
  a.stake = 0.3;  // Assumed: of the same order as the losses of the source below
  a.benefit = averted(*change, *un.value, un.open_above, helps || !source_known);
  a.concern = un.value->mid >= goal || un.open_above ? Sentence{"Ammonia is too high for the animals."} : Sentence{"Ammonia may be too high for the animals."};
  const auto nh3 = [](double v) { return ShownNitrogen{NitrogenConc::from_mg_n_per_l(v), NitrogenBasis::nh3}; };
  a.because.push_back({{"Un-ionized ammonia is between {0} and {1}; act at {2}, alarm at {3}.",
                        {nh3(un.value->low), nh3(un.value->high), nh3(goal), nh3(chemistry::limits::alarm_un_ionized_ammonia.mg_n_per_l())}}, un.records});
  if (un.open_above) a.because.push_back({{"A reading is off the top of its card, so the true value has no upper bound."}, un.records});
  if (un.stale) a.because.push_back({{"The readings are {0} old; it may have risen since.", {Days(un.age_days)}}, un.records});
  if (const auto* ph = s.belief.find(inference::Quantity::ph); ph && s.belief.temperature.latest)
    a.because.push_back({{"At {0} and up to {1}, {2} of total ammonia is in the harmful form.",
                          {*s.belief.temperature.latest, Ph::from_ph(ph->value.high),
                           Share{chemistry::un_ionized_fraction(*s.belief.temperature.latest, Ph::from_ph(std::min(ph->value.high, 14.0)))}}}, ph->records});
  if (!enough) a.because.push_back({{"Half the water at once is the most that is safe and it is not enough: repeat tomorrow after testing."}, {}});
  a.would_change_if.push_back({{"A repeat of the ammonia and pH tests that reads lower; the upper end of both readings was used."}, un.records});
  if (s.belief.brood.animals == inference::Animals::fry || s.belief.brood.animals == inference::Animals::alevin)
    a.cautions.insert(a.cautions.begin(), un.tone == Tone::alarm ? Sentence{"Give no food until the repeat test is below the alarm."} : Sentence{"Halve the food until the repeat test is below the mark."});
  a.cautions.push_back({"Add no bicarbonate now: raising pH makes the same ammonia more harmful."});
  a.cautions.push_back({"Test ammonia and pH again tomorrow. If animals look distressed or die, call the egg supplier or agency."});
  a.sources = {"Emerson et al. 1975 (fraction)", "Solbé & Shurben 1989 (trout eggs)", "Meade 1985 (0.0125 mg/L as NH3)", "Directive 2006/44/EC annex I (0.025, from memory)"};
  // Next to no ammonia at a pH off its card alarms for the pH alone: read that with a card that goes higher before water is moved.
  constexpr double next_to_none_mg_n_per_l = 0.3;  // Assumed: what a card's first step may hide
  const bool only_ph_alarms = un.open_above && tan && !tan->open_above && tan->value.high < next_to_none_mg_n_per_l && un.value->low < goal;
  if (only_ph_alarms || repeat_first) await_repeat(s, a);
  if (only_ph_alarms) return {read_ph_higher(s, un), a};
  return {a};
}

}  // namespace redd::advice::rules
