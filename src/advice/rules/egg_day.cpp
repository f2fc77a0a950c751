// The weeks before the eggs: start the chill in time, and don't receive eggs into an unready tank.

#include <cmath>

#include "advice/filter_proof.h"
#include "advice/rule.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {
namespace {

using std::chrono::days;
constexpr double chill_c_per_day = 1.0;  // Assumed: gentle to the filter (Hwang & Oleszkiewicz 2007: a sudden fall costs extra)
constexpr days last_dose_before{2};      // Assumed: a dose needs a day to go, and a day more when it does not go as hoped
constexpr days ask_within{3};            // Assumed: so long may pass until somebody has asked for a day that is only taken
constexpr int settle_days = 3;           // Assumed: days at target before the eggs, to see that the chiller holds

void chill(const Situation& s, Date egg_day, std::vector<Action>& actions) {
  if (!s.belief.temperature.latest) return;
  const double fall_c = s.belief.temperature.latest->c() - s.season.target.c();
  if (fall_c <= 0.7) return;
  const days needed(static_cast<int>(std::ceil(fall_c / chill_c_per_day)) + settle_days);
  const Date start = egg_day - needed;
  if (s.today() + days(14) < start) return;
  Action a;
  a.rule = "egg_day";
  a.key = "egg_day/chill";
  a.aim = Aim::deadline;
  a.deeds = {Deed::set_temperature};
  a.again = Days(2);
  a.effort_minutes = 10;
  a.benefit = {"The eggs come into {0}; without it the tank stands {1} above that on {2}.", {s.season.target, TemperatureChange::from_c(fall_c), egg_day}};
  const bool late = s.today() > start;
  a.concern = {"The tank must be cold when the eggs come."};
  a.tone = late ? Tone::act : Tone::watch;
  const bool assumed = s.season.egg_day_assumed;
  const Date begin = std::max(start, assumed ? s.today() + ask_within : s.today());
  a.what = s.belief.temperature.set_point && *s.belief.temperature.set_point < *s.belief.temperature.latest - TemperatureChange::from_c(0.5)
               ? Sentence{"Go on chilling the tank."}
           : assumed ? Sentence{"Start to chill the tank {0}, if the eggs come on {1}.", {begin, egg_day}}
                     : Sentence{"Start to chill the tank {0}.", {begin}};
  a.how_much = {"From {0} to {1}, about {2} a day.", {*s.belief.temperature.latest, s.season.target, TemperatureChange::from_c(chill_c_per_day)}};
  a.by = s.end_of(begin);
  a.by_text = by_text(s, begin);
  a.because.push_back({{assumed ? "The eggs are taken to come on {0}; {1} days of chilling and {2} days at the target are needed before."
                                 : "The eggs come on {0}; {1} days of chilling and {2} days at the target are needed before.",
                        {egg_day, Number{static_cast<int>(std::ceil(fall_c / chill_c_per_day))}, Number{settle_days}}}, {s.belief.temperature.record}});
  if (late && !assumed) a.because.push_back({{"That start has passed: chill a little faster ({0} a day at most), or ask the supplier for a later day.", {TemperatureChange::from_c(3)}}, setup_records(s)});
  a.would_change_if.push_back({{"Another egg day or target in the season's set-up."}, setup_records(s)});
  a.cautions.push_back({"The filter works slower in the cold: test ammonia and nitrite again once the tank is cold, before the eggs come."});
  a.sources = {"Hwang & Oleszkiewicz 2007 (gradual against sudden cooling)"};
  actions.push_back(std::move(a));
}

void readiness(const Situation& s, Date egg_day, std::vector<Action>& actions) {
  if (s.today() + days(21) < egg_day) return;
  const auto* tan = s.belief.find(inference::Quantity::total_ammonia);
  const auto* no2 = s.belief.find(inference::Quantity::nitrite);
  std::vector<records::RecordId> ids;
  if (tan) ids = tan->records;
  if (no2) ids.insert(ids.end(), no2->records.begin(), no2->records.end());
  const bool known = tan && no2 && !inference::is_stale(*tan) && !inference::is_stale(*no2);
  const bool clear = known && s.of(WaterKey::un_ionized_ammonia).value &&
                     s.of(WaterKey::un_ionized_ammonia).value->high < chemistry::limits::action_un_ionized_ammonia.mg_n_per_l() &&
                     no2->value.mid < s.of(WaterKey::nitrite).limits[1].value;
  const auto proof = latest_proof(s);
  if (clear && proven_cold(s, proof)) return;
  const bool time_for_a_dose = egg_day - s.today() > last_dose_before;
  Action a;
  a.rule = "egg_day";
  a.key = "egg_day/ready";
  a.aim = Aim::deadline;
  a.again = Days(2);
  const Days left(egg_day - s.today());
  const bool assumed = s.season.egg_day_assumed;
  a.concern = {assumed ? "The assumed egg day is near." : "The eggs are near."};
  a.because.push_back({{s.season.egg_day_assumed ? "The eggs are taken to come on {0}." : "The eggs are due on {0}.", {egg_day}}, setup_records(s)});
  if (!known) {
    a.tone = Tone::act;
    a.deeds = {Deed::test};
    a.effort_minutes = 15;
    a.benefit = {"A filter found raw today leaves {0} to put it right; found raw on egg day it leaves none.", {left}};
    a.what = {"Test ammonia and nitrite before the eggs come."};
    a.how_much = time_for_a_dose ? Sentence{"After a small ammonia dose, both should be gone a day later at the temperature the eggs will have."}
                                 : Sentence{"Both should read nothing. No ammonia goes in any more: it may not be gone when the eggs come."};
    a.because.push_back({{"There is no recent test of both, so nobody can say whether the filter is ready."}, ids});
  } else if (!clear) {
    a.tone = Tone::act;
    a.deeds = {Deed::ask_for_help, Deed::test};
    a.effort_minutes = 30;
    a.benefit = {"Keeps eggs out of water with more than {0} un-ionized ammonia or {1} nitrite, in a filter that has {2} left to ripen.",
                 {ShownNitrogen{chemistry::limits::action_un_ionized_ammonia, NitrogenBasis::nh3}, s.on_card(inference::Quantity::nitrite, s.of(WaterKey::nitrite).limits[1].value), left}};
    a.what = {assumed ? "The filter is not ready for eggs: say so when you ask the hatchery for the day." : "The filter is not ready for eggs: ask the supplier for a later day, or plan daily tests and water changes."};
    a.how_much = time_for_a_dose ? Sentence{"Change water until both are clear, then dose a little ammonia and see whether it is gone a day later."}
                 : assumed       ? Sentence{"Should eggs come all the same: change water until both are clear, and test both every day. No ammonia goes in any more."}
                                 : Sentence{"Call now. If the eggs come all the same: change water until both are clear, and test both every day. No ammonia goes in any more."};
    a.because.push_back({{"Ammonia or nitrite is still above what eggs should have: ammonia {0}; nitrite {1}.", {Word{tan->raw_text}, Word{no2->raw_text}}}, ids});
  } else {
    a.tone = Tone::watch;
    a.deeds = time_for_a_dose ? std::vector{Deed::dose, Deed::test} : std::vector{Deed::test};
    a.effort_minutes = 20;
    a.benefit = {"Shows with {0} in hand whether the filter works at {1} too.", {left, s.season.target}};
    a.what = time_for_a_dose ? Sentence{"Prove the filter once more, cold."} : Sentence{"Have water for changes ready, and test ammonia and nitrite every day once the eggs are in."};
    a.how_much = time_for_a_dose ? Sentence{"Dose a little ammonia at the eggs' temperature; it and nitrite should be gone a day later."}
                                 : Sentence{"The filter was not proven cold, and it is too late for a dose: it may not be gone when the eggs come."};
    a.because.push_back({{"Ammonia and nitrite are clear now, but a filter ripened warm can be weak when cold."}, ids});
  }
  // A supplier needs to hear of another day as soon as it is known; what is only to be tested has until three days before.
  const Date day = known && !clear && !assumed ? s.today() : std::max(s.today(), egg_day - days(3));
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.would_change_if.push_back({{"A test that shows both gone a day after a dose."}, ids});
  a.sources = {"common practice, no source"};
  actions.push_back(std::move(a));
}

}  // namespace

