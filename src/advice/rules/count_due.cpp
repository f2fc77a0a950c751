// When the living should be counted, and when nobody has looked for dead for too long. Survival is only known from counts.

#include <algorithm>
#include <cmath>

#include "advice/rule.h"
#include "quantities/rough_count.h"
#include "inference/counts.h"

namespace redd::advice::rules {
namespace {

using biology::Stage;
using inference::Counts;
using std::chrono::days;

struct Due {
  Date day;
  Sentence why;
};

std::optional<Date> newest_count(const Counts& counts, bool hatched_too) {
  std::optional<Date> newest;
  for (const auto& count : counts.account.counts)
    if (count.what == records::Count::What::alive || hatched_too) newest = count.day;
  return newest;
}

/// Nearly all have passed a stage by now: the day the last tenth did; nothing before.
std::optional<Date> passed_on(const Situation& s, Stage stage) {
  if (!s.belief.brood.forecast) return std::nullopt;
  const auto& forecast = s.belief.brood.forecast->stage(stage);
  constexpr double nearly_all = 0.95;
  return forecast.past_fraction.mid >= nearly_all ? std::optional(biology::day_of(forecast.last_tenth.median)) : std::nullopt;
}

std::vector<Due> counts_due(const Situation& s, const Counts& counts) {
  std::vector<Due> due;
  const Date today = s.today();
  const auto alive = newest_count(counts, false);
  const auto since = [&](Date day) { return alive && *alive >= day; };
  const auto hatched = passed_on(s, Stage::hatch);
  if (!hatched) return due;  // of eggs the account is known from the dead picked out
  const auto any = newest_count(counts, true);
  if (today <= *hatched + days(14) && !(any && *any >= *hatched)) due.push_back({*hatched + days(3), {"Hatch is over: a count now tells how many eggs hatched."}});
  const Date feeding = biology::day_of(s.belief.brood.forecast->stage(Stage::swim_up).first_tenth.median);
  // Assumed: a fortnight before is still a count "before feeding"; a week before a release.
  if (today + days(7) >= feeding && today <= feeding + days(7) && !since(feeding - days(14))) due.push_back({feeding, {"First feeding is near: the ration goes by the number."}});
  if (s.season.release_from && today + days(7) >= *s.season.release_from && !since(*s.season.release_from - days(7)))
    due.push_back({std::max(today, *s.season.release_from), {"The release may begin on {0}, and the permit asks how many.", {*s.season.release_from}}});
  const Date last = std::max(alive.value_or(*counts.received_on), *hatched);
  if (today >= last + days(30)) due.push_back({last + days(30), {"The living were last counted more than a month ago, or never."}});
  return due;
}

Action count_the_living(const Situation& s, const Counts& counts, const std::vector<Due>& due) {
  const Date first = std::ranges::min_element(due, {}, &Due::day)->day;
  const Date day = open_day_from(s, std::max(first, s.today()));
  Action a;
  a.rule = "count_due";
  a.key = "count_due/count";
  a.beside_calm = true;
  a.tone = Tone::watch;
  a.aim = Aim::deadline;
  a.deeds = {Deed::count};
  a.concern = {"It is time to count the living."};
  a.what = {"Count the living and log it as alive."};
  a.how_much = {"From above or from a photo, three times, each logged. Or count one marked part of the floor and log it as sampled, with the part you looked at."};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 20;
  const auto left = rough_count(counts.account.alive);
  a.benefit = {"Without it nobody knows about dead that dissolved or went into the filter; food and release go by a guess of {0} to {1}.",
               {Number{left.low}, Number{left.high}}};
  for (const Due& each : due) a.because.push_back({each.why, counts.account.receipt_records});
  a.because.push_back({{"By receipts, dead and releases about {0} are left ({1} to {2}).",
                        {Number{left.mid}, Number{left.low}, Number{left.high}}}, {}});
  a.would_change_if.push_back({{"A count that was made and not logged."}, {}});
  a.cautions.push_back({"Do not net or pour alevins: the yolk sac tears. Count them where they lie, in dim light, in a minute or two."});
  a.sources = {"when to count: common practice, no source"};
  return a;
}

Action look_for_dead(const Situation& s, const Counts& counts) {
  const Date last = counts.losses.looked.value_or(*counts.received_on);
  const Date day = open_day_from(s, s.today());
  Action a;
  a.rule = "count_due";
  a.key = "count_due/look_for_dead";
  a.beside_calm = true;
  a.tone = Tone::watch;
  a.deeds = {Deed::count};
  a.concern = {"Nobody has logged a look for dead for some time."};
  a.what = {"Look for dead, take them out and log the number. None is a number too."};
  a.how_much = {"Also under the lid, on the intake and behind the basket."};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.again = Days(1);
  a.benefit = {"Dead ones become ammonia, and for {0} nobody could have noticed more of them than usual.", {Days(static_cast<double>((s.today() - last).count()))}};
  a.because.push_back({{counts.losses.looked ? "The last count of dead was logged {0} ago: whether any died since is not known." : "The eggs came {0} ago and no count of dead is logged: whether any died is not known.",
                        {Days(static_cast<double>((s.today() - last).count()))}}, counts.account.receipt_records});
  a.would_change_if.push_back({{"A look that was made and not logged."}, {}});
  a.sources = {"daily picking of dead eggs: Piper and others 1982, Fish hatchery management"};
  return a;
}

Action numbers_disagree(const Situation& s, const inference::Finding& finding) {
  Action a;
  a.rule = "count_due";
  a.key = "count_due/counts_disagree";
  a.aim = Aim::deadline;
  a.deeds = {Deed::count};
  a.benefit = {"Food, losses and the permit's report all go by these numbers: by them about {0} are left.", {Number{std::llround(s.looks.counts->account.alive.mid)}}};
  a.tone = Tone::watch;
  a.concern = {"The numbers of animals do not add up."};
  a.what = {"Check the counts, and correct the one that is wrong."};
  a.how_much = {"Compare with the paper log; count again when in doubt."};
  a.by = s.end_of(next_school_day(s));
  a.by_text = by_text(s, next_school_day(s));
  a.because.push_back({finding.sentence, finding.records});
  a.would_change_if.push_back({{"A corrected record, or a new count that fits."}, finding.records});
  a.sources = {"arithmetic of the log"};
  return a;
}

/// Of a count no older than a week; nullptr when that found nobody missing.
const inference::Finding* newly_missing(const Situation& s, const Counts& counts) {
  if (counts.account.missing.empty() || counts.account.counts.empty()) return nullptr;
  const auto& newest = counts.account.counts.back();
  return newest.fit == inference::CountTaken::Fit::fewer && s.today() - newest.day <= days(7) ? &counts.account.missing.back() : nullptr;
}

Action look_for_missing(const Situation& s, const inference::Finding& missing) {
  Action a;
  a.rule = "count_due";
  a.key = "count_due/animals_missing";
  a.tone = Tone::act;
  a.deeds = {Deed::count};
  a.concern = {"Animals are missing that nobody found dead."};
  a.what = {"Look for the missing ones, then count again."};
  a.how_much = {"Under the lid and beside the tank, on the intake and in the filter, in the gravel, behind the basket. Log what you find as dead."};
  a.by = s.end_of(s.today());
  a.by_text = by_text(s, s.today());
  a.effort_minutes = 15;
  a.benefit = {"An open intake or lid goes on taking them; dead ones rot into ammonia."};
  a.because.push_back({missing.sentence, missing.records});
  a.would_change_if.push_back({{"A second count that finds them."}, missing.records});
  a.cautions.push_back({"Switch the pump off before hands go near the intake, and on again after."});
  a.sources = {"common practice, no source"};
  return a;
}

}  // namespace

std::vector<Action> count_due(const Situation& s) {
  if (!s.looks.counts || !s.looks.counts->received_on || !inference::has_animals(s.belief.brood.animals)) return {};
  const Counts& counts = *s.looks.counts;
  std::vector<Action> actions;
  if (const auto due = counts_due(s, counts); !due.empty()) actions.push_back(count_the_living(s, counts, due));
  const Date looked = counts.losses.looked.value_or(*counts.received_on);
  if (static_cast<double>((s.today() - looked).count()) > inference::stale_after_days) actions.push_back(look_for_dead(s, counts));
  // One at a time: mending one often mends the next.
  if (!counts.account.contradictions.empty()) actions.push_back(numbers_disagree(s, counts.account.contradictions.back()));
  else if (const auto* missing = newly_missing(s, counts)) actions.push_back(look_for_missing(s, *missing));
  return actions;
}

}  // namespace redd::advice::rules
