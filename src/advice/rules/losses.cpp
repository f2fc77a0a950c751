// More dead than is to be expected: something is wrong, whatever the tests say. A few are usual: out with them, and into the log.

#include <algorithm>

#include "advice/rule.h"
#include "inference/counts.h"

namespace redd::advice::rules {
namespace {

using inference::LossWatch;

const char* dead_word(inference::Animals animals) {
  if (inference::are_eggs(animals)) return "eggs";
  return animals == inference::Animals::alevin ? "alevins" : "fry";
}

Reason chart_reason(const LossWatch& losses) {
  const Number died{losses.died};
  const Measured usual{losses.expected};
  if (losses.since == losses.found)
    return {{"Since {0} {1} were found dead; about {2} would be usual for this stage and season. Such an alarm is false at most once in {3} days.",
             {losses.found, died, usual, Number{losses.false_alarm_days}}}, losses.records};
  return {{"Since {0} {1} were found dead, the first on {2}; about {3} would be usual for this stage and season. Such an alarm is false at most once in {4} days.",
           {losses.since, died, losses.found, usual, Number{losses.false_alarm_days}}}, losses.records};
}

Action outbreak(const Situation& s, const LossWatch& losses) {
  Action a;
  a.rule = a.key = "losses";
  a.tone = losses.many_at_once ? Tone::alarm : Tone::act;
  a.deeds = {Deed::test, Deed::count, Deed::ask_for_help};
  a.concern = {"More have died than is usual."};
  a.what = {"Find out why they are dying."};
  a.how_much = {"In this order: temperature, air and flow, ammonia with pH, nitrite, chlorine, then what changed lately. Take the dead out and count them."};
  if (s.belief.brood.animals == inference::Animals::fry) a.cautions.push_back({"Feed nothing until the tests are read."});
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.effort_minutes = 30;
  a.again = Days(1);
  a.benefit = {"{0} died in three days. Most causes can be tested and put right the same day; left alone they go on killing.", {Number{losses.recent_died}}};
  if (losses.state == LossWatch::State::more_than_expected) a.because.push_back(chart_reason(losses));
  if (losses.many_at_once)
    a.because.push_back({{"Dead logged in the last three days: {0}, which is {1} of those alive before.", {Number{losses.recent_died}, Share{losses.recent_fraction}}}, losses.recent_records});
  constexpr std::size_t most_changes = 4;  // the whole list, and what is known of each check, stands in the counts
  for (std::size_t i = 0; i < std::min(most_changes, losses.changes.size()); ++i) a.because.push_back({losses.changes[i].sentence, losses.changes[i].records});
  a.would_change_if.push_back({{"A count that was mistyped: correct that record."}, losses.records.empty() ? losses.recent_records : losses.records});
  a.would_change_if.push_back({{"Three days with no more dead than usual."}, {}});
  a.cautions.push_back({"Then call the egg supplier or the agency on the permit, or a vet: they decide what it is. No medicine without them."});
  a.cautions.push_back({"Keep a few of the dead cold, not frozen, in a labelled bag in case the agency asks for them; not in a fridge for food."});
  a.cautions.push_back({"Gloves, and the dead by the local rule; wash hands. Release none while they die unexplained."});
  a.sources = {"chart: cumulative sum of counts (Lucas 1985) with limits for a fixed false-alarm rate (Zhang & Woodall 2015)", "order of checks and the tenth within three days: common practice, no source"};
  return a;
}

/// Some died, no more than usual, and nobody has looked since.
std::optional<Action> pick_the_dead(const Situation& s, const LossWatch& losses) {
  if (losses.recent_died == 0 || !losses.looked || *losses.looked >= s.today()) return std::nullopt;
  const Word animals{dead_word(s.belief.brood.animals)};
  const Date day = open_day_from(s, s.today());
  Action a;
  a.rule = "losses";
  a.key = "losses/pick_the_dead";
  a.beside_calm = true;
  a.tone = Tone::watch;
  a.deeds = {Deed::count};
  a.concern = {"A few have died, no more than is usual."};
  a.what = {"Pick out dead {0}, count them and log the number.", {animals}};
  a.how_much = {"Every day; log none as well."};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.again = Days(1);
  a.benefit = {"Dead ones grow fungus and become ammonia; counted daily, more than the usual {0} in three days are noticed.", {Measured{3.0 * losses.expected_per_day}}};
  a.because.push_back({{"Dead logged in the last three days: {0}; of so many animals about {1} in three days are usual at this stage.", {Number{losses.recent_died}, Measured{3.0 * losses.expected_per_day}}}, losses.recent_records});
  a.would_change_if.push_back({{"More dead: the chart of losses then asks for tests."}, {}});
  a.cautions.push_back({"Touch only the dead. Eggs and alevins are not to be stirred or poured."});
  a.sources = {"daily picking of dead eggs: Piper and others 1982, Fish hatchery management"};
  return a;
}

/// More died a few days ago than is usual: until a week has shown that it is over somebody looks every day.
Action look_daily(const Situation& s, const LossWatch& losses) {
  const inference::PastLosses& past = *losses.lately;
  const Date day = losses.looked && *losses.looked >= s.today() ? next_school_day(s) : open_day_from(s, s.today());
  Action a;
  a.rule = "losses";
  a.key = "losses/pick_the_dead";
  a.tone = Tone::watch;
  a.deeds = {Deed::count};
  a.concern = {"More died a few days ago than is usual."};
  a.what = {"Pick out dead {0}, count them and log the number.", {Word{dead_word(s.belief.brood.animals)}}};
  a.how_much = {"Every day; log none as well."};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.again = Days(1);
  a.benefit = {"What killed them may go on: counted daily, the next ones are noticed before they are many."};
  a.because.push_back({{"{0} were found dead until {1}, where about {2} would be usual; since then {3}.", {Number{past.died}, past.last, Measured{past.expected}, Number{past.died_since}}}, past.records});
  a.would_change_if.push_back({{"A week with no more dead than usual."}, {}});
  a.would_change_if.push_back({{"More dead: the chart of losses then asks for tests."}, {}});
  a.cautions.push_back({"Touch only the dead. Eggs and alevins are not to be stirred or poured."});
  a.sources = {"daily picking of dead eggs: Piper and others 1982, Fish hatchery management", "a week after the last of them: common practice, no source"};
  return a;
}

}  // namespace

std::vector<Action> losses(const Situation& s) {
  if (!s.looks.counts || !inference::has_animals(s.belief.brood.animals)) return {};
  const LossWatch& losses = s.looks.counts->losses;
  if (losses.state == LossWatch::State::more_than_expected || losses.many_at_once) return {outbreak(s, losses)};
  if (losses.lately) return {look_daily(s, losses)};
  if (auto picking = pick_the_dead(s, losses)) return {std::move(*picking)};
  return {};
}

}  // namespace redd::advice::rules
