// The release: planned before the permit's last day, never decided after it, and never from one temperature into another.

#include <cmath>

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

using std::chrono::days;

/// Assumed, common practice: mixed from 3 C apart, put off from 5 C. A state agency calls 5.6 C (10 F) stressful and potentially fatal for trout.
constexpr double mix_c = 3.0, put_off_c = 5.0;

/// The newest release that names both temperatures.
const records::Record* measured_release(const Situation& s) {
  const records::Record* newest = nullptr;
  for (const auto& record : s.records)
    if (const auto* r = std::get_if<records::Release>(&record.entry.body); r && r->tank && r->site) newest = &record;
  return newest;
}

void add_temperatures(const Situation& s, Action& a) {
  const records::Record* last = measured_release(s);
  if (!last) return;
  const auto& release = std::get<records::Release>(last->entry.body);
  const double apart_c = std::abs((*release.site - *release.tank).c());
  if (apart_c <= mix_c) return;
  a.because.push_back({{"At the last release the tank stood at {0} and the release water at {1}.", {*release.tank, *release.site}}, {last->id}});
  if (apart_c > put_off_c) a.cautions.push_back({"More than {0} apart is too much: move the tank towards the stream by {1} a day at most, or wait for another day.",
                                                  {TemperatureChange::from_c(put_off_c), TemperatureChange::from_c(2)}});
}

Action plan_it(const Situation& s, Date last) {
  Action a;
  a.rule = "release";
  a.beside_calm = true;
  a.key = "release/plan";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.again = Days(3);
  constexpr days near{7};
  const Date day = std::max(s.today(), s.school.is_open(last) ? last : s.school.last_open_day_before(last).value_or(last));
  a.tone = last - s.today() <= near ? Tone::act : Tone::watch;
  a.concern = {"The permit's time for the release runs out."};
  a.what = {"Plan the release: day, place as the permit names it, who carries, who comes along."};
  a.how_much = {"No food for a day before; count; an insulated box with battery air; log both temperatures; more than {0} apart, mix stream water in over 20 to 30 minutes.",
                {TemperatureChange::from_c(mix_c)}};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 60;
  a.benefit = {"{0} are left in which the permit allows it; after that nobody here may decide it.", {Days(last - s.today() + days(1))}};
  a.because.push_back({{"The permit's last day is {0}, and fry are still in the tank.", {last}}, setup_records(s)});
  a.would_change_if.push_back({{"A logged release, or other days in the permit."}, setup_records(s)});
  a.cautions.push_back({"High water, ice or heat at the stream: put it off and tell the agency."});
  a.cautions.push_back({"Tank water stays out of the stream as far as the permit asks; cold water's edge: one adult to a few pupils."});
  a.sources = {"release only as permitted, e.g. 5 AAC 41", "day plan and 3 C: common practice, no source", "Tennessee wildlife agency 2010 (5.6 C apart)"};
  add_temperatures(s, a);
  return a;
}

Action window_missed(const Situation& s, Date last) {
  Action a;
  a.rule = "release";
  a.key = "release/missed";
  a.aim = Aim::deadline;
  a.deeds = {Deed::ask_for_help};
  a.again = Days(1);
  a.tone = Tone::act;
  a.concern = {"The permit's time for the release is over."};
  a.what = {"Call the agency that gave the permit before any fish is moved."};
  a.how_much = {"Until they say what to do: feed, test and keep them as before."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 15;
  a.benefit = {"Release, giving away or keeping without permission is an offence, and puts wild fish at risk."};
  a.because.push_back({{"The permit's last day was {0}, and fry are still in the tank by the counts.", {last}}, setup_records(s)});
  a.would_change_if.push_back({{"A release that was made and not logged, or a longer permit: correct the set-up."}, setup_records(s)});
  a.sources = {"release only where and when permitted, e.g. Arkansas code 26.12"};
  return a;
}

/// A part was released, and the rest goes to the same water.
std::vector<Action> temper_next(const Situation& s) {
  constexpr double recent_days = 14.0;
  const records::Record* last = measured_release(s);
  if (!last || days_between(last->entry.at, s.now).count() > recent_days) return {};
  const auto& release = std::get<records::Release>(last->entry.body);
  if (std::abs((*release.site - *release.tank).c()) <= mix_c) return {};
  Action a;
  a.rule = "release";
  a.beside_calm = true;
  a.key = "release/temper";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.again = Days(7);
  a.tone = Tone::watch;
  a.concern = {"The release water was far from the tank's temperature."};
  a.what = {"Before the next release: bring tank and stream closer together, then mix."};
  a.how_much = {"Stream water into the box a little at a time over 20 to 30 minutes; move the tank by {0} a day at most in the days before.", {TemperatureChange::from_c(2)}};
  a.by = s.end_of(next_school_day(s));
  a.by_text = by_text(s, next_school_day(s));
  a.effort_minutes = 10;
  a.benefit = {"Spares the next ones a step of {0}.", {TemperatureChange::from_c(std::abs((*release.site - *release.tank).c()))}};
  a.would_change_if.push_back({{"A stream measured within {0} of the tank.", {TemperatureChange::from_c(mix_c)}}, {last->id}});
  a.sources = {"3 C and 20 to 30 minutes: common practice, no source", "Tennessee wildlife agency 2010 (5.6 C apart)"};
  add_temperatures(s, a);
  return {a};
}

}  // namespace

std::vector<Action> release(const Situation& s) {
  if (!inference::has_animals(s.belief.brood.animals)) return {};
  constexpr days planned_ahead{14};
  const auto last = s.season.release_until;
  if (last && s.today() > *last) return {window_missed(s, *last)};
  if (last && *last - s.today() <= planned_ahead) return {plan_it(s, *last)};
  return temper_next(s);
}

}  // namespace redd::advice::rules
