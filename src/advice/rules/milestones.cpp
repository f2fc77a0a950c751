// What the brood will do next, and what to have ready. A milestone that should have come and was not logged is asked after.

#include <cmath>

#include "advice/rule.h"

#include "quantities/verbatim.h"

namespace redd::advice::rules {
namespace {

using biology::Stage;

/// The published curve behind a forecast, in words.
std::string curve_source(const Situation& s, const biology::StageForecast& f) {
  const auto model = biology::model_for(*s.belief.brood.species, f.stage, f.model_key);
  return model ? std::string(model->source) : std::string(f.model_key);
}

bool logged(const Situation& s, Stage stage) {
  for (const auto& report : s.belief.brood.forecast->observations)
    if (report.observation.seen && biology::stage_of(report.observation.milestone) == stage) return true;
  return false;
}

/// More than the first was seen.
bool hatch_is_done(const Situation& s) {
  for (const auto& report : s.belief.brood.forecast->observations)
    if (report.observation.seen && (report.observation.milestone == biology::Milestone::half_hatched || report.observation.milestone == biology::Milestone::hatch_complete)) return true;
  return false;
}

Sentence window_reason(const biology::StageForecast& f, const char* what) {
  return {what, {biology::day_of(f.first_tenth.low_50), biology::day_of(f.lot.low_50), biology::day_of(f.lot.high_50), biology::day_of(f.lot.low_90), biology::day_of(f.lot.high_90)}};
}

std::vector<records::RecordId> ground(const Situation& s) {
  std::vector<records::RecordId> ids = s.belief.brood.milestone_records;
  if (s.belief.brood.receipt) ids.push_back(*s.belief.brood.receipt);
  return ids;
}

void hatch(const Situation& s, std::vector<Action>& actions) {
  const auto& f = s.belief.brood.forecast->stage(Stage::hatch);
  const Date today = s.today(), first = biology::day_of(f.first_tenth.low_90);
  const bool begun = logged(s, Stage::hatch);
  if (hatch_is_done(s) || today + std::chrono::days(10) < first || (!begun && f.past_fraction.mid > 0.98)) return;
  Action a;
  a.rule = "milestones";
  a.beside_calm = true;
  a.key = "milestones/hatch";
  a.aim = Aim::deadline;
  a.deeds = {Deed::count};
  a.again = Days(f.happened_probability > 0.5 ? 1 : 7);
  a.benefit = {"It is seen on its day, and the dates ahead close in: so far half have hatched with {0}.", {Chance{f.happened_probability}}};
  a.tone = Tone::watch;
  a.concern = begun ? Sentence{"They are hatching."} : Sentence{"Hatch is near."};
  a.what = begun ? Sentence{"Look every day how far hatch has come, and log when half have hatched."}
           : f.happened_probability > 0.5 ? Sentence{"Look for hatched alevins and log what you see."} : Sentence{"Get ready for hatch."};
  a.how_much = {"Look every day and log \"none yet\" too; keep the tank dark; pick dead eggs; take shells out after hatch."};
  a.by = s.end_of(std::max(today, first));
  a.by_text = by_text(s, std::max(today, first));
  a.because.push_back({window_reason(f, "Half should have hatched between {1} and {2} (nine chances in ten: {3} to {4}); the first may come around {0}."), ground(s)});
  const Date middle = biology::day_of(f.lot.median);
  if (const auto closure = s.school.closure_on(middle))
    a.because.push_back({{"The school is closed on the most likely day, {0} ({1}): plan who looks.", {middle, Word{verbatim(closure->name)}}}, ground(s)});
  else if (!s.school.is_open(middle))
    a.because.push_back({{"The most likely day, {0}, is on a weekend: plan who looks.", {middle}}, ground(s)});
  if (const Date tomorrow = today + std::chrono::days(1); begun && !s.school.is_open(tomorrow))
    a.because.push_back({{"Hatch goes on and the school is closed tomorrow: plan who looks over the weekend or the break."}, ground(s)});
  a.would_change_if.push_back({{"What you see: a first hatch or \"none yet\" narrows the window."}, ground(s)});
  a.cautions.push_back({"Hatching makes foam and a burst of ammonia: test ammonia the day after most have hatched."});
  a.sources = {curve_source(s, f)};
  actions.push_back(std::move(a));
}

void swim_up(const Situation& s, std::vector<Action>& actions) {
  const auto& f = s.belief.brood.forecast->stage(Stage::swim_up);
  const Date today = s.today(), first = biology::day_of(f.first_tenth.low_90);
  if (logged(s, Stage::swim_up) || today + std::chrono::days(14) < first || f.past_fraction.mid > 0.98) return;
  Action a;
  a.rule = "milestones";
  a.beside_calm = true;
  a.key = "milestones/swim_up";
  a.aim = f.happened_probability > 0.5 ? Aim::animals : Aim::deadline;
  a.deeds = {Deed::count, Deed::plan};
  a.again = Days(f.happened_probability > 0.5 ? 1 : 7);
  a.effort_minutes = 20;
  // Source  unfed fry starve in about four days once the yolk is gone (published salmon studies, as in the rule of feeding).
  a.benefit = {"Fry whose yolk is gone starve within about {0}; half already swim up with {1}.", {Days(4), Chance{f.happened_probability}}};
  a.tone = Tone::watch;
  a.concern = {"First feeding is near."};
  a.what = f.happened_probability > 0.5 ? Sentence{"Look for swim-up and start to feed."} : Sentence{"Get the first food ready."};
  a.how_much = {"When half swim up, a pinch of the finest food a few times a day; routine feeding when nine in ten do."};
  a.by = s.end_of(std::max(today, first));
  a.by_text = by_text(s, std::max(today, first));
  a.because.push_back({window_reason(f, "Half should swim up between {1} and {2} (nine chances in ten: {3} to {4}); the first may come around {0}."), ground(s)});
  a.would_change_if.push_back({{"What you see: log first swim-up, half swim-up, or \"none yet\"."}, ground(s)});
  a.cautions.push_back({"No unfed gap longer than a day in the first three weeks of feeding: plan weekends now."});
  a.cautions.push_back({"Food becomes ammonia: take leftovers out and test twice a week when feeding starts."});
  a.sources = {curve_source(s, f), "first feeding at 50 to 90 % swim-up: published trout guides"};
  actions.push_back(std::move(a));
}

}  // namespace

std::vector<Action> milestones(const Situation& s) {
  std::vector<Action> actions;
  if (!s.belief.brood.forecast || !inference::has_animals(s.belief.brood.animals)) return actions;
  hatch(s, actions);
  swim_up(s, actions);
  for (const auto& report : s.belief.brood.forecast->observations) {
    if (report.sentence.empty() || std::abs(report.surprise_sd) < 3.0) continue;
    Action a;
    a.rule = "milestones";
    a.beside_calm = true;
    a.key = "milestones/check_" + iso_from_date(report.observation.day);
    a.aim = Aim::deadline;
    a.deeds = {Deed::count};
    a.benefit = {"Every date ahead moves with it; it lies {0} standard deviations off.", {Measured{report.surprise_sd, ""}}};
    a.tone = Tone::watch;
    a.concern = {"A milestone does not fit the dates."};
    a.what = {"Check the milestone logged on {0}.", {report.observation.day}};
    a.how_much = {"Is the date right, and is the egg receipt's age right?"};
    a.by = s.end_of(next_school_day(s));
    a.by_text = by_text(s, next_school_day(s));
    a.because.push_back({report.sentence, ground(s)});
    a.would_change_if.push_back({{"A corrected date or a better age from the hatchery."}, ground(s)});
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