std::vector<Action> egg_day(const Situation& s) {
  std::vector<Action> actions;
  if (s.belief.brood.animals != inference::Animals::none || !s.season.egg_day) return actions;
  if (s.today() > *s.season.egg_day) {
    if (inference::egg_day_assumed(s.season, s.belief.brood)) return actions;  // "receiving" asks for the day
    Action a;
    a.rule = "egg_day";
    a.key = "egg_day/log_eggs";
    a.aim = Aim::deadline;
    a.deeds = {Deed::count};
    a.again = Days(1);
    a.benefit = {"For {0} nothing has been judged by what eggs bear; it is from the day they are logged.", {Days(s.today() - *s.season.egg_day)}};
    a.tone = Tone::act;
    a.concern = {"The egg day has passed."};
    a.what = {"Log the eggs, or the new day they come."};
    a.how_much = {"Number, and what the hatchery says of their age."};
    a.by = s.end_of(s.today());
    a.by_text = {"today"};
    a.because.push_back({{"The eggs were due on {0} and no receipt is logged, so limits for eggs are not applied.", {*s.season.egg_day}}, setup_records(s)});
    a.would_change_if.push_back({{"An egg receipt, or a corrected egg day."}, setup_records(s)});
    return {a};
  }
  chill(s, *s.season.egg_day, actions);
  readiness(s, *s.season.egg_day, actions);
  return actions;
}

}  // namespace redd::advice::rules
