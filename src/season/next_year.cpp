#include "season/next_year.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "advice/filter_proof.h"
#include "biology/typical_survival.h"

namespace redd::season {
namespace {

using records::Record;
using Verdict = Lesson::Verdict;
using std::chrono::days;

Number whole(double value) { return Number{std::llround(value)}; }
constexpr const char* no_eggs = "No eggs are logged.";

/// Days from the first to the last on which `counts(day)` is false, the longest run of them, and where it began.
struct Gaps {
  int days = 0, longest = 0;
  Date longest_from{};
};
template <class Counts>
Gaps gaps_of(const DaysWithAnimals& time, Counts&& counts) {
  Gaps gaps;
  int run = 0;
  for (Date day = time.first; day <= time.last; day += days(1)) {
    run = counts(day) ? 0 : run + 1;
    gaps.days += run > 0;
    if (run > gaps.longest) gaps.longest = run, gaps.longest_from = day - days(run - 1);
  }
  return gaps;
}

}  // namespace

std::optional<DaysWithAnimals> days_with_animals(const ReportLook& look) {
  if (!look.counts.received_on) return std::nullopt;
  DaysWithAnimals time{*look.counts.received_on, local_day(look.day.zone, look.day.now)};
  if (look.counts.released && !look.releases.empty()) time.last = local_day(look.day.zone, look.releases.back().entry.at);
  if (time.last < time.first) return std::nullopt;
  return time;
}

Lesson readiness_lesson(const ReportLook& look) {
  Lesson lesson{.key = "readiness"};
  if (!look.counts.received_on) {
    lesson.found = no_eggs;
    return lesson;
  }
  const Date eggs = *look.counts.received_on;
  std::vector<Record> before;
  for (const Record& record : look.day.records)
    if (local_day(look.day.zone, record.entry.at) <= eggs) before.push_back(record);
  const advice::Situation then{look.day.season, before, look.day.belief, nullptr, look.day.zone, look.day.now};
  const auto proof = advice::latest_proof(then);
  lesson.sure = "Rests on a dose of ammonia that was logged and the tests half a day to two days after it. A filter may have been ready without one, and may lose strength unfed.";
  if (!proof || local_day(look.day.zone, proof->at) > eggs) {
    lesson.verdict = Verdict::not_known;
    lesson.found = {"No test dose was logged as gone before the eggs came on {0}: whether the filter was ready is not known.", {eggs}};
    lesson.advice = "Next year, while nothing lives in the tank, make a test dose at the eggs' temperature about ten days before they come, and test the day after.";
    return lesson;
  }
  const double margin = static_cast<double>((eggs - local_day(look.day.zone, proof->at)).count());
  lesson.found = {"The filter had last cleared a test dose {0, plural, one {# day} other {# days}} before the eggs came.", {whole(margin)}};
  if (proof->water && proof->water->c() > look.day.season.target.c() + 2.0) {
    lesson.found = joined(lesson.found, {"The water was at {0} then, warmer than the eggs' {1}, where bacteria work slower.", {*proof->water, look.day.season.target}});
    lesson.verdict = Verdict::better;
    lesson.advice = "Next year cool the tank first and make the test dose in water as cold as the eggs will have.";
    return lesson;
  }
  if (!proof->water) {
    lesson.found = joined(lesson.found, "How warm the water was then nobody measured, so it says little of cold water.");
    lesson.advice = "Next year cool the tank first and make the test dose in water as cold as the eggs will have.";
    return lesson;
  }
  lesson.verdict = margin <= 10.0 ? Verdict::keep : Verdict::better;
  if (margin > 10.0) lesson.advice = "Next year repeat the test dose in the ten days before the eggs come: an unfed filter loses strength.";
  return lesson;
}

Lesson milestone_lesson(const ReportLook& look) {
  Lesson lesson{.key = "milestones"};
  int seen = 0, inside = 0;
  Sentence each;
  for (const Foretold& told : look.foretold) {
    if (!told.seen || !told.window) continue;
    ++seen;
    inside += told.fit == Foretold::Fit::inside;
    const double late = (biology::noon_of(*told.seen) - told.window->median).count();
    const Word stage{told.stage == biology::Stage::eyed ? "Eyeing" : told.stage == biology::Stage::hatch ? "Hatch" : "Swim-up"};
    const long long by = std::llround(std::abs(late));
    const Sentence one = by == 0 ? Sentence{"{0}: on the most likely day.", {stage}}
                                 : late > 0 ? Sentence{"{0}: {1, plural, one {# day} other {# days}} later than most likely.", {stage, Number{by}}}
                                            : Sentence{"{0}: {1, plural, one {# day} other {# days}} earlier than most likely.", {stage, Number{by}}};
    each = each.empty() ? one : joined(each, one);
  }
  if (seen == 0) {
    lesson.found = "No stage was both foretold and seen.";
    lesson.advice = "Next year write the eggs down on the day they come, and look for eyes, hatch and swim-up every school day around the window: also a look that finds nothing helps.";
    return lesson;
  }
  lesson.verdict = inside == seen ? Verdict::keep : Verdict::better;
  lesson.found = joined({"{0} of {1} inside the days foretold when the eggs came.", {Number{inside}, Number{seen}}}, each);
  lesson.sure = "A window is to hold nine times in ten. The day it was seen is the day somebody looked, so weekends blur it by a day or two.";
  if (inside < seen) lesson.advice = "Next year ask the hatchery for the thermal units on the day of shipping and how sure they are, and measure the tank's temperature daily: both narrow the window.";
  return lesson;
}

Lesson loss_lesson(const ReportLook& look) {
  Lesson lesson{.key = "losses"};
  const auto whole_way = std::ranges::find(look.counts.stages, biology::SurvivalStage::whole, &inference::StageSurvival::stage);
  if (!look.counts.received_on || whole_way == look.counts.stages.end()) {
    lesson.found = look.counts.received_on ? "Nothing can be said of losses yet." : no_eggs;
    return lesson;
  }
  using StageVerdict = inference::StageSurvival::Verdict;
  lesson.sure = "Ranges hold 9 times in 10, as so small a lot allows. The usual is a planning range. Only animals found dead are counted: some are never found.";
  // A short season is no reason to call losses few that nobody looked for.
  const bool looked = whole_way->verdict != StageVerdict::not_looked && (look.counts.losses.looked || whole_way->verdict != StageVerdict::not_below);
  if (!looked) {
    lesson.found = "Nobody logged a look for dead, so losses are not known.";
    lesson.advice = "Next year log the dead you take out every school day, and 0 when you looked and found none.";
    return lesson;
  }
  const auto usual = biology::typical_survival(biology::SurvivalStage::whole);
  lesson.found = {"{0} to {1} of the animals lived; usual is {2} to {3}.",
                  {Share{whole_way->survival_fraction.low}, Share{whole_way->survival_fraction.high}, Share{usual.low_fraction}, Share{usual.high_fraction}}};
  lesson.verdict = whole_way->verdict == StageVerdict::below ? Verdict::better : whole_way->verdict == StageVerdict::not_below ? Verdict::keep : Verdict::not_known;
  for (const auto& stage : look.counts.stages) {
    if (stage.verdict != StageVerdict::below || stage.stage == biology::SurvivalStage::whole) continue;
    const Word name{stage.stage == biology::SurvivalStage::egg ? "Eggs" : stage.stage == biology::SurvivalStage::alevin ? "Alevins" : "Fry"};
    lesson.found = joined(lesson.found, {"{0}: {1} died, more than usual.", {name, Number{stage.died}}});
    lesson.verdict = Verdict::better;
  }
  if (lesson.verdict == Verdict::better) lesson.advice = "Look in the report at what was done and how the water was in the days before the losses, and ask the hatchery how the same lot fared elsewhere.";
  return lesson;
}

Lesson test_lesson(const ReportLook& look) {
  Lesson lesson{.key = "tests"};
  const auto time = days_with_animals(look);
  if (!time) {
    lesson.found = no_eggs;
    return lesson;
  }
  constexpr int weekly_with_grace = static_cast<int>(inference::stale_after_days);
  std::set<Date> tested;
  for (const auto quantity : {records::Quantity::total_ammonia, records::Quantity::nitrite})
    if (const auto* belief = look.day.belief.find(quantity))
      for (const auto& sitting : belief->sittings) tested.insert(local_day(look.day.zone, sitting.at));
  int blind = 0;
  for (Date day = time->first; day <= time->last; day += days(1)) {
    const auto after = tested.upper_bound(day);
    blind += after == tested.begin() || (day - *std::prev(after)).count() > weekly_with_grace;
  }
  const Gaps gaps = gaps_of(*time, [&](Date day) { return tested.contains(day); });
  lesson.sure = "Counted from the log: a test that was made and not written down is not in it.";
  lesson.verdict = blind == 0 ? Verdict::keep : Verdict::better;
  lesson.found = {"Ammonia or nitrite was last tested more than nine days ago on {0} of {1} days with animals.", {Number{blind}, Number{time->count()}}};
  if (gaps.longest > 0) lesson.found = joined(lesson.found, {"The longest time without such a test: {0, plural, one {# day} other {# days}} from {1}.", {Number{gaps.longest}, gaps.longest_from}});
  if (blind > 0) lesson.advice = "Next year fix one weekday for the water test and name who makes it in the breaks: water that nobody tests can be anything.";
  return lesson;
}

Lesson temperature_lesson(const ReportLook& look) {
  Lesson lesson{.key = "temperatures"};
  const auto time = days_with_animals(look);
  if (!time) {
    lesson.found = no_eggs;
    return lesson;
  }
  std::set<Date> measured;
  for (const auto& one : look.day.belief.temperature.days)
    if (one.measured) measured.insert(one.day);
  const Gaps gaps = gaps_of(*time, [&](Date day) { return measured.contains(day); });
  constexpr int weekend_and_a_day = 3;
  lesson.sure = "Counted from the log.";
  lesson.verdict = gaps.longest <= weekend_and_a_day ? Verdict::keep : Verdict::better;
  lesson.found = {"The tank's temperature was measured on {0} of {1} days with animals.", {Number{time->count() - gaps.days}, Number{time->count()}}};
  if (gaps.longest > 0) lesson.found = joined(lesson.found, {"The longest time without: {0, plural, one {# day} other {# days}} from {1}.", {Number{gaps.longest}, gaps.longest_from}});
  if (lesson.verdict == Verdict::better) lesson.advice = "Next year read the thermometer every school day, or hang in a logger before breaks and import its file: dates of hatch and swim-up rest on it.";
  return lesson;
}

Result<NextYear> look_at_next_year(const Setup& setup, std::span<const Record> log, Instant now) {
  auto report = look_at_report(setup, log, now);
  if (!report) return report.problems();
  NextYear next{std::move(report).value(), {}};
  next.lessons = {readiness_lesson(next.report), water_lesson(setup, log, next.report), milestone_lesson(next.report), loss_lesson(next.report),
                  kit_lesson(next.report), test_lesson(next.report), temperature_lesson(next.report)};
  return next;
}

}  // namespace redd::season
